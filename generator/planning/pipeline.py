"""Planning as one readable function: region, framing, layout, parts, fastening, sealing, take-off."""

from __future__ import annotations

from dataclasses import replace

from generator.model.plan import Plan
from generator.model.purchase import PlannedStock
from generator.model.room import Room
from generator.planning.arrange import layout_task
from generator.planning.blocking.plan import with_blocking
from generator.planning.boards import plan_boards, plan_fittings
from generator.planning.edges import plan_edges
from generator.planning.fastening import plan_fasteners
from generator.planning.flatness.plan import plan_shims
from generator.planning.folds import plan_folds
from generator.planning.framing import plan_supports, with_seam_studs
from generator.planning.furring import plan_furring
from generator.planning.layout.choose import choose_layout
from generator.planning.layout.task import LayoutResult
from generator.planning.lumber.plan import plan_lumber
from generator.planning.masonry import with_masonry
from generator.planning.place import plan_sheets, stock_of_pieces, with_factory_edges
from generator.planning.plates import plan_plates
from generator.planning.regions import plan_base, plan_corners, plan_walls
from generator.planning.sealing import plan_bands
from generator.planning.sequence import plan_sequence
from generator.planning.takeoff import plan_takeoff


def make_plan(room: Room) -> Plan:
    """The whole plan of a room; CannotPlanError, with the reason, where there is none."""
    walls, corners, folds, base = plan_walls(room), plan_corners(room), plan_folds(room), plan_base(room)
    framed = with_masonry(room, walls, plan_supports(room, walls))
    layout = choose_layout(layout_task(room, walls, framed))
    sheets = plan_sheets(room, layout.sheets)
    plain = plan_boards(room, layout.pieces, stock_of_pieces(room, sheets))
    carried = with_seam_studs(room, walls, framed, _seams_to_carry(layout))
    supports = with_blocking(room, walls, with_masonry(room, walls, carried, layout.pieces), plain)
    studs = plan_shims(room, supports)
    lumber, lumber_proof = plan_lumber(room, supports)
    edges = plan_edges(room, walls, folds, plain, supports)
    boards = with_factory_edges(plain, edges, sheets)
    fittings = plan_fittings(room)
    fasteners = plan_fasteners(room, walls, folds, base, supports, boards)
    bands = plan_bands(room, walls, corners, folds, base, boards, edges, fasteners, fittings)
    plan = Plan(
        room=room.name,
        walls=walls,
        corners=corners,
        base=base,
        stocks=_plan_stocks(room),
        supports=supports,
        boards=boards,
        edges=edges,
        fittings=fittings,
        fasteners=fasteners,
        bands=bands,
        sheets=sheets,
        takeoff=(),
        proof=layout.proof,
        sequence=plan_sequence(walls, corners, boards),
        faces=studs.faces,
        shims=studs.shims,
        planes=studs.planes,
        plates=plan_plates(room, supports),
        folds=folds,
        furring=plan_furring(room, walls, base, supports),
        lumber=lumber,
        lumber_proof=lumber_proof,
    )
    return replace(plan, takeoff=plan_takeoff(room, plan))


def _seams_to_carry(layout: LayoutResult) -> dict[str, tuple[float, ...]]:
    return {a.wall: tuple(b.u for b in layout.added if b.wall == a.wall) for a in layout.added}


def _plan_stocks(room: Room) -> tuple[PlannedStock, ...]:
    stocks = (
        PlannedStock(s.id, s.board.material, s.board.thickness, s.width, s.height, s.board.density)
        for s in room.choices.stocks
    )
    return tuple(sorted(stocks, key=lambda stock: stock.id))
