"""The smallest change of the framing that mends what is wrong with it, in words and as a change to replay."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from math import ceil, floor

from generator.model.findings import Cure
from generator.model.geometry import NOISE, TOUCH, Point, box, canonical, tidy
from generator.model.plan import PlannedWall, Support
from generator.model.room import Duty, Room, Side, Wall
from generator.planning.bays import Span, centre, face, fills, find_bays, heights, is_upright
from generator.planning.supports import taken_spans
from generator.units import LengthError, label, paper_step, parse_length

DUTY_WORDS: dict[Duty, str] = {
    "unknown": "; confirm that the wall is not load-bearing, or head off as the code requires",
    "bearing": "; the wall is load-bearing: head off as the code requires",
    "non_bearing": "",
}


def measured_from(room: Room, wall: Wall) -> Side:
    """The end that the wall's supports were measured from; without entered text the wall's only corner, else left."""
    width = wall.bare_width
    for support in wall.supports:
        entered, u = _entered(room, support.path), support.axis[0][0]
        if entered is not None and abs(entered - u) <= TOUCH:
            return "left"
        if entered is not None and abs(width - entered - u) <= TOUCH:
            return "right"
    return "right" if wall.beside[1] == "corner" != wall.beside[0] else "left"


def _entered(room: Room, path: str) -> float | None:
    """mm of the length entered at a path; None where none was."""
    try:
        return parse_length(room.entered[path], room.units).mm
    except (KeyError, LengthError):
        return None


def across(room: Room, wall: Wall, u: float) -> str:
    """A place on a wall as its tape says it: from the end that the supports were measured from."""
    mm = u if measured_from(room, wall) == "left" else wall.bare_width - u
    return label(mm, room.units) + (" mm" if room.units == "mm" else "")


def from_words(room: Room, wall: Wall) -> str:
    """Names the end that `across` measures from."""
    side = measured_from(room, wall)
    own, other = ("right_wall", "left_wall") if side == "left" else ("left_wall", "right_wall")
    for corner in room.corners:
        if getattr(corner, own) == wall.id:
            return f"from the corner with {getattr(corner, other)}"
    return f"from the {side} end"


def add_cure(room: Room, wall: Wall, added: Sequence[Support]) -> Cure | None:
    """Adds these supports, left to right as measured; None when there are none."""
    if not added:
        return None
    ordered = sorted(added, key=centre, reverse=measured_from(room, wall) == "right")
    places = " and ".join(across(room, wall, centre(s)) for s in ordered)
    noun = ordered[0].kind + ("s" if len(ordered) > 1 else "")
    article = "" if len(ordered) > 1 else "a "
    text = f"add {article}{noun} at {places} {from_words(room, wall)}"
    first, *rest = (centre(s) for s in ordered)
    return Cure(text, "add_support", wall.id, wall.path, first, tuple(rest))


def move_cure(room: Room, planned: PlannedWall, supports: Iterable[Support], stud: Support) -> Cure:
    """The least move of a stud after which it stands clear of every fitting and no bay is too wide.

    `supports`: those found on the wall. Where no move will do, the cure is advice to head the stud off.
    """
    wall = next(w for w in room.walls if w.id == planned.id)
    others = [s for s in supports if s.id != stud.id]
    for u in _candidates(room, wall, stud):
        moved = _moved(stud, u)
        if _clear(room, wall, others, moved) and _holds(room, planned, others, stud, moved):
            text = f"move the {stud.kind} at {across(room, wall, centre(stud))} to {across(room, wall, u)} "
            text += from_words(room, wall) + DUTY_WORDS[wall.duty]
            return Cure(text, "move_support", wall.id, stud.room_path, u)
    text = f"no place to move the {stud.kind} at {across(room, wall, _middle(stud))} {from_words(room, wall)} to:"
    return Cure(f"{text} head it off as the code requires", "advice", wall.id, stud.room_path, _middle(stud))


def _middle(support: Support) -> float:
    return (face(support)[0] + face(support)[1]) / 2


def _candidates(room: Room, wall: Wall, stud: Support) -> list[float]:
    """Centres beside the stretches that fittings take, on the paper's step, nearest first."""
    if not is_upright(stud) or not stud.room_path:
        return []
    half = (fills(stud)[1] - fills(stud)[0]) / 2
    spans = [span for f in room.fittings if f.wall == wall.id for span in taken_spans(room, f)]
    ends = [(left - half, floor) for left, _ in spans] + [(right + half, ceil) for _, right in spans]
    places = {_on_step(room, wall, u, rounding is floor) for u, rounding in ends}
    return sorted(places, key=lambda u: (abs(u - centre(stud)), u))


def _on_step(room: Room, wall: Wall, u: float, downwards: bool) -> float:
    """u moved to the paper's step, as measured by the wall's tape, away from the fitting."""
    step, width = paper_step(room.units), wall.bare_width
    mirrored = measured_from(room, wall) == "right"
    steps = (width - u if mirrored else u) / step
    whole = floor(steps + NOISE) if downwards != mirrored else ceil(steps - NOISE)
    return tidy(width - whole * step if mirrored else whole * step)


def _moved(stud: Support, u: float) -> Support:
    shift = u - centre(stud)
    ends: tuple[Point, Point] = ((stud.axis[0][0] + shift, stud.axis[0][1]), (stud.axis[1][0] + shift, stud.axis[1][1]))
    return replace(stud, outline=canonical((p[0] + shift, p[1]) for p in stud.outline), axis=ends)


def _clear(room: Room, wall: Wall, others: Sequence[Support], moved: Support) -> bool:
    """True where the moved stud lies inside its wall and touches no fitting and no other upright support."""
    left, right = fills(moved)
    spans = [fills(s) for s in others if is_upright(s) and _side_by_side(s, moved)]
    spans += [span for f in room.fittings if f.wall == wall.id for span in taken_spans(room, f)]
    inside = box(wall.outline)[0] - NOISE <= left and right <= box(wall.outline)[2] + NOISE
    return inside and all(right <= a + NOISE or b <= left + NOISE for a, b in spans)


def _side_by_side(a: Support, b: Support) -> bool:
    return min(heights(a)[1], heights(b)[1]) - max(heights(a)[0], heights(b)[0]) > NOISE


def _holds(room: Room, planned: PlannedWall, others: Sequence[Support], stud: Support, moved: Support) -> bool:
    """True where the move opens no bay beyond the limit and takes no support from an end of the boards."""
    least, limit = room.limit("bearing-edge"), room.limit("support-spacing")
    before = {(b.left, b.right) for b in find_bays(planned.wet_region, (*others, stud), least)}
    after = find_bays(planned.wet_region, (*others, moved), least)
    wide = (b for b in after if b.width > limit + NOISE)
    return all((b.left, b.right) in before for b in wide) and not _carries_end(planned, face(stud))


def _carries_end(planned: PlannedWall, span: Span) -> bool:
    return any(span[0] - TOUCH <= u <= span[1] + TOUCH for u in _upright_sides(planned))


def _upright_sides(planned: PlannedWall) -> Iterator[float]:
    for region in planned.wet_region:
        for ring in (region.ring, *region.holes):
            for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
                if abs(p[0] - q[0]) <= TOUCH:
                    yield p[0]
