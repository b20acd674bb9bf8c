"""What the details of corners, folds, wallboard joints and screws say."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from generator.drawings.callouts import Note
from generator.drawings.detail_ink import Patch, ScrewTrace, Seen, polygons
from generator.drawings.detail_said import Said, Size, band_notes, bands_over, full_leg, halves, part_notes, rings_of
from generator.model.cuts import Cut, CutKind
from generator.model.geometry import TOUCH, Point, rectangle
from generator.model.job import Job
from generator.model.plan import Board, PlannedWall
from generator.units import PaperUnits, either, label

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

FOOT = 304.8
"""mm: falls are said by the foot where lengths are in inches."""


def joint_said(shown: Seen) -> Said:
    """The words of any detail but a base's."""
    return _SAYS[shown.cut.kind](shown)


def _corner(shown: Seen) -> Said:
    job, corner = shown.job, next(c for c in shown.job.plan.corners if c.id == shown.cut.subject)
    later = corner.right_wall if corner.first == corner.left_wall else corner.left_wall
    pair = frozenset((corner.first, later))
    notes = (*part_notes(shown), *_order(shown, corner.first, later), *band_notes(shown, "corner", pair))
    angle = "" if abs(corner.angle_deg - 90.0) < 0.05 else f", {corner.angle_deg:.1f}°"
    return Said(f"Inside corner{angle}, from above", _slot(shown, job), notes, _legs(shown, pair))


def _order(shown: Seen, first: str, later: str) -> tuple[Note, ...]:
    """Which board goes up first, and how far the other one keeps from its face."""
    one, two = _board_on(shown, first), _board_on(shown, later)
    if one is None or two is None:
        return ()
    a, b = shown.shape(one.id), shown.shape(two.id)
    units, spot = shown.job.room.choices.paper_units, _between(a, b)
    apart = a.distance(b)
    how = "filled with sealant" if shown.job.room.choices.sealant.fill_corners else "left open: the band bridges it"
    butts = f"{two.id} butts against the face of {one.id}, {label(apart, units)} fit, {how}"
    return (Note(spot, f"{one.id} goes up first; {butts}"),)


def _board_on(shown: Seen, wall: str) -> Board | None:
    return next((b for b in shown.boards() if b.wall == wall), None)


def _between(a: BaseGeometry, b: BaseGeometry) -> Point:
    from shapely import shortest_line

    (x0, y0), (x1, y1) = shortest_line(a, b).coords
    return ((x0 + x1) / 2, (y0 + y1) / 2)


def _slot(shown: Seen, job: Job) -> tuple[Patch, ...]:
    """The sealant between the boards, where the profile fills corners."""
    if not job.room.choices.sealant.fill_corners or len(shown.boards()) < 2:
        return ()
    one, two = (shown.shape(b.id) for b in shown.boards()[:2])
    reach = one.distance(two) + TOUCH
    meet = one.buffer(reach, join_style="mitre").intersection(two.buffer(reach, join_style="mitre"))
    return tuple(Patch(ring, "sealant") for ring in rings_of(meet.difference(shown.solid())))


def _legs(shown: Seen, over: frozenset[str]) -> tuple[Size, ...]:
    """How far the bands reach, along either axis, from the line where they are folded."""
    sizes: dict[str, Size] = {}
    left, _, _, high = shown.cut.window
    for trace in bands_over(shown, "corner", over):
        (x0, y0), (x1, y1) = trace.p, trace.q
        full = full_leg(shown, trace)
        whole = abs(trace.length - full) < TOUCH
        if whole and abs(y1 - y0) < TOUCH:
            sizes.setdefault("x", Size((min(x0, x1), high), (max(x0, x1), high), "x", full))
        if whole and abs(x1 - x0) < TOUCH:
            sizes.setdefault("y", Size((left, min(y0, y1)), (left, max(y0, y1)), "y", full))
    return tuple(sizes[axis] for axis in sorted(sizes))


def _outside(shown: Seen) -> Said:
    corner = next(c for c in shown.job.plan.corners if c.id == shown.cut.subject)
    later = corner.right_wall if corner.first == corner.left_wall else corner.left_wall
    pair = frozenset((corner.first, later))
    notes = (*part_notes(shown), *_lap(shown, corner.first, later), *band_notes(shown, "corner", pair))
    return Said("Outside corner, partition end, from above", (), notes, _legs(shown, pair))


def _lap(shown: Seen, first: str, later: str) -> tuple[Note, ...]:
    one, two = _board_on(shown, first), _board_on(shown, later)
    if one is None or two is None:
        return ()
    spot = _between(shown.shape(one.id), shown.shape(two.id))
    return (Note(spot, f"{one.id} first, flush with the framing; {two.id} laps its edge"),)


def _fold(shown: Seen) -> Said:
    """Head, sill, cap, nosing, seat, curb and soffit: what laps what, how it falls, where no screw goes."""
    fold = next(f for f in shown.job.plan.folds if f.id == shown.cut.subject)
    later = fold.faces[1] if fold.first == fold.faces[0] else fold.faces[0]
    pair = frozenset(fold.faces)
    order = _order(shown, fold.first, later) if fold.angle_deg < 180 else _lap(shown, fold.first, later)
    notes = (*part_notes(shown), *order, *_falls(shown), *_bonded(shown), *band_notes(shown, "corner", pair))
    return Said(_title(shown), (), notes, (*_thickness(shown), *_legs(shown, pair)))


def _rim(shown: Seen) -> Said:
    """Where the top of a deck ends beside the tub: how far it keeps away, and what fills the joint."""
    from shapely import Polygon

    units, edge = shown.job.room.choices.paper_units, next(e for e in shown.job.plan.edges if e.id == shown.cut.subject)
    board = shown.job.plan.board(edge.board)
    apart = shown.shape(board.id).distance(shown.shape("base"))
    space = Polygon(rectangle(0.0, 0.0, apart, board.thickness)).difference(shown.solid())
    joint = max(polygons(space), key=lambda p: (round(p.area, 3), p.bounds))
    words = f"{board.id} stops {label(apart, units)} beside the tub; sealant fills the joint, mask the tub first"
    notes = (*part_notes(shown), Note((apart / 2, board.thickness / 2), words), *_falls(shown))
    bands = band_notes(shown, "base")
    return Said(_title(shown), tuple(Patch(ring, "sealant") for ring in rings_of(joint)), (*notes, *bands), ())


def _title(shown: Seen) -> str:
    feature = next(f for f in shown.job.room.features if f.id == shown.cut.feature)
    kind = feature.kind.replace("_", " ")
    words = {
        "head": f"{kind} head".capitalize(),
        "sill": f"{kind} sill".capitalize(),
        "cap": "Cap of a half wall",
        "nosing": f"Front edge of a {kind}",
        "seat": f"Seat of a {kind} at the wall" if kind == "bench" else f"Top of a {kind} at the wall",
        "rim": f"Edge of a {kind} at the tub",
        "curb": "Curb",
        "drop": "Lower edge of a soffit",
        "underside": "Underside of a soffit at the wall",
    }
    title = words[shown.cut.kind]
    return title if feature.id in title.lower() else f"{title}, {feature.id}"


def _falls(shown: Seen) -> tuple[Note, ...]:
    """The fall of every sloping face that is cut."""
    units, base = shown.job.room.choices.paper_units, shown.job.room.base.kind
    to = "tub" if base == "tub" else "shower"
    notes = []
    for board in shown.boards():
        wall = shown.job.plan.wall(board.wall)
        fall = _fall(wall, shown.cut)
        if fall > 1e-4:
            spot = shown.shape(board.id).representative_point()
            notes.append(Note((spot.x - 8.0, spot.y), f"falls {_fall_text(fall, units)} towards the {to}"))
    return tuple(notes)


def _fall(wall: PlannedWall, cut: Cut) -> float:
    """Rise over run of a face that looks up, of a cap across its wall; 0 of one that stands or lies level."""
    x, y, z = wall.w_axis
    across = abs(x * cut.frame.u_axis[0] + y * cut.frame.u_axis[1])
    run = across if cut.kind == "cap" else (x * x + y * y) ** 0.5
    return run / z if z > 0.6 else 0.0


def _fall_text(fall: float, units: PaperUnits) -> str:
    return either(units, f"{label(fall * FOOT, 'in')} per foot", f"{100 * fall:.0f} %")


def _bonded(shown: Seen) -> tuple[Note, ...]:
    if shown.cut.kind != "curb":
        return ()
    cap = next((b for b in shown.boards() if shown.job.plan.wall(b.wall).face == "cap"), None)
    if cap is None:
        return ()
    left, _, right, high = shown.shape(cap.id).bounds
    return (Note((left + (right - left) * 0.3, high - 2.0), "top and inside face are bonded: no screw through them"),)


def _thickness(shown: Seen) -> tuple[Size, ...]:
    """Of a cap or a curb its width over everything, above the view."""
    if shown.cut.kind not in ("cap", "curb"):
        return ()
    walls = {b.wall: shown.job.plan.wall(b.wall) for b in shown.boards()}
    outside = [shown.shape(b.id).bounds for b in shown.boards() if abs(walls[b.wall].w_axis[2]) < 0.5]
    left, right, top = min(b[0] for b in outside), max(b[2] for b in outside), shown.cut.window[3]
    return (Size((left, top), (right, top), "x", right - left),)


def _wallboard(shown: Seen) -> Said:
    job, units = shown.job, shown.job.room.choices.paper_units
    edge = next(e for e in job.plan.edges if e.id == shown.cut.subject)
    board = job.plan.board(edge.board)
    out = -1.0 if shown.shape(board.id).centroid.x < 0 else 1.0
    beyond = -out * (shown.cut.window[2] if out < 0 else -shown.cut.window[0])
    t, back = board.thickness, 0.0
    patch = Patch(rectangle(min(0.0, beyond), -t, max(0.0, beyond), back), "wallboard")
    bearing = f" {label(edge.bearing, units)}" if edge.bearing is not None else ""
    notes = (
        *part_notes(shown),
        Note((beyond * 0.8, -t / 2), "wallboard by others, faces flush: same thickness, or furred"),
        Note((0.0, -0.5), f"joint on the shared stud; the board bears{bearing} on it"),
        *_over(shown),
        Note(
            (beyond * 0.62, -t), "tile ends at or beyond the band's edge, or the band that shows is skimmed and painted"
        ),
    )
    return Said("Transition to wallboard, from above", (patch,), notes, _across(shown))


def _over(shown: Seen) -> tuple[Note, ...]:
    """The band over the joint at x = 0, and how far it lies to either side."""
    units, sizes = shown.job.room.choices.paper_units, _across(shown)
    width = label(shown.job.room.choices.band.width, units)
    sides = " and ".join(dict.fromkeys(halves(size.mm, units) for size in sizes))
    words = f"band {width} wide over the joint, bedded in mortar, {sides} to each side"
    return tuple(Note(note.at, words) for note in band_notes(shown, "seam"))


def _across(shown: Seen) -> tuple[Size, ...]:
    """The band to either side of the joint at x = 0."""
    trace = next((t for t in shown.bands if t.band.kind == "seam"), None)
    if trace is None:
        return ()
    low, high = sorted((trace.p[0], trace.q[0]))
    top = shown.cut.window[3]
    return tuple(
        Size((a, top), (b, top), "x", b - a)
        for a, b in ((low, 0.0), (0.0, high))
        if b - a > TOUCH and abs(a - b) < 200.0
    )


def _screw(shown: Seen) -> Said:
    job, units = shown.job, shown.job.room.choices.paper_units
    trace = next(s for s in shown.screws if s.screw.id == shown.cut.subject)
    support = job.plan.support(trace.screw.support_id)
    thickness = job.plan.board(trace.screw.board_ids[0]).thickness
    bite = bite_of(job, trace)
    rule = "screw-bite-steel" if support.material == "steel" else "screw-bite-wood"
    least = "" if support.material == "masonry" else f", at least {label(job.room.limit(rule), units)}"
    verb = {"wood": "bites", "steel": "reaches past the steel's face by", "masonry": "reaches into the wall by"}
    name = "plug" if support.material == "masonry" else "screw"
    x, y = trace.head
    half = trace.screw.washer_diameter / 2
    notes = (
        *part_notes(shown),
        Note((x + half * 0.8, y + 0.5), f"washer {label(2 * half, units)}, flush in the skin, not through it"),
        Note(
            trace.tip,
            f"{name} {label(trace.screw.length, units)} long {verb[support.material]} {halves(bite, units)}{least}",
        ),
        *(
            band_notes(shown, "patch")
            or band_notes(shown, "seam")
            or band_notes(shown, "corner")
            or band_notes(shown, "base")
        ),
    )
    left = shown.cut.window[0]
    sizes = (
        Size((left, y), (left, y + thickness), "y", thickness),
        Size((left, y + trace.screw.length - bite), (left, trace.tip[1]), "y", bite),
    )
    through = " through furring" if job.plan.wall(trace.screw.wall).furring and name == "screw" else ""
    return Said(f"Typical {name} in {support.material}{through}, from above", (), notes, sizes)


def bite_of(job: Job, trace: ScrewTrace) -> float:
    """mm of a screw in its support: its length less the board and what lies between (furring, mortar)."""
    thickness = job.plan.board(trace.screw.board_ids[0]).thickness
    return trace.screw.length - thickness - job.plan.wall(trace.screw.wall).furring


_SAYS: Mapping[CutKind, Callable[[Seen], Said]] = {
    "corner": _corner,
    "outside_corner": _outside,
    "wallboard": _wallboard,
    "screw": _screw,
    "rim": _rim,
    **dict.fromkeys(("head", "sill", "cap", "nosing", "seat", "curb", "drop", "underside"), _fold),
}
