"""What a template says, in the order in which a person at the bench needs it."""

from __future__ import annotations

from collections.abc import Sequence

from generator.drawings.stamp import stamp
from generator.drawings.template_clusters import edge_at
from generator.drawings.template_registration import Registration
from generator.drawings.template_sheet import Words
from generator.drawings.template_targets import Face, Target
from generator.model.geometry import TOUCH, box
from generator.model.job import Job
from generator.model.plan import Board
from generator.units import label

LAY: dict[Face, str] = {
    "front": "Lay it on the FRONT, arrow up. Trim at the crop marks. Heavy: cut, X: waste. Dashed: collar, rabbet.",
    "back": "LAY IT ON THE BACK of the board, arrow up. Drawn mirrored: left and right are as you see them from "
    "behind. Trim at the crop marks. Heavy: cut through. Dashed: edge of the rabbet.",
}


def words(
    job: Job, board: Board, group: Sequence[Target], found: tuple[Registration, Registration], name: str, face: Face
) -> Words:
    """All that stands above the window of a cluster's template."""
    lines = (
        f"{names(group)}: full size, wall {board.wall}, template {name}. {job.room.job.number} {job.room.name}".strip(),
        LAY[face],
        *(how_to_lay(job, board, r) for r in found),
        *(f"{t.name}: {t.size}; {where_text(job, board, t)}." for t in group),
    )
    title = f"{board.id}  FRONT" if face == "front" else f"{board.id}  BACK, MIRRORED"
    return Words(stamp(job, board.wall), title, lines)


def names(group: Sequence[Target]) -> str:
    """What a template is for, each name once."""
    return ", ".join(dict.fromkeys(target.name for target in group))


def from_edges(job: Job, board: Board, target: Target) -> tuple[str, str]:
    """Distances of the centre or corner: from the left edge, above the bottom edge, of the board as cut."""
    units = job.room.choices.paper_units
    centre = target.at
    across = centre[0] - edge_at(board.outline, centre, "left")
    up = centre[1] - edge_at(board.outline, centre, "bottom")
    side, foot = edge_name(board, "left", centre[0] - across), edge_name(board, "bottom", centre[1] - up)
    return (
        f"{label(across, units)} from {side}" if across > TOUCH else f"at {side}",
        f"{label(up, units)} above {foot}" if up > TOUCH else f"at {foot}",
    )


def where_text(job: Job, board: Board, target: Target) -> str:
    """Where the centre or corner is: from two edges of the board, and above the datum."""
    wall = job.plan.wall(board.wall)
    across, up = from_edges(job, board, target)
    high = label(target.at[1] - wall.datum_v, job.room.choices.paper_units)
    return f"{target.point} {across}, {up} ({high} above the {wall.datum_name})"


def edge_name(board: Board, side: str, at: float) -> str:
    """`the left edge`; where the board also reaches further (a leg), the words say which edge is meant."""
    extremes = dict(zip(("left", "bottom", "right", "top"), box(board.outline), strict=True))
    if abs(extremes[side] - at) < 0.01:
        return f"the {side} edge"
    return "the edge over the base" if side == "bottom" else f"the {side} edge level with it"


def how_to_lay(job: Job, board: Board, found: Registration) -> str:
    """One instruction: which edge to lay the template on, or which line to draw first."""
    if found.is_edge:
        name = edge_name(board, found.side, found.at).replace("the ", "the board's ", 1)
        return f"Lay its {found.side.upper()} EDGE on {name}: fold the paper there."
    away = label(found.distance, job.room.choices.paper_units)
    start = found.at - found.distance
    if found.axis == "x":
        return f"Draw a PLUMB LINE {away} from {edge_name(board, found.side, start)}; lay this one on it."
    return f"Draw a LEVEL LINE {away} above {edge_name(board, found.side, start)}; lay this one on it."
