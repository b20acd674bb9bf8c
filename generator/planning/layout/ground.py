"""One wall as the layouts see it: where lines run inside the region, which seams are allowed, what a cell holds."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from math import hypot
from typing import TYPE_CHECKING

from generator.model.geometry import NOISE, TOUCH, Point, Ring, box, canonical, tidy
from generator.planning.layout.task import Leg, Unscrewed, WallTask

if TYPE_CHECKING:
    from shapely import Polygon

Span = tuple[float, float]
Cell = tuple[float, float, float, float]
"""(left, bottom, right, top)."""

BESIDE = 1e-4
"""mm: a line is looked at this far to either side, so that an edge of the region on it is no seam."""


@dataclass(frozen=True, slots=True)
class Clip:
    """The board that fills a cell: its box, and whether either side of it is a narrow rip."""

    width: float
    height: float
    box: Cell


@dataclass(frozen=True)
class Ground:
    """Geometry of a wall's region with remembered answers (the same cells come up in many layouts)."""

    wall: WallTask
    extent: Cell
    polygon: Polygon
    _clips: dict[Cell, Clip | None] = field(default_factory=dict)
    _seams: dict[tuple[str, float, float, float], tuple[Span, ...] | None] = field(default_factory=dict)

    def clip(self, cell: Cell) -> Clip | None:
        """The board in this cell, mouths of niches and windows as holes in it; None when it holds no single board."""
        if cell not in self._clips:
            self._clips[cell] = self._measure(cell)
        return self._clips[cell]

    def upright(self, u: float, low: float, high: float) -> tuple[Span, ...] | None:
        """Stretches of a seam at u between two heights; None where a rule forbids it."""
        key = ("u", u, low, high)
        if key not in self._seams:
            spans = _within(self._runs(0, u), low, high)
            self._seams[key] = spans if all(self._upright_allowed(u, span) for span in spans) else None
        return self._seams[key]

    def level(self, v: float, left: float, right: float) -> tuple[Span, ...] | None:
        """Stretches of a level seam at v between two uprights; None where a rule forbids it."""
        key = ("v", v, left, right)
        if key not in self._seams:
            spans = _within(self._runs(1, v), left, right)
            self._seams[key] = spans if all(self._level_allowed(v, span) for span in spans) else None
        return self._seams[key]

    def adds(self, u: float, spans: Iterable[Span]) -> bool:
        """True when a seam there needs an added support: no found one carries every stretch."""
        return not all(_carried(self.wall, u, span, adds=False) for span in spans)

    def outline(self, cell: Cell) -> Ring:
        """Canonical ring of the board in the cell, its corners exactly on the region's and the cell's lines."""
        shape = self._cut(cell)
        xs = sorted({cell[0], cell[2], *(x for x, _ in self._corners())})
        ys = sorted({cell[1], cell[3], *(y for _, y in self._corners())})
        return canonical((_snap(x, xs), _snap(y, ys)) for x, y in shape.exterior.coords[:-1])

    def _corners(self) -> tuple[Point, ...]:
        return tuple(p for ring in (self.wall.region.ring, *self.wall.region.holes) for p in ring)

    def _cut(self, cell: Cell) -> Polygon:
        import shapely

        cut = self.polygon.intersection(shapely.box(*cell))
        parts = [p for p in shapely.get_parts(cut) if isinstance(p, shapely.Polygon) and p.area > TOUCH]
        return parts[0] if len(parts) == 1 else shapely.Polygon()

    def _measure(self, cell: Cell) -> Clip | None:
        shape = self._cut(cell)
        if shape.is_empty:
            return None
        left, bottom, right, top = (tidy(x) for x in shape.bounds)
        return Clip(tidy(right - left), tidy(top - bottom), (left, bottom, right, top))

    def _runs(self, axis: int, at: float) -> list[Span]:
        """Where the line is inside the region with region on both its sides."""
        before, after = (_inside(self.wall, axis, at + step) for step in (-BESIDE, BESIDE))
        common = ((max(a, c), min(b, d)) for a, b in before for c, d in after)
        return sorted(span for span in common if span[1] - span[0] > TOUCH)

    def _upright_allowed(self, u: float, span: Span) -> bool:
        in_leg = any(leg.from_u + TOUCH < u < leg.to_u - TOUCH and span[0] < leg.top - TOUCH for leg in self.wall.legs)
        carried = any(_carried(self.wall, u, span, adds=a) for a in (False, True))
        return carried and not in_leg and self._clear((u, span[0]), (u, span[1]))

    def _level_allowed(self, v: float, span: Span) -> bool:
        zones: tuple[Leg | Unscrewed, ...] = (*self.wall.legs, *self.wall.unscrewed)
        too_low = any(
            v < leg.top + TOUCH and span[0] < leg.to_u - TOUCH and span[1] > leg.from_u + TOUCH for leg in zones
        )
        return not too_low and self._clear((span[0], v), (span[1], v))

    def _clear(self, p: Point, q: Point) -> bool:
        """No disc nearer than its radius, no uncut ring entered."""
        if any(_distance(disc.centre, p, q) < disc.radius - NOISE for disc in self.wall.discs):
            return False
        return not any(_enters(ring, p, q) for ring in self.wall.uncut)


def make_ground(wall: WallTask) -> Ground:
    """The wall with its region as a polygon."""
    import shapely

    region = wall.region
    return Ground(wall, box(region.ring), shapely.Polygon(region.ring, region.holes))


def _inside(wall: WallTask, axis: int, at: float) -> list[Span]:
    """Stretches of the line (axis 0: upright at u, 1: level at v) inside the region."""
    other = 1 - axis
    crossings = []
    for ring in (wall.region.ring, *wall.region.holes):
        for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
            if (p[axis] < at) != (q[axis] < at):
                share = (at - p[axis]) / (q[axis] - p[axis])
                crossings.append(p[other] + share * (q[other] - p[other]))
    crossings.sort()
    return list(zip(crossings[::2], crossings[1::2], strict=True))


def _within(runs: list[Span], low: float, high: float) -> tuple[Span, ...]:
    clipped = ((max(a, low), min(b, high)) for a, b in runs)
    return tuple((tidy(a), tidy(b)) for a, b in clipped if b - a > TOUCH)


def _carried(wall: WallTask, u: float, span: Span, *, adds: bool) -> bool:
    return any(
        s.adds == adds and abs(s.u - u) < NOISE and s.from_v < span[0] + TOUCH and span[1] < s.to_v + TOUCH
        for s in wall.seams
    )


def _snap(value: float, lines: list[float]) -> float:
    nearest = min(lines, key=lambda line: abs(line - value))
    return nearest if abs(nearest - value) < NOISE else value


def _distance(centre: Point, p: Point, q: Point) -> float:
    """From a point to an upright or level segment."""
    near_u = min(max(centre[0], p[0]), q[0])
    near_v = min(max(centre[1], p[1]), q[1])
    return hypot(centre[0] - near_u, centre[1] - near_v)


def _enters(ring: Ring, p: Point, q: Point) -> bool:
    import shapely

    return bool(shapely.Polygon(ring).intersection(shapely.LineString((p, q))).length > TOUCH) and bool(
        shapely.Polygon(ring).buffer(-TOUCH).intersects(shapely.LineString((p, q)))
    )
