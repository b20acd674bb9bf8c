"""Framing of niches and windows: what is cut, and the trimmers, header, sill, cleats and strip that are put in.

Pieces stand where a carpenter would put them: a trimmer beside each side that no stud has already, or packing where
there is less room than a stud takes; header and sill blocking level between them; behind a rear board upright cleats
from sill to header; under a sloped sill a bevelled strip on the sill blocking.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from math import ceil, inf
from typing import Literal

from generator.model.features import Mouth
from generator.model.frames import Frame
from generator.model.geometry import NOISE, TOUCH, Point, Ring, box, rectangle, tidy
from generator.model.plan import PlannedWall, Support
from generator.model.profiles import StudProfile
from generator.model.room import Room, Side, Wall
from generator.planning.bays import is_upright
from generator.planning.shapes import polygon, rings
from generator.planning.supports import stud_heights

Supports = tuple[Support, ...]
Box = tuple[float, float, float, float]
Kind = Literal["stud", "blocking", "nailer"]


@dataclass(frozen=True, slots=True)
class Rough:
    """A mouth as the carpenter sees it, in its wall's frame: from trimmer to trimmer, from sill blocking to header."""

    mouth: Mouth
    left: float
    low: float
    """Top of the sill blocking, below the strip."""
    right: float
    high: float
    stud: StudProfile
    """Of trimmers, header and sill."""

    @property
    def zone(self) -> Box:
        """What must be free of other framing: the opening with its header and its sill."""
        return self.left, self.low - self.stud.face, self.right, self.high + self.stud.face


def lines_a_mouth(room: Room, wall: Wall) -> bool:
    """True of the faces of niches and windows: what they are fastened to all comes with the mouth."""
    return any(mouth.feature == wall.feature for host in room.walls for mouth in host.mouths)


def frame_mouths(room: Room, wall: Wall, planned: PlannedWall, supports: Supports) -> Supports:
    """The supports, cut where niches and windows are, with what these need; of a face, with what it stands on.

    The strips under sills stand for themselves on their faces, and are seen from the front as well.
    """
    if lines_a_mouth(room, wall):
        return (*supports, *_OWN[wall.face](room, wall)) if wall.face in _OWN else supports
    roughs = tuple(_rough(room, wall, mouth) for mouth in wall.mouths)
    for rough in roughs:
        supports = tuple(piece for s in supports for piece in _cut(s, rough))
    for rough in roughs:
        supports = _with_side(wall, roughs, rough, supports, "left")
        supports = _with_side(wall, roughs, rough, supports, "right")
        supports = _with_level(wall, rough, supports, "header")
        supports = _with_level(wall, rough, supports, "sill")
    sills = [_sill_of(room, rough.mouth) for rough in roughs]
    return (*supports, *(_front(planned, s, _frame(sill)) for sill in sills for s in _strip(room, sill)))


def strip_fronts(room: Room, walls: Iterable[PlannedWall], supports: Iterable[Support]) -> Iterator[Support]:
    """The strips under sills as the boards of the wall in front meet them: level pieces, each the same as its strip."""
    planned = {wall.id: wall for wall in walls}
    strips = {s.wall: s for s in supports if s.wall in planned and planned[s.wall].face == "sill"}
    for wall in room.walls:
        for sill in (_sill_of(room, mouth) for mouth in wall.mouths):
            if sill.id in strips:
                yield _front(planned[wall.id], strips[sill.id], _frame(sill))


def _front(wall: PlannedWall, strip: Support, frame: Frame) -> Support:
    """The box round a strip in the frame of the wall; it leans by so little that its front edge lies on the boards."""
    left, low, right, high = box(strip.outline)
    corners = [
        wall.frame.of(frame.at(u, v, w)) for u in (left, right) for v in (low, high) for w in (-strip.depth, 0.0)
    ]
    us, vs, ws = ([tidy(x) for x in axis] for axis in zip(*corners, strict=True))
    ring, middle = rectangle(min(us), min(vs), max(us), max(vs)), tidy((min(vs) + max(vs)) / 2)
    return replace(
        strip,
        wall=wall.id,
        kind="blocking",
        outline=ring,
        axis=((min(us), middle), (max(us), middle)),
        depth=tidy(-min(ws)),
        same_as=strip.id,
    )


def _sill_of(room: Room, mouth: Mouth) -> Wall:
    return next(w for w in room.walls if w.feature == mouth.feature and w.face == "sill")


def _frame(face: Wall) -> Frame:
    assert face.frame is not None
    return face.frame


def _rough(room: Room, wall: Wall, mouth: Mouth) -> Rough:
    """The strip's front lower edge, its lowest, lies on the sill blocking."""
    left, _, right, high = box(mouth.ring)
    sill = _sill_of(room, mouth)
    low = _frame(sill).at(0.0, 0.0, -room.choices.added_stud[sill.id].depth)[2]
    return Rough(mouth, left, tidy(low), right, high, room.choices.added_stud[wall.id])


def _cut(support: Support, rough: Rough) -> Supports:
    return (support,) if _serves(support, rough) else without(support, rough.zone, rough.mouth.feature)


def clear_of_mouths(room: Room, wall: Wall, stud: Support, supports: Supports) -> Supports:
    """What is left of an added stud where it meets niches and windows: cripples above their headers, below their sills.

    It ends at every level piece that spans the opening, so that a header that was found as deep as it is stays whole.
    """
    pieces: Supports = (stud,)
    for rough in (_rough(room, wall, mouth) for mouth in wall.mouths):
        if _apart(stud, rough):
            continue
        spanning = (box(s.outline) for s in supports if s.wall == wall.id and _spans(s, rough) and s.kind != "plate")
        for zone in (rough.zone, *spanning):
            pieces = tuple(rest for piece in pieces for rest in without(piece, zone, rough.mouth.feature))
    return pieces


def _apart(stud: Support, rough: Rough) -> bool:
    left, _, right, _ = box(stud.outline)
    return min(right, rough.right) - max(left, rough.left) <= TOUCH


def _spans(support: Support, rough: Rough) -> bool:
    left, _, right, _ = box(support.outline)
    return not is_upright(support) and left <= rough.left + TOUCH and right >= rough.right - TOUCH


def _serves(support: Support, rough: Rough) -> Literal["header", "sill"] | None:
    """What a level piece already is to an opening that it spans."""
    _, low, _, high = box(support.outline)
    if not _spans(support, rough):
        return None
    if abs(low - rough.high) <= TOUCH:
        return "header"
    return "sill" if abs(high - rough.low) <= TOUCH else None


def without(support: Support, zone: Box, feature: str) -> Supports:
    """What is left of a support that is cut for a feature; a piece shorter than it is wide is taken out."""
    left, low, right, high = box(support.outline)
    if min(right, zone[2]) - max(left, zone[0]) <= TOUCH or min(high, zone[3]) - max(low, zone[1]) <= TOUCH:
        return (support,)
    upright = is_upright(support)
    if upright:
        spans, width = ((low, zone[1]), (zone[3], high)), right - left
    else:
        spans, width = ((left, zone[0]), (zone[2], right)), high - low
    return tuple(_clipped(support, span, upright, feature) for span in spans if span[1] - span[0] >= width - TOUCH)


def _clipped(support: Support, span: tuple[float, float], upright: bool, feature: str) -> Support:
    """The stretch of a support between two heights, or between two u of a level one."""
    left, low, right, high = box(support.outline)
    part = rectangle(left, span[0], right, span[1]) if upright else rectangle(span[0], low, span[1], high)
    ring = rings(polygon(support.outline).intersection(polygon(part)))[0]
    reason = f"{support.reason}; cut at {feature}, carried by its header and sill"
    ends = _on_axis(support, span[0], upright), _on_axis(support, span[1], upright)
    return replace(support, outline=ring, axis=ends, reason=reason)


def _on_axis(support: Support, at: float, upright: bool) -> Point:
    index = 1 if upright else 0
    p, q = sorted(support.axis, key=lambda end: end[index])
    share = (at - p[index]) / (q[index] - p[index])
    return tidy(p[0] + share * (q[0] - p[0])), tidy(p[1] + share * (q[1] - p[1]))


def _with_side(wall: Wall, roughs: Iterable[Rough], rough: Rough, supports: Supports, side: Side) -> Supports:
    """A trimmer with its face at that side, or packing on a stud that is too near for one; nothing where a stud is."""
    gap, face, name = _gap(rough, supports, side), rough.stud.face, rough.mouth.feature
    if gap <= TOUCH:
        return supports
    width = min(gap, face)
    us = (rough.left - width, rough.left) if side == "left" else (rough.right, rough.right + width)
    if gap < face - TOUCH:
        # Packing takes no screws from the front: beside it is the stud that it is nailed to. So it counts as level.
        packing = rectangle(us[0], rough.zone[1], us[1], rough.zone[3])
        return (*supports, _piece(wall.id, "blocking", packing, rough, f"packs out the stud at the {side} of {name}"))
    low, high = stud_heights(wall, us)
    trimmer = _piece(wall.id, "stud", rectangle(us[0], low, us[1], high), rough, f"trimmer at the {side} of {name}")
    own = tuple(piece for s in supports for piece in ((s,) if is_upright(s) else _less(s, trimmer, name)))
    pieces: Supports = (trimmer,)
    for zone in (*(r.zone for r in roughs), *(box(s.outline) for s in own if is_upright(s))):
        pieces = tuple(rest for piece in pieces for rest in without(piece, zone, name))
    return (*own, *pieces)


def _less(level: Support, trimmer: Support, name: str) -> Supports:
    return (level,) if level.kind == "plate" else without(level, box(trimmer.outline), name)


def _gap(rough: Rough, supports: Supports, side: Side) -> float:
    """mm from that side of the opening to the nearest stud outside it that stands over its whole height."""
    gaps = [inf]
    for support in supports:
        left, low, right, high = box(support.outline)
        gap = rough.left - right if side == "left" else left - rough.right
        if is_upright(support) and low <= rough.low + TOUCH and high >= rough.high - TOUCH and gap >= -TOUCH:
            gaps.append(gap)
    return min(gaps)


def _with_level(wall: Wall, rough: Rough, supports: Supports, what: Literal["header", "sill"]) -> Supports:
    """Header or sill blocking, unless a level piece is there already."""
    if any(_serves(support, rough) == what for support in supports):
        return supports
    low, high = (rough.high, rough.zone[3]) if what == "header" else (rough.zone[1], rough.low)
    ring = rectangle(rough.left, low, rough.right, high)
    words = "header over" if what == "header" else "sill blocking under"
    return (*supports, _piece(wall.id, "blocking", ring, rough, f"{words} {rough.mouth.feature}"))


def _piece(
    wall_id: str, kind: Kind, outline: Ring, rough: Rough, reason: str, stud: StudProfile | None = None
) -> Support:
    """An added piece; blocking lies, all else stands."""
    left, low, right, high = box(outline)
    middle = tidy((left + right) / 2), tidy((low + high) / 2)
    profile = stud or rough.stud
    return Support(
        id="",
        wall=wall_id,
        kind=kind,
        origin="added",
        outline=outline,
        axis=((left, middle[1]), (right, middle[1])) if kind == "blocking" else ((middle[0], low), (middle[0], high)),
        depth=profile.depth,
        material=profile.material,
        reason=reason,
        cause="cure",
        profile_id=profile.id,
        room_path=rough.mouth.path,
    )


def _rough_of(room: Room, face: Wall) -> Rough:
    """The mouth that a face lines."""
    host = next(w for w in room.walls if any(m.feature == face.feature for m in w.mouths))
    return _rough(room, host, next(m for m in host.mouths if m.feature == face.feature))


def _cleats(room: Room, face: Wall) -> Iterator[Support]:
    """Behind a rear board: at both sides, and between them no farther apart than the spacing."""
    rough, cleat = _rough_of(room, face), room.choices.added_stud[face.id]
    first, last = rough.left + cleat.face / 2, rough.right - cleat.face / 2
    parts = max(1, ceil((last - first) / room.limit("support-spacing") - NOISE))
    for i in range(parts + 1):
        u = first + (last - first) * i / parts
        ring = rectangle(u - cleat.face / 2, rough.low, u + cleat.face / 2, rough.high)
        yield _piece(face.id, "nailer", ring, rough, f"cleat behind the rear board of {face.feature}", cleat)


def _strip(room: Room, face: Wall) -> Iterator[Support]:
    """Under the sill board, as far back as that goes."""
    rough, strip = _rough_of(room, face), room.choices.added_stud[face.id]
    rear = max(u for a in face.allowances for u, _ in a.ring if box(a.ring)[2] < 0.0)
    ring = rectangle(rear, rough.left, 0.0, rough.right)
    yield _piece(face.id, "nailer", ring, rough, f"bevelled strip under the sill of {face.feature}", strip)


_OWN: dict[str, Callable[[Room, Wall], Iterator[Support]]] = {"rear": _cleats, "sill": _strip}
"""Faces that have framing of their own."""
