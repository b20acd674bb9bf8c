"""The base as solids: a block with a hollow that looks like a tub or a shower base, and its flange along the walls.

Only the deck, the outside and the flange are measured; the hollow is for show.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from generator.model.geometry import TOUCH, Point
from generator.model.plan import Plan, PlannedSide, PlannedWall
from generator.model.room import Room
from generator.solids.kernel import at, in_wall, kernel, one_solid, sweep, wire
from generator.solids.records import Body

if TYPE_CHECKING:
    from shapely import Polygon

FAR = 1e5
"""mm: farther than any room reaches."""
OVERCUT = 1.0
"""mm by which a cutter begins behind the stud faces, so that no two faces coincide there."""


@dataclass(frozen=True, slots=True)
class Hollow:
    """Form of the hollow, for show: rim, corner radius of its floor, run of its sides, depth (share of the deck)."""

    rim: float
    radius: float
    run: float
    share: float


HOLLOWS = {
    "tub": Hollow(70.0, 60.0, 70.0, 0.78),
    "shower_base": Hollow(60.0, 20.0, 20.0, 0.55),
    "tray": Hollow(90.0, 15.0, 25.0, 0.35),
}


def base_bodies(room: Room, plan: Plan) -> tuple[tuple[Body, ...], tuple[Body, ...], tuple[Body, ...]]:
    """(deck, flanges by side, the base as one body); three empty tuples when the room has no base."""
    sides = plan.base.sides
    if plan.base.kind == "none" or not sides:
        return (), (), ()
    deck = _deck(room, plan)
    flanges = tuple(Body(f"flange-{s.wall}", "base", s.wall, _flange(plan, s)) for s in sides if _has_flange(plan, s))
    whole = one_solid(deck.fuse(*(f.shape for f in flanges)).clean()) if flanges else deck
    return (Body("deck", "base", "", deck),), flanges, (Body("base", "base", "", whole),)


def _has_flange(plan: Plan, side: PlannedSide) -> bool:
    return bool(plan.base.flange_section) and side.flange_top > max(v for _, v in side.deck) + TOUCH


def _flange(plan: Plan, side: PlannedSide) -> Any:
    """The flange's section swept along the deck of one side, cut off where a neighbouring wall leans in."""
    wall = plan.wall(side.wall)
    pieces = [_flange_piece(wall, plan, side.gap, p, q) for p, q in zip(side.deck, side.deck[1:], strict=False)]
    whole = pieces[0].fuse(*pieces[1:]) if len(pieces) > 1 else pieces[0]
    leaning = [_behind(plan.wall(other)) for other in _acute_neighbours(plan, side.wall)]
    return one_solid(whole.cut(*leaning) if leaning else whole)


def _flange_piece(wall: PlannedWall, plan: Plan, gap: float, p: Point, q: Point) -> Any:
    """One straight run of the flange: heights stay upright where the deck slopes, as the section is given."""
    section = wire(at(wall, p[0], p[1] + h, gap + w) for w, h in plan.base.flange_section)
    x, y, z = (wall.u_axis[i] * (q[0] - p[0]) + wall.v_axis[i] * (q[1] - p[1]) for i in range(3))
    return sweep(section, (), (x, y, z), 1.0)


def _acute_neighbours(plan: Plan, wall: str) -> list[str]:
    corners = [c for c in plan.corners if c.angle_deg < 90.0 - 1e-9 and wall in (c.left_wall, c.right_wall)]
    return [c.right_wall if c.left_wall == wall else c.left_wall for c in corners]


def _behind(wall: PlannedWall) -> Any:
    """Everything behind a wall's stud faces."""
    ring = ((-FAR, -FAR), (FAR, -FAR), (FAR, FAR), (-FAR, FAR))
    return sweep(wire(at(wall, u, v, -FAR) for u, v in ring), (), wall.w_axis, FAR)


def _deck(room: Room, plan: Plan) -> Any:
    """The block under the deck with its hollow, cut down along each wall to where the deck was measured."""
    wall = plan.wall(room.base.along)
    top = max(v for s in plan.base.sides for _, v in s.deck)
    footprint = _footprint(room, plan, wall)
    block = sweep(_plan_wire(wall, footprint, 0.0), (), wall.v_axis, top)
    hollow = _hollow(wall, footprint, HOLLOWS[room.base.kind], top)
    cuts = [c for s in plan.base.sides for c in _above_deck(plan, s, top)] + ([hollow] if hollow is not None else [])
    return one_solid(block.cut(*cuts)) if cuts else one_solid(block)


def _footprint(room: Room, plan: Plan, wall: PlannedWall) -> Polygon:
    """The base from above in (u, w) of the wall it stands along, cut at the walls that it stands against."""
    from shapely import Polygon

    back = _stand_off(room, plan)
    shape = Polygon([(u, w - wall.furring) for u, w in room.base.footprint])
    for side in plan.base.sides:
        other = plan.wall(side.wall)
        near = back or min(0.0, side.gap)  # what does not end at the boards goes on behind furred faces
        corners = ((-FAR, near), (FAR, near), (FAR, FAR), (-FAR, FAR))
        room_side = [in_wall(wall, at(other, u, 0.0, w)) for u, w in corners]
        cut = shape.intersection(Polygon([(u, w) for u, _, w in room_side]))
        shape = cut if isinstance(cut, Polygon) and not cut.is_empty else shape
    return shape


def _stand_off(room: Room, plan: Plan) -> float:
    """How far from the stud faces a base ends: a tray that is made after the boards ends at their faces."""
    if room.base.tray is None or room.base.tray.order != "boards_first":
        return 0.0
    return max((b.thickness for b in plan.boards), default=0.0)


def _plan_wire(wall: PlannedWall, shape: Polygon, v: float) -> Any:
    return wire(at(wall, u, v, w) for u, w in list(shape.exterior.coords)[:-1])


def _above_deck(plan: Plan, side: PlannedSide, top: float) -> list[Any]:
    """What lies over the deck along a side that is lower than the block somewhere, as wide as a tub's rim."""
    if top - min(v for _, v in side.deck) < TOUCH:
        return []
    ring = [*side.deck, (side.end, top + 1.0), (side.start, top + 1.0)]
    wall = plan.wall(side.wall)
    return [sweep(wire(at(wall, u, v, -OVERCUT) for u, v in ring), (), wall.w_axis, OVERCUT + HOLLOWS["tub"].rim)]


def _hollow(wall: PlannedWall, footprint: Polygon, form: Hollow, top: float) -> Any:
    """The hollow, wider at the deck than at its floor; none where the base is too small for one."""
    low = top * (1.0 - form.share)
    mouth = _rounded(wall, footprint, form.rim, form.radius + form.run, top)
    floor = _rounded(wall, footprint, form.rim + form.run, form.radius, low)
    if mouth is None or floor is None:
        return None
    return kernel().Solid.makeLoft([floor, mouth], True)


def _rounded(wall: PlannedWall, footprint: Polygon, inset: float, radius: float, v: float) -> Any:
    """The footprint, inset and with round corners, as a wire at that height."""
    from shapely import Polygon

    inner = footprint.buffer(-inset, join_style="mitre", mitre_limit=10.0)
    if not isinstance(inner, Polygon) or inner.is_empty or inner.buffer(-1.2 * radius).is_empty:
        return None
    outline = _plan_wire(wall, inner, v)
    return outline.fillet2D(radius, outline.Vertices())
