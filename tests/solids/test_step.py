"""The STEP file: the same bytes in any process, no clock, readable names."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

from generator.solids import projections, sections, step_bytes
from tests.solids.bodies_of import worked_bodies
from tests.worked_plan import worked_plan

SCRIPT = """
import hashlib
from generator.solids import make_bodies, step_bytes
from tests.worked_plan import worked_plan, worked_room
print(hashlib.sha256(step_bytes(make_bodies(worked_room(), worked_plan()))).hexdigest())
"""


def hash_in_new_process(seed: str) -> str:
    env = {**os.environ, "PYTHONHASHSEED": seed}
    root = Path(__file__).parents[2]
    run = subprocess.run([sys.executable, "-c", SCRIPT], env=env, cwd=root, capture_output=True, text=True, check=True)
    return run.stdout.strip()


def test_same_bytes_in_other_processes_and_the_second_time() -> None:
    step_bytes(worked_bodies())
    here = hashlib.sha256(step_bytes(worked_bodies())).hexdigest()
    assert [hash_in_new_process("1"), hash_in_new_process("4711")] == [here, here]


def test_pictures_and_sections_leave_the_bodies_as_they_are() -> None:
    before = step_bytes(worked_bodies())
    projections(worked_bodies())
    sections(worked_bodies(), worked_plan())
    assert step_bytes(worked_bodies()) == before


def test_one_part_and_one_solid_of_each_name_in_order() -> None:
    text = step_bytes(worked_bodies()).decode("ascii")
    for entity in ("PRODUCT", "MANIFOLD_SOLID_BREP"):
        places = [text.index(f"{entity}('{body.id}'") for body in worked_bodies().parts]
        assert places == sorted(places)


def test_no_clock_and_nobody_in_the_header() -> None:
    head = step_bytes(worked_bodies())[:600].decode()
    assert "FILE_NAME('worked recess','2000-01-01T00:00:00',(''),(''),'boardwright','boardwright','');" in head


def test_names_with_letters_beyond_ascii_and_quotes() -> None:
    room = replace(worked_bodies(), room="Käte's bath", parts=worked_bodies().parts[:1])
    text = step_bytes(room).decode("ascii")
    assert "PRODUCT('K\\X2\\00E4\\X0\\te''s bath'" in text
