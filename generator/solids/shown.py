"""What pictures show of a room's bodies."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

from generator.model.geometry import TOUCH
from generator.model.plan import PlannedWall
from generator.solids.kernel import in_wall, one_solid, sweep, wall_wire
from generator.solids.records import Bodies, Body, BodyKind

FRAMING: tuple[BodyKind, ...] = ("stud", "plate", "blocking", "nailer", "ledger")


def in_place(bodies: Bodies) -> tuple[Body, ...]:
    """What pictures show, where it belongs: the base is cut out where a tray was formed round a bench.

    Two bodies in one place have no edge where one comes out of the other, and each would show through the other.
    """
    parts = shown(bodies)
    built = [b for b in parts if b.wall and bodies.wall(b.wall).feature_id]
    return tuple(replace(b, shape=_without(b.shape, built)) if b.kind == "base" else b for b in parts)


def shown(bodies: Bodies) -> tuple[Body, ...]:
    """What pictures show: everything but supports beside all boards of their wall, which only stand in the way.

    Each piece of lumber is there once, however many faces it carries: two bodies in one place would hide each other.
    Bare masonry is one body, not the strips of it that take plugs.
    """
    reach = {w.id: _span(w, [b for b in bodies.of_kind("board") if b.wall == w.id]) for w in bodies.walls}
    beside = {b.id for b in bodies.of_kind(*FRAMING) if not _overlap(_span(bodies.wall(b.wall), [b]), reach[b.wall])}
    parts = [b for b in bodies.parts if b.id not in beside and not b.same_as]
    bare = {wall.id for wall in bodies.walls if _is_bare(bodies, wall)}
    strips = [b for b in parts if b.wall in bare and b.kind in FRAMING]
    return (*(b for b in parts if b not in strips), *_masonry(bodies, strips))


def _is_bare(bodies: Bodies, wall: PlannedWall) -> bool:
    """True of a wall of masonry: it has no framing but nailers, the strips that take plugs."""
    return wall.feature_id is None and {b.kind for b in bodies.of_kind(*FRAMING) if b.wall == wall.id} == {"nailer"}


def _masonry(bodies: Bodies, strips: Sequence[Body]) -> Iterator[Body]:
    """A slab for each bare wall, as deep as its strips, without its mouths and what is chased into it."""
    for first in {b.wall: b for b in reversed(strips)}.values():
        wall = bodies.wall(first.wall)
        depths = [in_wall(wall, v.toTuple())[2] for v in first.shape.Vertices()]
        rings = (wall_wire(wall, ring, min(depths)) for ring in (wall.outline, *(m.ring for m in wall.mouths)))
        outline, *mouths = rings
        slab = sweep(outline, mouths, wall.w_axis, max(depths) - min(depths))
        chased = [b for b in bodies.of_kind("pipe", "valve") if b.wall == wall.id]
        yield replace(first, shape=_without(slab, chased))


def _without(shape: Any, bodies: Sequence[Body]) -> Any:
    """A shape less the bodies that reach into its box."""
    tools = [b.shape for b in bodies if _boxes_overlap(shape, b.shape)]
    return one_solid(shape.cut(*tools)) if tools else shape


def _boxes_overlap(one: Any, other: Any) -> bool:
    a, b = one.BoundingBox(), other.BoundingBox()
    spans = ((a.xmin, a.xmax, b.xmin, b.xmax), (a.ymin, a.ymax, b.ymin, b.ymax), (a.zmin, a.zmax, b.zmin, b.zmax))
    return all(_overlap((low, high), (start, end)) for low, high, start, end in spans)


def _span(wall: PlannedWall, group: list[Body]) -> tuple[float, float]:
    """Least and greatest u of some bodies; an empty span where there are none."""
    across = [in_wall(wall, v.toTuple())[0] for b in group for v in b.shape.Vertices()]
    return min(across, default=math.inf), max(across, default=-math.inf)


def _overlap(a: tuple[float, float], b: tuple[float, float]) -> bool:
    return min(a[1], b[1]) - max(a[0], b[0]) > TOUCH
