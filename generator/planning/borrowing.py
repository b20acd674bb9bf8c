"""Framing seen from its side: a niche's boards stand on the sides of the studs that frame it.

A piece of lumber is a box: its face times its depth. Where one of the box's sides lies in the plane of another wall
or face, that side is a support there too: one piece, two faces.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from generator.model.frames import Frame
from generator.model.geometry import NOISE, REAL_AREA, TOUCH, Point, box, canonical, rectangle, tidy
from generator.model.plan import PlannedWall, Support

SQUARE = 1e-9
"""Of direction cosines: pieces that stand askew to a face lend it nothing."""


def borrowed(wall: PlannedWall, walls: Iterable[PlannedWall], supports: Iterable[Support]) -> Iterator[Support]:
    """Sides of other walls' pieces that lie in this wall's plane and behind it, where its boards are asked for."""
    frames = {other.id: other.frame for other in walls}
    for support in supports:
        if support.wall != wall.id and support.same_as is None:
            side = _side(support, frames[support.wall], wall)
            if side is not None:
                yield side


def _side(support: Support, theirs: Frame, wall: PlannedWall) -> Support | None:
    ours = wall.frame
    if not all(_is_square(a, b) for a in _axes(theirs) for b in _axes(ours)):
        return None
    corners = [ours.of(theirs.at(u, v, w)) for u, v in support.outline for w in (-support.depth, 0.0)]
    back, most = min(w for _, _, w in corners), max(w for _, _, w in corners)
    side = [(tidy(u), tidy(v)) for u, v, w in corners if w >= most - TOUCH]
    u0, v0, u1, v1 = box(side)
    reach = box(wall.extent)
    across, up = min(u1, reach[2]) - max(u0, reach[0]), min(v1, reach[3]) - max(v0, reach[1])
    if abs(most) > TOUCH or across <= NOISE or up <= NOISE or across * up <= REAL_AREA:
        return None
    opposite = _opposite(theirs, ours)
    return replace(
        support,
        wall=wall.id,
        outline=canonical(side) if opposite else rectangle(u0, v0, u1, v1),
        axis=_seen_axis(support, theirs, ours) if opposite else _middle_line((u0, v0, u1, v1)),
        depth=tidy(most - back),
        same_as=support.id,
    )


def _opposite(theirs: Frame, ours: Frame) -> bool:
    """True of the two faces of a partition: the rear of a piece is as its front, and may be no rectangle."""
    return sum(a * b for a, b in zip(theirs.w_axis, ours.w_axis, strict=True)) < -1.0 + SQUARE


def _seen_axis(support: Support, theirs: Frame, ours: Frame) -> tuple[Point, Point]:
    ends = (ours.of(theirs.at(u, v, 0.0)) for u, v in support.axis)
    first, last = sorted(((tidy(u), tidy(v)) for u, v, _ in ends), key=lambda end: (end[1], end[0]))
    return first, last


def _middle_line(around: tuple[float, float, float, float]) -> tuple[tuple[float, float], tuple[float, float]]:
    """Along the longer side of a rectangle, through its middle."""
    u0, v0, u1, v1 = around
    if v1 - v0 >= u1 - u0:
        middle = tidy((u0 + u1) / 2)
        return (middle, tidy(v0)), (middle, tidy(v1))
    middle = tidy((v0 + v1) / 2)
    return (tidy(u0), middle), (tidy(u1), middle)


def _axes(frame: Frame) -> tuple[tuple[float, float, float], ...]:
    return frame.u_axis, frame.v_axis, frame.w_axis


def _is_square(a: tuple[float, float, float], b: tuple[float, float, float]) -> bool:
    cosine = abs(sum(x * y for x, y in zip(a, b, strict=True)))
    return cosine < SQUARE or cosine > 1.0 - SQUARE
