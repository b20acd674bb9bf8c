"""Where the chain of walls stands in the room, from their widths and corners."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from generator.model.frames import Frame, chain_frames
from generator.model.geometry import NOISE, Point
from generator.model.plan import PlannedWall
from generator.model.room import Base, Corner, Wall


def placed(walls: Sequence[Wall], corners: Sequence[Corner], base: Base) -> Mapping[str, Frame]:
    """Frames of the walls of the chain, by id: framing ends coincide, the base's long wall runs along x.

    The bare framing is placed; the frame of a furred wall stands out from it by its furring.
    """
    widths = [(wall.id, wall.bare_width) for wall in walls]
    frames = chain_frames(widths, [corner.angle_deg for corner in corners], _along(walls, base))
    return {wall.id: _out(frames[wall.id], wall.furring) for wall in walls}


def floor_point(wall: PlannedWall, u: float, w: float) -> Point:
    """The room's (x, y) of a point in front of a plumb wall."""
    x, y = (wall.origin[i] + u * wall.u_axis[i] + w * wall.w_axis[i] for i in (0, 1))
    return x, y


def _out(frame: Frame, w: float) -> Frame:
    """The frame moved out of its wall."""
    return replace(frame, origin=frame.at(0.0, 0.0, w)) if w else frame


def _along(walls: Sequence[Wall], base: Base) -> str:
    long = [side.wall for side in base.sides if abs((side.end - side.start) - base.length) < NOISE]
    return base.along or [walls[0].id, *(side.wall for side in base.sides[:1]), *long][-1]
