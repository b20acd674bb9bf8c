"""The figures of the main job in one run: `python -m tests.bench.report`. Prints, asserts nothing.

Times are of whole processes, beside that of `import cadquery`, which is the least that anything with solids costs.
Memory is the largest resident size of the process, beside the same import's.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from generator.build import check_room

ROOT = Path(__file__).parents[2]
ROOMS = ROOT / "profiles" / "rooms"
COMMAND = "from generator.cli import main; main()"


def measured(*words: str) -> tuple[float, float, float]:
    """Wall seconds, processor seconds and largest resident MB of one Python process."""
    started = time.perf_counter()
    process = subprocess.Popen(
        [sys.executable, "-c", *words], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, cwd=ROOT
    )
    _, _, usage = os.wait4(process.pid, 0)
    process.returncode = 0
    wall = time.perf_counter() - started
    return wall, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024


def main() -> None:
    print(f"{'process':<44}{'wall s':>8}{'cpu s':>8}{'peak MB':>9}")
    least = measured("import cadquery")
    rows = {"import cadquery": least, "boardwright --help": measured(COMMAND, "--help")}
    with tempfile.TemporaryDirectory() as folder:
        for room in ("recess", "recess-as-measured", "corner-shower", "recess-600", "recess-600-cured"):
            file = str(ROOMS / f"{room}.yaml")
            rows[f"check {room}"] = measured(COMMAND, "check", file)
            rows[f"build {room}"] = measured(COMMAND, "build", file, "-o", f"{folder}/{room}")
        for name, (wall, cpu, memory) in rows.items():
            print(f"{name:<44}{wall:>8.2f}{cpu:>8.2f}{memory:>9.0f}")
        print(f"\nbuild recess: memory above the import {rows['build recess'][2] - least[2]:.0f} MB")
        files = [p for p in Path(folder, "recess").rglob("*") if p.is_file()]
        print(f"build recess: {len(files)} files, {sum(p.stat().st_size for p in files)} bytes")
    print(f"\n{'room':<24}{'objective':<22}{'value':>12}{'bound':>12}{'gap %':>8}  proven")
    for path in sorted(ROOMS.glob("*.yaml")):
        proof = check_room(path, ()).plan.proof
        gap = 100 * (proof.value - proof.bound) / proof.value
        print(
            f"{path.stem:<24}{proof.objective:<22}{proof.value:>12.1f}{proof.bound:>12.1f}{gap:>8.1f}  {proof.proven}"
        )


if __name__ == "__main__":
    main()
