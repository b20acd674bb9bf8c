"""The framing with what the plan adds: every edge of a board finds what it needs."""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.measuring import (
    at,
    bearing,
    carrying,
    edge_wall,
    is_level_edge,
    is_upright_edge,
    line_place,
    on_framing,
    on_wall,
    or_note,
    outline_place,
    room_wall,
    say,
    stretches,
    tightest,
    uprights,
    wall_path,
)
from generator.model.findings import Cure, Measure
from generator.model.geometry import TOUCH, Point, tidy
from generator.model.plan import (
    Board,
    Edge,
    Plan,
    Region,
    Support,
)
from generator.model.room import Room
from generator.planning.bays import Bay, centre, face, find_bays, heights, is_upright, off_axis
from generator.planning.cures import add_cure


def _upright_edges(plan: Plan, *roles: str) -> list[Edge]:
    return [e for e in plan.edges if e.role in roles and is_upright_edge(e)]


def _lines_of_seams(plan: Plan) -> list[tuple[Edge, ...]]:
    """Upright seams, all that lie in one line on one wall together."""
    lines: dict[tuple[str, float, str], list[Edge]] = {}
    for edge in _upright_edges(plan, "seam", "wallboard"):
        lines.setdefault((edge_wall(plan, edge), tidy(edge.p[0]), edge.role), []).append(edge)
    return [tuple(lines[key]) for key in sorted(lines)]


def _edge_words(room: Room, plan: Plan, edge: Edge) -> str:
    beside = f" to {edge.neighbour}" if edge.neighbour else ""
    return f"{edge.role} of {edge.board}{beside} at {at(room, edge_wall(plan, edge), edge.p[0])}"


def seam_on_axis(room: Room, plan: Plan) -> Iterator[Measure]:
    """Each upright seam, board to board or board to wallboard, lies on the centre of a stud, within the tolerance."""
    measures = (m for line in _lines_of_seams(plan) if (m := _off_axis(room, plan, line)))
    return or_note(measures, "no upright seam in this room")


def _off_axis(room: Room, plan: Plan, line: tuple[Edge, ...]) -> Measure | None:
    """Worst distance to the nearest stud's centre over the stretches that no plate or level blocking carries."""
    wall, u = edge_wall(plan, line[0]), line[0].p[0]
    own = on_wall(plan.supports, wall)
    heights_of = (stretch for edge in line for stretch in stretches(edge, own))
    found = [(off_axis(near, u, *h), near) for h in heights_of if (near := _nearest(own, u, sum(h) / 2))]
    if not found:
        return None
    off, support = max(found, key=lambda pair: (pair[0], pair[1].id))
    proposal = support.cause == "seam"
    boards = ", ".join(sorted({e.board for e in line}))
    subject = f"{line[0].role} of {boards} at {at(room, wall, u)}" + (", on a stud added for it" * proposal)
    place = line_place(wall, *_ends(line))
    cure = _proposal(room, support) if proposal else None
    return Measure(subject, tidy(off), place, wall_path(room, wall), cure, "fail", "confirm" if proposal else "pass")


def _ends(line: tuple[Edge, ...]) -> tuple[Point, Point]:
    points = sorted(p for edge in line for p in (edge.p, edge.q))
    return min(points, key=lambda p: p[1]), max(points, key=lambda p: p[1])


def _nearest(own: tuple[Support, ...], u: float, v: float) -> Support | None:
    """The upright support whose centre is nearest; None where a level one carries the stretch or nothing stands."""
    if any(not is_upright(s) for s in carrying(own, u, v)) and not any(map(is_upright, carrying(own, u, v))):
        return None
    standing = [s for s in uprights(own) if heights(s)[0] - TOUCH <= v <= heights(s)[1] + TOUCH]
    return min(standing, key=lambda s: (abs(centre(s) - u), s.id), default=None)


def _proposal(room: Room, support: Support) -> Cure | None:
    return add_cure(room, room_wall(room, support.wall), (support,))


def bearing_seam_wood(room: Room, plan: Plan) -> Iterator[Measure]:
    """Each board at an upright seam on wood has its least width of stud face."""
    edges = [e for e in _upright_edges(plan, "seam", "wallboard") if _material(plan, e) == "wood"]
    return or_note((_bearing_measure(room, plan, e) for e in edges), "no upright seam on wood")


def bearing_seam_steel(room: Room, plan: Plan) -> Iterator[Measure]:
    """Each board at an upright seam on steel has its least width of stud face."""
    edges = [e for e in _upright_edges(plan, "seam", "wallboard") if _material(plan, e) == "steel"]
    return or_note((_bearing_measure(room, plan, e) for e in edges), "no upright seam on steel")


def bearing_edge(room: Room, plan: Plan) -> Iterator[Measure]:
    """Each upright edge in a corner, at a free end or beside the apron, and each on masonry, has its least bearing."""
    bonded = [e for e in _upright_edges(plan, "seam", "wallboard") if _material(plan, e) == "masonry"]
    edges = [*_upright_edges(plan, "corner", "free", "apron"), *bonded]
    measures = (_bearing_measure(room, plan, e) for e in edges)
    return or_note(tightest(room.rules["bearing-edge"], measures), "no upright edge at a corner or free end")


def _bearing_measure(room: Room, plan: Plan, edge: Edge) -> Measure:
    wall = edge_wall(plan, edge)
    width, _ = bearing(on_framing(plan, edge), on_wall(plan.supports, wall))
    place = line_place(wall, edge.p, edge.q)
    return Measure(_edge_words(room, plan, edge), width, place, wall_path(room, wall))


def _material(plan: Plan, edge: Edge) -> str:
    """What the edge bears on; where it bears on nothing, what stands nearest."""
    own = on_wall(plan.supports, edge_wall(plan, edge))
    _, carrier = bearing(on_framing(plan, edge), own)
    near = carrier or min(uprights(own), key=lambda s: (abs(centre(s) - edge.p[0]), s.id), default=None)
    return near.material if near else "wood"


def edge_on_support(room: Room, plan: Plan) -> Iterator[Measure]:
    """No upright edge hangs free between studs, and no level seam does whose board wants backing there."""
    for wall in plan.walls:
        bare = [e for e in plan.edges if edge_wall(plan, e) == wall.id and _is_bare(room, plan, e)]
        for edge in bare:
            place = line_place(wall.id, edge.p, edge.q)
            yield Measure(f"{_edge_words(room, plan, edge)}: no support", 1.0, place, wall_path(room, wall.id))
        if not bare:
            place = outline_place(wall.id, wall.extent)
            yield Measure(f"{wall.id}: edges without a support", 0.0, place, wall_path(room, wall.id))


def _is_bare(room: Room, plan: Plan, edge: Edge) -> bool:
    own = on_wall(plan.supports, edge_wall(plan, edge))
    if edge.role in ("seam", "wallboard", "corner", "free", "apron") and is_upright_edge(edge):
        return bearing(on_framing(plan, edge), own)[0] <= TOUCH
    wants = any(s.id == plan.board(edge.board).stock_id and s.board.horizontal_backing for s in room.choices.stocks)
    bonded = any(s.material == "masonry" for s in own)
    return wants and not bonded and edge.role == "seam" and is_level_edge(edge) and not _carried_along(edge, own)


def _carried_along(edge: Edge, own: tuple[Support, ...]) -> bool:
    """True where faces, upright or level, lie under the whole of a level edge."""
    v, (left, right) = edge.p[1], sorted((edge.p[0], edge.q[0]))
    spans = sorted(face(s) for s in own if heights(s)[0] - TOUCH <= v <= heights(s)[1] + TOUCH)
    for a, b in spans:
        if a > left + TOUCH:
            return False
        left = max(left, b)
    return left >= right - TOUCH


def spacing_planned(room: Room, plan: Plan) -> Iterator[Measure]:
    """Behind each board the studs it crosses, found and added, stand no farther apart than the limit."""
    bays = ((board, bay) for board in plan.boards for bay in board_bays(room, plan, board))
    measures = (bay_measure(room, board, bay) for board, bay in bays)
    return or_note(tightest(room.rules["support-spacing"], measures), "no board in this plan")


def board_bays(room: Room, plan: Plan, board: Board) -> tuple[Bay, ...]:
    """The bays of a board, between the supports that it crosses and from its edges."""
    own, framing = on_wall(plan.supports, board.wall), plan.wall(board.wall).outline
    mouths = tuple(o.ring for o in board.openings if o.feature_id is not None)
    return find_bays((Region(board.outline, mouths),), own, room.limit("bearing-edge"), framing)


def bay_measure(room: Room, board: Board, bay: Bay) -> Measure:
    """The width of a bay, and where it is."""
    subject = f"{board.id}: bay of {say(bay.width, room.units)} from {at(room, board.wall, bay.left)}"
    place = outline_place(board.wall, ((bay.left, bay.low), (bay.right, bay.high)))
    return Measure(subject, tidy(bay.width), place, wall_path(room, board.wall))
