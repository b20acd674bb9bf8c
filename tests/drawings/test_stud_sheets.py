"""The sheets of the room with crooked studs: the schedule says what the plan does, the elevation marks every plate."""

from __future__ import annotations

from functools import cache

from generator.drafting.dimension import strokes
from generator.drafting.ink import Dimension, Outline, Text
from generator.drafting.overlap import overlaps
from generator.drafting.page import Page
from generator.drawings.flatness import flatness_leaves
from generator.drawings.framing import framing_leaves
from generator.drawings.leaf import bound
from generator.model.job import Job
from generator.units import label
from tests.drawings.set_job import set_job
from tests.example_rooms import findings_of, planned


@cache
def job() -> Job:
    return Job(*planned("crooked-studs"), findings_of("crooked-studs"), frozenset(), {}, {})


def _words(page: Page) -> list[str]:
    flat = [s for i in page.ink for s in (strokes(i) if isinstance(i, Dimension) else (i,))]
    return [item.text for item in flat if isinstance(item, Text)]


def test_the_room_warns_on_purpose_and_fails_nowhere() -> None:
    found = job().findings
    assert [f for f in found if f.verdict == "fail"] == []
    assert sorted(f.rule for f in found if f.verdict == "warn") == ["flatness", "shield-plate", "shield-plate"]
    cures = [f.cure.text for f in found if f.verdict == "warn" and f.cure]
    assert any(text.startswith("shim schedule: ") for text in cures)
    assert sum("shield plate SP-back-" in text for text in cures) == 2


def test_the_schedule_has_a_line_for_every_reading_and_says_what_the_plan_does() -> None:
    (page,) = bound(job(), flatness_leaves(job()))
    words = _words(page)
    plan = job().plan
    assert plan.shims
    done = [word for word in words if word.startswith(("shim ", "plane ", "leave"))]
    moves = {(s.support_id, s.v): f"{s.work} {label(s.thickness, 'in')}" for s in plan.shims}
    assert done == [moves.get((f.support_id, f.v), "leave") for f in plan.faces]
    assert overlaps(page) == ()


def test_every_plate_is_marked_and_listed() -> None:
    page = bound(job(), framing_leaves(job()))[0]
    plates = job().plan.plates
    assert [p.support_id for p in plates] == ["S-back-02", "S-back-04"]
    words = _words(page)
    assert {f"SP {p.id[-2:]}" for p in plates} <= set(words)
    assert sum(isinstance(i, Outline) and i.fill == 0.55 for i in page.ink) == len(plates)
    assert overlaps(page) == ()


def test_a_room_without_readings_has_no_schedule() -> None:
    assert flatness_leaves(set_job()) == ()
