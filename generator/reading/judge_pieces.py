"""What is wrong with pieces of framing by themselves: crooked studs, plates on one another; and pieces in one place."""

from __future__ import annotations

from collections.abc import Iterator

from generator.model.geometry import TOUCH, Ring
from generator.model.profiles import Catalogue
from generator.model.room import FoundSupport
from generator.reading.issues import Issue, join
from generator.reading.support_shapes import PlatesShape, StudsShape, SupportsShape
from generator.reading.walls import stud_as_built, top_of
from generator.units import Units, label

FRAMING = ("studs", "blocking", "backing", "plates", "holes", "notches")
MOST_PLIES = 3
"""Plates on one another that a wall may list; more is a slip in the file."""


def judge_pieces(path: str, supports: SupportsShape, catalogue: Catalogue, units: Units) -> Iterator[Issue]:
    """Crooked studs and plates; `path` is that of the supports."""
    for i, studs in enumerate(supports.studs):
        yield from _judge_crooked(join(path, "studs", i), studs, catalogue, units)
    if supports.plates:
        yield from _judge_plies(join(path, "plates"), supports.plates)
    framing = [key for key in FRAMING if getattr(supports, key)]
    if supports.masonry and framing:
        text = f"a bare wall has no {' and no '.join(framing)}; a framed wall before it is listed without `masonry`"
        yield Issue(join(path, "masonry"), text)


def _judge_crooked(path: str, studs: StudsShape, catalogue: Catalogue, units: Units) -> Iterator[Issue]:
    """A row of screws is plumb: half of the face at least must stand over itself from end to end."""
    tops, profile = studs.centres_top, stud_as_built(studs, catalogue)
    if tops is not None and len(tops) != len(studs.centres):
        text = f"{len(studs.centres)} lower and {len(tops)} upper ends; every stud in `centres` has one here"
        yield Issue(join(path, "centres_top"), text)
    for j, centre in enumerate(studs.centres if tops and profile else ()):
        lean = abs(top_of(studs, j).mm - centre.mm)
        if profile and lean > profile.face / 2 + TOUCH:
            said = label(lean, units) + (" mm" if units == "mm" else "")
            text = f"this stud leans by {said}, more than half its face; set it plumb, or list a straight one beside it"
            yield Issue(join(path, "centres_top", j), text)


def _judge_plies(path: str, plates: PlatesShape) -> Iterator[Issue]:
    for key, plies, end in (("bottom_plies", plates.bottom_plies, "bottom"), ("top_plies", plates.top_plies, "top")):
        if not 1 <= plies <= MOST_PLIES:
            text = f"1 to {MOST_PLIES} plates lie on one another; where there is none write `{end}: false`"
            yield Issue(join(path, key), text)


def share_a_place(one: FoundSupport, other: FoundSupport) -> bool:
    """True where their faces overlap; boxes are not enough where studs lean side by side."""
    low = max(one.outline[0][1], other.outline[0][1])
    high = min(one.outline[-1][1], other.outline[-1][1])
    return any(_overlap(one.outline, other.outline, v) for v in (low, high))


def _overlap(one: Ring, other: Ring, v: float) -> bool:
    (a, b), (c, d) = _across(one, v), _across(other, v)
    return min(b, d) - max(a, c) > TOUCH


def _across(ring: Ring, v: float) -> tuple[float, float]:
    """From, to of a face with level ends at a height of it."""
    (left, low), (right, _), (_, _), (top_left, high) = ring
    aside = (top_left - left) * (v - low) / (high - low)
    return left + aside, right + aside
