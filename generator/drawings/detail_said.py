"""What every detail says: its parts by name, its bands by their legs, its sizes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from math import dist
from typing import TYPE_CHECKING, Literal

from generator.drawings.callouts import Note
from generator.drawings.detail_ink import BandTrace, Patch, Seen, polygons
from generator.drawings.said import lumber_name
from generator.model.frames import Vector
from generator.model.geometry import TOUCH, Point, Ring, box, canonical
from generator.planning.cuts import bottom_at
from generator.units import PaperUnits, label, label_thickness

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


@dataclass(frozen=True, slots=True)
class Size:
    """A distance to be dimensioned, between two points of the cut's frame; `mm` as the plan has it."""

    p: Point
    q: Point
    axis: Literal["x", "y"]
    mm: float


@dataclass(frozen=True, slots=True)
class Said:
    """A detail's title, its patches (what is no solid), notes and sizes, all in the cut's frame."""

    title: str
    patches: tuple[Patch, ...]
    notes: tuple[Note, ...]
    sizes: tuple[Size, ...]


def rings_of(shape: BaseGeometry) -> tuple[Ring, ...]:
    """Outer rings of a shape's polygons, in order."""
    return tuple(sorted(canonical((x, y) for x, y in p.exterior.coords[:-1]) for p in polygons(shape)))


def part_notes(shown: Seen) -> tuple[Note, ...]:
    """A name for each board, and for each sort of lumber and the base one."""
    job, units = shown.job, shown.job.room.choices.paper_units
    notes: dict[str, Note] = {}
    doubles = frozenset(s.id for s in job.plan.supports if s.same_as)
    for part in shown.section.parts:
        if part.part in doubles:
            continue
        if part.kind == "board":
            words = f"board {part.part}, {label_thickness(job.plan.board(part.part).thickness, units)}"
        elif part.kind == "base":
            words = {"tub": "tub", "shower_base": "shower base"}.get(job.room.base.kind, "tray")
        else:
            words = _lumber(shown, part.part, part.kind)
        notes.setdefault(words, Note(_anchor(shown, part.part), words))
    return tuple(notes.values())


def _lumber(shown: Seen, part: str, kind: str) -> str:
    support = next((s for s in shown.job.plan.supports if s.id == part), None)
    if support is None:
        return {"nailer": "furring strip"}.get(kind, kind)
    material = {"wood": "", "steel": "steel ", "masonry": "masonry, bare"}[support.material]
    name = material if support.material == "masonry" else f"{material}{lumber_name(support)}"
    return f"{name}, to add" if support.origin == "added" else name


def _anchor(shown: Seen, part: str) -> Point:
    """A point well inside what is cut of a part, beside the screws in it."""
    from shapely import LineString

    whole = shown.shape(part)
    screws = [LineString((s.head, s.tip)).buffer(5.0) for s in shown.screws]
    free = reduce(lambda shape, screw: shape.difference(screw), screws, whole)
    shape = whole if free.is_empty else free
    largest = max(getattr(shape, "geoms", (shape,)), key=lambda g: (round(g.area, 3), g.bounds))
    spot = largest.representative_point()
    return (spot.x, spot.y)


def band_notes(shown: Seen, kind: str, over: frozenset[str] = frozenset()) -> tuple[Note, ...]:
    """A note on the first band of a kind that is cut: its width, and how far it lies to either side of the joint."""
    traces = bands_over(shown, kind, over)
    first = [t for t in traces if t.band.id == traces[0].band.id]
    return (_band_note(shown, first),) if first else ()


def bands_over(shown: Seen, kind: str, over: frozenset[str] = frozenset()) -> list[BandTrace]:
    """The traces of a kind of band; of those folded over the joint of just these faces, where any are named."""
    same = [t for t in shown.bands if t.band.kind == kind]
    return [t for t in same if not over or {r.wall for r in t.band.rings} == over]


def _band_note(shown: Seen, traces: list[BandTrace]) -> Note:
    units = shown.job.room.choices.paper_units
    width, side = (label(size, units) for size in (shown.job.room.choices.band.width, _patch(shown)))
    legs = " and ".join(dict.fromkeys(halves(full_leg(shown, t), units) for t in traces))
    how = {
        "base": f"band {width} wide, bedded in mortar, {_up_and_down(shown, traces[0])}",
        "corner": f"band {width} wide, folded, bedded in mortar, {legs} on each side",
        "seam": f"band {width} wide over the joint, bedded in mortar",
        "patch": f"patch {side} square over the screw, bedded in mortar",
    }
    trace = max(traces, key=lambda t: (round(t.length, 3), t.p))
    return Note(trace.middle, how.get(trace.band.kind, trace.band.kind))


def halves(mm: float, units: PaperUnits) -> str:
    """As `label`, but a half millimetre stays one: 62.5 to either side of a joint make a band of 125."""
    return (label_thickness if abs(2 * mm - round(2 * mm)) <= TOUCH else label)(mm, units)


def _patch(shown: Seen) -> float:
    return shown.job.room.choices.band.patch_side


def _up_and_down(shown: Seen, trace: BandTrace) -> str:
    """How far a base's band lies up on the board and down below its edge."""
    units, board = shown.job.room.choices.paper_units, next(b for b in shown.boards() if b.wall == trace.wall)
    edge = bottom_at(board, shown.along(trace.wall))
    ring = next(r.ring for r in trace.band.rings if r.wall == trace.wall)
    _, low, _, high = box(ring)
    rises = shown.job.plan.wall(trace.wall).w_axis[2] < 0.5
    up = f"{label(high - edge, units)} {'up ' * rises}on the board"
    return f"{up} and {label(edge - low, units)} down on the flange" if edge - low > TOUCH else f"{up} from its edge"


def full_leg(shown: Seen, trace: BandTrace) -> float:
    """Width of the whole leg across its joint, whatever the window shows of it."""
    whole = next(r.ring for r in trace.band.rings if r.wall == trace.wall)
    wall = shown.job.plan.wall(trace.wall)
    spots = _in_the_cut([shown.cut.frame.of(wall.frame.at(u, v)) for u, v in whole])
    way = ((trace.q[0] - trace.p[0]) / dist(trace.p, trace.q), (trace.q[1] - trace.p[1]) / dist(trace.p, trace.q))
    along = [x * way[0] + y * way[1] for x, y in spots]
    return max(along) - min(along)


def _in_the_cut(ring: Sequence[Vector]) -> list[Point]:
    """The corners of a ring moved into the plane of the cut along its joint, which may rise towards the reader."""
    sides = [[b - a for a, b in zip(p, q, strict=True)] for p, q in zip(ring, (*ring[1:], ring[0]), strict=True)]
    dx, dy, dw = max(sides, key=lambda side: round(abs(side[2]), 6))
    if abs(dw) <= TOUCH:
        return [(x, y) for x, y, _ in ring]
    return [(x - w * dx / dw, y - w * dy / dw) for x, y, w in ring]
