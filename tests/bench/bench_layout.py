"""Time, value, floor and gap of the layout optimiser on generated rooms: python -m tests.bench.bench_layout 20."""

from __future__ import annotations

import sys
from time import process_time

from generator.errors import CannotPlanError
from generator.planning.layout import choose_layout
from tests.planning.layout.judge import faults
from tests.planning.layout.rooms import real_room


def main(count: int) -> None:
    """One line for each room."""
    for seed in range(count):
        task = real_room(seed)
        start = process_time()
        try:
            result = choose_layout(task)
        except CannotPlanError as refused:
            print(f"{seed:4} refused: {refused}")
            continue
        proof, seconds = result.proof, process_time() - start
        gap = 100 * (proof.value - proof.bound) / proof.value if proof.value else 0.0
        print(
            f"{seed:4} walls {len(task.walls)} boards {result.objective.pieces:3} sheets {result.objective.sheets:2} "
            f"{seconds:6.2f} s value {proof.value:12.2f} floor {proof.bound:12.2f} gap {gap:5.1f} % "
            f"{'proven' if proof.proven else '      '} {faults(task, result) or ''}",
            flush=True,
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 20)
