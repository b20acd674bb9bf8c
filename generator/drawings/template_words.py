"""What a template says, in the order in which a person at the bench needs it."""

from __future__ import annotations

from collections.abc import Sequence

from generator.drawings.stamp import stamp
from generator.drawings.template_clusters import bounds, edge_at, spot
from generator.drawings.template_registration import Registration
from generator.drawings.template_sheet import Words
from generator.model.geometry import box
from generator.model.job import Job
from generator.model.plan import Board, Opening
from generator.units import label, label_opening


def words(
    job: Job, board: Board, group: Sequence[Opening], found: tuple[Registration, Registration], name: str
) -> Words:
    """All that stands above the window of a cluster's template."""
    lines = (
        f"{name}, wall {board.wall}, full size. {job.room.job.number} {job.room.name}".strip(),
        "Lay it on the FRONT of the board, arrow up. Trim at the crop marks. Heavy: cut. Dashed: collar.",
        *(how_to_lay(job, board, r) for r in found),
        *(f"{opening_name(o)}: {size_text(job, o)}; {centre_text(job, board, o)}." for o in group),
    )
    return Words(stamp(job, board.wall), f"{board.id}  {', '.join(opening_name(o) for o in group)}", lines)


def opening_name(opening: Opening) -> str:
    """The fitting's or the window's name."""
    return opening.fitting_id or opening.feature_id or opening.id


def size_text(job: Job, opening: Opening) -> str:
    """The size to cut: a diameter, or width by height."""
    units = job.room.choices.drawing_units
    if not opening.ring:
        return f"{label_opening(opening.diameter, units)} diameter"
    left, bottom, right, top = bounds((opening,))
    return f"{label(right - left, units)} x {label(top - bottom, units)}"


def from_edges(job: Job, board: Board, opening: Opening) -> tuple[str, str]:
    """Distances of the centre: from the left edge, above the bottom edge, of the board as cut."""
    units = job.room.choices.drawing_units
    centre = spot(opening)
    across = centre[0] - edge_at(board.outline, centre, "left")
    up = centre[1] - edge_at(board.outline, centre, "bottom")
    return (
        f"{label(across, units)} from {edge_name(board, 'left', centre[0] - across)}",
        f"{label(up, units)} above {edge_name(board, 'bottom', centre[1] - up)}",
    )


def centre_text(job: Job, board: Board, opening: Opening) -> str:
    """Where the centre is: from two edges of the board, and above the datum."""
    wall = job.plan.wall(board.wall)
    across, up = from_edges(job, board, opening)
    high = label(spot(opening)[1] - wall.datum_v, job.room.choices.drawing_units)
    return f"centre {across}, {up} ({high} above the {wall.datum_name})"


def edge_name(board: Board, side: str, at: float) -> str:
    """`the left edge`; where the board also reaches further (a leg), the words say which edge is meant."""
    extremes = dict(zip(("left", "bottom", "right", "top"), box(board.outline), strict=True))
    if abs(extremes[side] - at) < 0.01:
        return f"the {side} edge"
    return "the edge over the base" if side == "bottom" else f"the {side} edge level with it"


def how_to_lay(job: Job, board: Board, found: Registration) -> str:
    """One instruction: which edge to lay the template on, or which line to draw first."""
    if found.is_edge:
        name = edge_name(board, found.side, found.at)
        return f"Lay its {found.side.upper()} EDGE on {name} of the board: fold the paper there."
    away = label(found.distance, job.room.choices.drawing_units)
    start = found.at - found.distance
    if found.axis == "x":
        return f"Draw a PLUMB LINE {away} from {edge_name(board, found.side, start)}; lay this one on it."
    return f"Draw a LEVEL LINE {away} above {edge_name(board, found.side, start)}; lay this one on it."
