"""The whole take-off of a room."""

from __future__ import annotations

from generator.model.plan import Plan
from generator.model.purchase import TakeoffRow
from generator.model.room import Room
from generator.planning.sealing.surface import find_surfaces
from generator.planning.takeoff.corner_pieces import corner_piece_rows
from generator.planning.takeoff.counts import collar_rows, lumber_rows, screw_rows, sheet_rows
from generator.planning.takeoff.coverings import band_rows, masking_rows, mortar_rows
from generator.planning.takeoff.sealant import sealant_rows
from generator.planning.takeoff.stud_work import furring_rows, plate_rows, shim_rows


def plan_takeoff(room: Room, draft: Plan) -> tuple[TakeoffRow, ...]:
    """Rows in the order in which things are bought; lengths in mm, volumes in ml. What is not needed has no row."""
    surfaces = find_surfaces(draft.walls, draft.corners, draft.folds, draft.boards, draft.edges)
    return (
        *sheet_rows(room, draft),
        *screw_rows(room, draft),
        *band_rows(room, draft),
        *corner_piece_rows(room, draft),
        *collar_rows(room, draft),
        *sealant_rows(room, draft, surfaces),
        *mortar_rows(room, draft, surfaces),
        *masking_rows(room, draft, surfaces),
        *lumber_rows(room, draft),
        *furring_rows(room, draft),
        *shim_rows(room, draft),
        *plate_rows(room, draft),
    )
