"""All sealing bands, collars and patches of a room."""

from __future__ import annotations

from generator.model.features import Fold
from generator.model.plan import (
    Band,
    Board,
    Edge,
    Fastener,
    PlannedBase,
    PlannedCorner,
    PlannedFitting,
    PlannedWall,
)
from generator.model.room import Room
from generator.planning.sealing.joints import find_joints
from generator.planning.sealing.pieces import bands_of, cut_joints
from generator.planning.sealing.spots import collars, patches
from generator.planning.sealing.surface import find_surfaces


def plan_bands(
    room: Room,
    walls: tuple[PlannedWall, ...],
    corners: tuple[PlannedCorner, ...],
    folds: tuple[Fold, ...],
    base: PlannedBase,
    boards: tuple[Board, ...],
    edges: tuple[Edge, ...],
    fasteners: tuple[Fastener, ...],
    fittings: tuple[PlannedFitting, ...],
) -> tuple[Band, ...]:
    """The pieces as cut, sorted by id: bands on the joints, collars, then patches over what is still bare."""
    found = find_surfaces(walls, corners, folds, boards, edges)
    surfaces = {surface.wall: surface for surface in found}
    band = room.choices.band
    joints = find_joints(room, corners, folds, base, found)
    pieces = cut_joints(joints, band.roll_length, room.limit("band-lap"))
    bands = (*bands_of(pieces, surfaces, room.limit("band-lap")), *collars(fittings, boards))
    spots = patches(fasteners, bands, surfaces, band.patch_side)
    return tuple(sorted((*bands, *spots), key=lambda b: b.id))
