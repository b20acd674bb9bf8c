"""Where the chain of walls stands in the room, from their widths and corners."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from generator.model.ends import foot
from generator.model.frames import Frame, chain_frames
from generator.model.geometry import NOISE
from generator.model.room import Base, Corner, Wall


def placed(walls: Sequence[Wall], corners: Sequence[Corner], base: Base) -> Mapping[str, Frame]:
    """Frames of the walls of the chain, by id: framing ends coincide, the base's long wall runs along x."""
    widths = [(wall.id, foot(wall.outline, "right")) for wall in walls]
    return chain_frames(widths, [corner.angle_deg for corner in corners], _along(walls, base))


def _along(walls: Sequence[Wall], base: Base) -> str:
    long = [side.wall for side in base.sides if abs((side.end - side.start) - base.length) < NOISE]
    return [walls[0].id, *(side.wall for side in base.sides[:1]), *long][-1]
