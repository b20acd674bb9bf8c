"""What the tests of generated kinds share: rooms of one kind are planned, or refused with what would be right."""

from __future__ import annotations

from pathlib import Path

from tests.properties.light import lightly
from tests.properties.pipeline import try_room


def sweep(kind: str, seeds: tuple[int, ...], folder: Path) -> None:
    """Each room has a plan in which the verifier finds nothing that the plan does not admit, or a reason for none.

    Layouts and sheets are chosen lightly: the example rooms have the whole search.
    """
    with lightly():
        outcomes = [try_room(seed, folder, kind) for seed in seeds]
    wrong = [line for outcome in outcomes for line in outcome.wrong]
    assert not wrong, "\n".join(wrong)
    assert all(o.verdict or len(o.refused) > len("input: ") for o in outcomes), "a refusal must say why"
    assert any(o.verdict for o in outcomes), "\n".join(f"{kind} {o.seed}: {o.refused}" for o in outcomes)
