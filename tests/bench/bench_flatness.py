"""Shim material against the bound of another solver, on random fields: python -m tests.bench.bench_flatness."""

from __future__ import annotations

import sys
from time import process_time

from generator.planning.flatness.solve import least_moves
from tests.planning.flatness.fields import LARGE, SMALL, STEP, least_volume, random_field


def main(count: int) -> None:
    """One line for each tile size."""
    for name, wanted in (("large", LARGE), ("small", SMALL)):
        material, bound, proven, slowest = 0.0, 0.0, 0, 0.0
        for seed in range(count):
            faces = random_field(seed)
            start = process_time()
            moves = least_moves(faces, wanted, STEP)
            slowest = max(slowest, process_time() - start)
            assert moves is not None
            material, bound = material + moves.material, bound + (least_volume(faces, wanted) or 0.0)
            proven += moves.material - moves.bound <= 1e-6 * max(moves.material, 1.0)
        over = 100 * (material - bound) / bound
        print(
            f"{name} tile: {count} fields, {material / 1000:.0f} cm3 in whole steps, {bound / 1000:.0f} cm3 bound of "
            f"any thickness, {over:.1f} % over, {proven} proven least in whole steps, slowest {slowest:.2f} s"
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
