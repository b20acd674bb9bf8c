"""Fittings and corners of the room file as records."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from generator.model.ends import height_at
from generator.model.geometry import Point
from generator.model.profiles import Catalogue, PipeProfile
from generator.model.room import Body, Corner, Fitting
from generator.reading.room_shapes import CornerShape, FittingShape, WallShape
from generator.reading.walls import from_left


def slug(name: str) -> str:
    """A name as an id: spaces become dashes."""
    return name.replace(" ", "-")


def fitting_at(path: str, shape: FittingShape, width: float, deck: Sequence[Point], catalogue: Catalogue) -> Fitting:
    """The fitting; its wall is `width` wide, the deck along it a line in (u, v). The shape has been judged."""
    profile = catalogue.pipes.get(shape.profile) or catalogue.cutouts[shape.profile]
    is_pipe = isinstance(profile, PipeProfile)
    u = from_left(shape.across, shape.start, width)
    v = shape.up.mm + (height_at(deck, u) if shape.above == "deck" else 0.0)
    body = (
        None if isinstance(profile, PipeProfile) else Body(profile.body_width, profile.body_height, profile.body_depth)
    )
    if shape.body is not None:
        body = Body(shape.body.width.mm, shape.body.height.mm, shape.body.depth.mm)
    return Fitting(
        path=path,
        id=slug(shape.name),
        name=shape.name,
        wall=shape.wall,
        kind=shape.kind,
        centre=(u, v),
        is_pipe=is_pipe,
        diameter=profile.outside_diameter if isinstance(profile, PipeProfile) else profile.diameter,
        ring=() if isinstance(profile, PipeProfile) else profile.ring,
        body=body,
        collar_diameter=profile.collar_diameter,
        steel=isinstance(profile, PipeProfile) and profile.steel,
        profile_id=profile.id,
    )


def corners_of(walls: tuple[WallShape, ...], shapes: tuple[CornerShape, ...], along: str) -> tuple[Corner, ...]:
    """A corner between each wall and the next: 90 degrees and the wall along the base first, unless the file says so.

    Where the base does not decide, the wider wall goes first, the left one of two equals.
    """
    entered = {shape.between: (i, shape) for i, shape in enumerate(shapes)}
    corners = []
    for left, right in pairwise(walls):
        i, shape = entered.get((left.name, right.name), (-1, None))
        corners.append(
            Corner(
                path=f"corners.{i}" if shape else "corners",
                id=f"C-{left.name}-{right.name}",
                left_wall=left.name,
                right_wall=right.name,
                angle_deg=shape.angle if shape else 90.0,
                first=(shape.first if shape else "") or _first(left, right, along),
            )
        )
    return tuple(corners)


def _first(left: WallShape, right: WallShape, along: str) -> str:
    if along in (left.name, right.name):
        return along
    return right.name if right.width.exact > left.width.exact else left.name
