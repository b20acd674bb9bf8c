"""Supports on the framing elevation: their outlines, numbers and places."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from generator.drafting.ink import Ink, Line, Outline, Text
from generator.drafting.inview import Symbol, symbol
from generator.drafting.page import text_box
from generator.drawings.elevation import Elevation
from generator.drawings.marks import Label, row_above
from generator.model.geometry import TOUCH, Point, box, rectangle
from generator.model.job import Job
from generator.model.plan import Support
from generator.model.room import Wall

APART = 1.5
"""mm on paper between numbers that stand beside each other, as those of plates that lie on one another."""
RAISED = 4.0
"""mm on paper from a number to one above it."""


def supports_of(job: Job, wall: Wall) -> tuple[Support, ...]:
    """The wall's supports, found and added, by id."""
    return tuple(s for s in job.plan.supports if s.wall == wall.id)


def short(support: Support) -> str:
    """The support's id without what its wall already says."""
    return support.id.removeprefix(f"S-{support.wall}-")


def tag(support: Support) -> str:
    """Its number, and whether it is to be added: on the sheet that it belongs to."""
    return f"ADD {short(support)}" if support.origin == "added" and not support.same_as else short(support)


def state(support: Support) -> str:
    """What is to be done about it; of one that another wall's sheet has as well, only which it is."""
    if support.same_as:
        return f"{support.same_as}, seen from here"
    if support.material == "masonry":
        return "to drill"
    return support.reason if support.origin == "found" else f"ADD: {support.reason}"


def stands(support: Support) -> bool:
    """True where it is upright."""
    (u0, v0), (u1, v1) = support.axis
    return abs(v1 - v0) >= abs(u1 - u0)


def support_ink(job: Job, wall: Wall) -> tuple[Symbol, ...]:
    """As found thin; to add heavy, grey and crossed; set back behind a fitting dashed. In the wall frame."""
    return tuple(support_symbol(s, _shape(s)) for s in supports_of(job, wall))


def support_symbol(support: Support, ink: tuple[Ink, ...]) -> Symbol:
    """A support drawn so, set down by the lower left of its box."""
    left, bottom, _, _ = box(support.outline)
    return symbol(f"{support.kind} {support.profile_id}", (left, bottom), ink, support.id)


def _shape(support: Support) -> tuple[Ink, ...]:
    if support.origin == "found":
        return (Outline(support.outline, "stud"),)
    if support.set_back:
        return (Outline(support.outline, "hidden"),)
    a, b, c, d = support.outline if len(support.outline) == 4 else rectangle(*box(support.outline))
    crossed = (Line(a, c, "visible"), Line(d, b, "visible"))
    return (Outline(support.outline, "added", fill=0.8), *crossed)


def support_tags(seen: Elevation, names: Sequence[Text]) -> tuple[Ink, ...]:
    """Numbers of upright supports above the wall, of level ones on their own face, clear of these names."""
    supports = supports_of(seen.job, seen.wall)
    above = [
        Label((seen.view.x(s.axis[0][0]), seen.hull[3] + 0.5), tag(s), s.origin == "added")
        for s in supports
        if stands(s)
    ]
    level = sorted((s for s in supports if not stands(s)), key=lambda s: (middle(s)[1], middle(s)[0], s.id))
    on_faces = _apart([(_level_tags(seen, s), seen.view.x(box(s.outline)[2])) for s in level], names)
    return (*row_above(above, seen.hull[3] + 5.0), *on_faces)


def _level_tags(seen: Elevation, support: Support) -> tuple[Text, ...]:
    """Its number wherever it may stand, the best place first."""
    if support.set_back:
        return _off_face(seen, support)
    at = seen.view.point(middle(support))
    return (Text(at, tag(support), 2.5, "centre", "middle", bold=support.origin == "added"),)


def _apart(tags: Sequence[tuple[tuple[Text, ...], float]], names: Sequence[Text]) -> tuple[Text, ...]:
    """Each where it was wanted, else right of those before it, up to its piece's right end, else above them."""
    kept = list(names)
    for places, end in tags:
        text = next((t for t in places if not any(_touch(t, other) for other in kept)), places[0])
        beside = _moved(text, kept, _right_of)
        if _box(beside)[2] > end:
            beside = _moved(text, kept, _above)
        kept.append(beside)
    return tuple(kept[len(names) :])


def _moved(text: Text, kept: Sequence[Text], away: Callable[[Text, Text], Point]) -> Text:
    """Moved on from each that it touches until it touches none."""
    while other := next((t for t in kept if _touch(t, text)), None):
        text = replace(text, at=away(text, other))
    return text


def _right_of(text: Text, other: Text) -> Point:
    return (text.at[0] + _box(other)[2] + APART - _box(text)[0], text.at[1])


def _above(text: Text, other: Text) -> Point:
    """By their boxes: a number on its block's face is placed by its middle, one below its block by its top."""
    return (text.at[0], text.at[1] + _box(other)[1] + RAISED - _box(text)[1])


def _touch(one: Text, other: Text) -> bool:
    (left, low, right, top), (start, bottom, end, high) = _box(one), _box(other)
    near = APART - TOUCH
    return left < end + near and start < right + near and low < high - TOUCH and bottom < top - TOUCH


def _box(text: Text) -> tuple[float, float, float, float]:
    return box(text_box(text))


def _off_face(seen: Elevation, support: Support) -> tuple[Text, Text]:
    """Below the block or above it: on its face is the fitting."""
    x, (_, low, _, high) = middle(support)[0], box(support.outline)
    below, above = seen.view.point((x, low)), seen.view.point((x, high))
    return (
        Text((below[0], below[1] - 0.8), tag(support), 2.5, "centre", "top", bold=True),
        Text((above[0], above[1] + 0.8), tag(support), 2.5, "centre", bold=True),
    )


def middle(support: Support) -> Point:
    """Of its axis."""
    (u0, v0), (u1, v1) = support.axis
    return ((u0 + u1) / 2, (v0 + v1) / 2)
