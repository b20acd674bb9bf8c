"""A partition or half wall: one wall of the file, three of the chain (its inside, its end, its outside), and a cap.

Both sides are boarded first and end with the framing; the narrow board of the end laps both, so that the cut edges of
the large boards lie behind it and the one piece that must fit exactly is the one that is easily cut again. The cap
comes last and laps all three: water that runs over it meets no open joint. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from generator.model.ends import foot, height_at, top_line
from generator.model.features import Feature, Fold
from generator.model.frames import Frame, upright_frame
from generator.model.geometry import Point, Ring, box, canonical, rectangle
from generator.model.room import Beside, Corner, Wall
from generator.reading.bench_shapes import PartitionShape
from generator.reading.facing import Against, Body, Side, above, below, extent_of, faces_of, folds_of
from generator.reading.issues import join

OUTSIDE = 270.0
"""Degrees in the room at the arrises of a partition."""


@dataclass(frozen=True, slots=True)
class Partition:
    """A wall of the file that stands free. `at_right`: its free end is its right one. `fall`: of a cap, mm per mm;
    `fit`: mm between boards that meet in a corner."""

    wall: Wall
    shape: PartitionShape
    at_right: bool
    fall: float
    board: float
    fit: float

    @property
    def ids(self) -> tuple[str, str, str]:
        """Inside, end, outside."""
        return self.wall.id, f"{self.wall.id}-end", f"{self.wall.id}-outside"

    @property
    def width(self) -> float:
        return foot(self.wall.outline, "right")


def chain_of(one: Partition) -> tuple[tuple[Wall, ...], tuple[Corner, ...]]:
    """The walls that stand for a partition, left to right, and the corners between them."""
    inside, end, outside = _sides(one)
    sides = (inside, end, outside) if one.shape.faces == "both" else (inside, end)
    walls = sides if one.at_right else tuple(reversed(sides))
    return walls, tuple(_corner(one, left.id, right.id) for left, right in pairwise(walls))


def _corner(one: Partition, left: str, right: str) -> Corner:
    first = next(side for side in (left, right) if side != one.ids[1])
    return Corner(join(one.wall.path, "partition"), f"C-{left}-{right}", left, right, OUTSIDE, first)


def _sides(one: Partition) -> tuple[Wall, Wall, Wall]:
    """Inside, end, outside. Their framing is level across the partition; a bevelled plate on it makes the fall."""
    line, far = top_line(one.wall.outline), _outside_reach(one)
    thickness, free = one.shape.thickness.mm, height_at(line, one.width if one.at_right else 0.0)
    end = _bare(one, one.ids[1], rectangle(0.0, 0.0, thickness, free), (0.0, thickness), _end_beside(one))
    seen = canonical((one.width - u, v) for u, v in one.wall.outline)
    outside = _bare(one, one.ids[2], seen, far, _outside_beside(one))
    if not one.shape.cap:
        return one.wall, end, outside
    body = _body(one, upright_frame((0.0, 0.0, 0.0), 0.0))
    first, second, last, _ = body.sides
    return _under_cap(body, one.wall, first), _under_cap(body, end, last), _under_cap(body, outside, second)


def _bare(
    one: Partition, wall_id: str, outline: Ring, reach: tuple[float, float], beside: tuple[Beside, Beside]
) -> Wall:
    """A side that has no measurements of its own: it is fastened to the sides of the inside's framing."""
    return replace(
        one.wall,
        path=join(one.wall.path, "partition"),
        id=wall_id,
        outline=outline,
        reach=reach,
        beside=beside,
        supports=(),
        readings=(),
        flange_off=None,
        holes=(),
        notches=(),
        mouths=(),
        in_bays=(),
        borrows=True,
    )


def _under_cap(body: Body, wall: Wall, side: Side) -> Wall:
    """The wall with its boards ending under the cap, level with the framing, and no fit: the cap laps their edge."""
    extent = _below_line(extent_of(body, side), top_line(wall.outline))
    if side.kind == "end":  # its narrow board is cut square, at the lowest that the cap leaves
        left, low, right, _ = box(extent)
        extent = rectangle(left, low, right, min(v for _, v in extent if v > low))
    else:
        across = (1.0, 0.0, 0.0)
        extent = above(below(extent, across, wall.reach[1]), across, wall.reach[0])
    return replace(wall, extent=canonical(extent), to_ceiling=False)


def _below_line(ring: Sequence[Point], line: Sequence[Point]) -> Sequence[Point]:
    """The part of a ring below a straight line, run on beyond its ends."""
    (u0, v0), (u1, v1) = line[0], line[-1]
    slope = (v1 - v0) / (u1 - u0)
    return below(ring, (-slope, 1.0, slope * u0 - v0), 0.0)


def _outside_reach(one: Partition) -> tuple[float, float]:
    """On the other side the neighbour goes on with wallboard as thick as the boards, and these butt against it."""
    far = one.shape.outside.mm if _stops_short(one) and one.shape.outside else _farthest(one)
    return (0.0, far) if one.at_right else (one.width - far, one.width)


def _stops_short(one: Partition) -> bool:
    return one.shape.outside is not None and one.shape.outside.mm < _farthest(one)


def _farthest(one: Partition) -> float:
    """How far boards go on the other side, from the free end."""
    return one.width - one.board - one.fit


def _outside_beside(one: Partition) -> tuple[Beside, Beside]:
    """Beyond boards that stop on the outside there is wallboard; boards that go to its end meet nothing there."""
    other: Beside = "wallboard" if _stops_short(one) else "free"
    return ("corner", other) if one.at_right else (other, "corner")


def _end_beside(one: Partition) -> tuple[Beside, Beside]:
    outside: Beside = "corner" if one.shape.faces == "both" else "free"
    return ("corner", outside) if one.at_right else (outside, "corner")


def side_frames(inside: Frame, width: float, thickness: float, *, at_right: bool) -> tuple[Frame, Frame]:
    """Frames of the end and of the outside of a partition, from that of its inside."""
    outside = inside.turned((width, 0.0, -thickness), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
    if at_right:
        return inside.turned((width, 0.0, 0.0), (0.0, 0.0, -1.0), (0.0, 1.0, 0.0)), outside
    return inside.turned((0.0, 0.0, -thickness), (0.0, 0.0, 1.0), (0.0, 1.0, 0.0)), outside


def _body(one: Partition, inside: Frame, neighbour: Against | None = None) -> Body:
    """The partition with its cap, seen from the frame of its inside."""
    thickness = one.shape.thickness.mm
    end, outside = side_frames(inside, one.width, thickness, at_right=one.at_right)
    boarded = one.shape.faces == "both"
    sides = (
        Side(one.ids[0], "wall", inside, stands=True),
        Side(one.ids[2] if boarded else "", "wall", outside, stands=True),
        Side(one.ids[1], "end", end, stands=True),
        Side(f"{one.wall.id}-cap", "cap", _cap_frame(one, inside)),
    )
    floor = Against("leg-gap", inside.turned((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0)), 0.0)
    return Body(
        path=join(one.wall.path, "partition"),
        feature=f"{one.wall.id}-top",
        kind="half_wall",
        board=one.board,
        sides=sides,
        against=(floor, neighbour or _closed_end(one, inside)),
    )


def _closed_end(one: Partition, inside: Frame) -> Against:
    """The plane at the end of the partition that is a corner of the room."""
    at, way = (0.0, 1.0) if one.at_right else (one.width, -1.0)
    return Against("neighbour", inside.turned((at, 0.0, 0.0), (0.0, 0.0, -way), (0.0, 1.0, 0.0)), 0.0)


def _cap_frame(one: Partition, inside: Frame) -> Frame:
    """v along the cap as the inside runs, u down the slope to the inside; the outer arris at its foot is the origin.

    Along the wall the top rises by `rise` and across it, outwards, by the fall: both lie in the plane.
    """
    line = top_line(one.wall.outline)
    low, high = height_at(line, 0.0), height_at(line, one.width)
    rise, fall, thickness = (high - low) / one.width, one.fall, one.shape.thickness.mm
    down = (rise * fall / (1.0 + rise * rise), -fall / (1.0 + rise * rise), 1.0)
    return inside.turned((0.0, low + thickness * fall, -thickness), down, (1.0, rise, 0.0))


def _squared(cap: Wall) -> Wall:
    """The cap with its ends square: where it falls along the wall too, its planes make them askew by the fall times the
    rake, less than 1 in 48 and no tape's business. No part of it grows by that."""
    kept_off = tuple(replace(one, ring=rectangle(*box(one.ring))) for one in cap.allowances)
    return replace(cap, outline=_within(cap.outline), extent=_within(cap.extent), allowances=kept_off)


def _within(ring: Ring) -> Ring:
    """The rectangle between the sides of a ring of four."""
    us, vs = (sorted(values) for values in zip(*ring, strict=True))
    return rectangle(us[1], vs[1], us[2], vs[2])


def cap_of(one: Partition, inside: Frame, neighbour: Against) -> tuple[tuple[Wall, ...], tuple[Fold, ...], Feature]:
    """The cap, its folds, and the half wall as a feature; `neighbour` is the wall that it stands against."""
    body = _body(one, inside, neighbour)
    faces = tuple(_squared(face) for face in faces_of(body))
    ids = tuple(face.id for face in faces)
    return faces, folds_of(body), Feature(body.path, body.feature, "half_wall", one.wall.id, ids, ids)
