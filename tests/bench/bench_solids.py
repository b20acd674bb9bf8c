"""How long the solids take, beside the import of their kernel: `python -m tests.bench.bench_solids`."""

from __future__ import annotations

from collections.abc import Callable
from time import perf_counter
from typing import TypeVar

from tests.worked_plan import worked_plan, worked_room

Result = TypeVar("Result")


def timed(what: str, work: Callable[[], Result]) -> Result:
    start = perf_counter()
    result = work()
    print(f"{what:32}{perf_counter() - start:8.3f} s")
    return result


def main() -> None:
    from generator.solids.kernel import kernel

    timed("import of the kernel", kernel)
    from generator.solids import make_bodies, projections, sections, step_bytes
    from generator.solids.measure import interferences
    from generator.solids.picture import picture
    from generator.solids.views import room_camera

    room, plan = worked_room(), worked_plan()
    bodies = timed("bodies", lambda: make_bodies(room, plan))
    step = timed("STEP", lambda: step_bytes(bodies))
    timed("interference of every pair", lambda: interferences(bodies))
    timed("sections", lambda: sections(bodies, plan))
    shown = timed("one picture", lambda: picture("picture", bodies.parts, room_camera(bodies)))
    timed("all projections", lambda: projections(bodies))
    print(
        f"{len(bodies.parts)} bodies, {len(step)} bytes of STEP, {len(shown.faces)} faces, {len(shown.strokes)} strokes"
    )


if __name__ == "__main__":
    main()
