"""Framing elevation of each wall: studs as found, studs to add or to move, blocking, fittings, the base."""

from __future__ import annotations

from collections.abc import Iterator

from generator.drafting.dimension import running
from generator.drafting.ink import Circle, Ink, Line, Outline, Stop, Text
from generator.drafting.inview import Symbol, symbol
from generator.drawings.elevation import (
    Elevation,
    Margins,
    assembled,
    base_ink,
    elevation,
    flange_rise,
    sides_of,
    strip,
    wall_ink,
)
from generator.drawings.flow import Block, Column, heading, prose, table
from generator.drawings.leaf import Leaf
from generator.drawings.marks import FLAG, Named, centre_mark, names_beside, widest
from generator.drawings.mount_marks import mount_ink, mount_stops, mount_table
from generator.drawings.numbered import SHOWN_OFF, broken_ink, finding_flags, finding_table, on_wall
from generator.drawings.said import ENTERED, Datum, furring_words, leaning_words, measured_from, said, wall_name
from generator.drawings.soffit_marks import hung_ink, hung_stops
from generator.drawings.stud_marks import damage_ink, plate_names, plate_table
from generator.drawings.support_marks import middle, short, stands, state, support_ink, support_tags, supports_of, tag
from generator.model.findings import Finding
from generator.model.geometry import TOUCH, Point, Ring, box, rectangle, tidy
from generator.model.job import Job
from generator.model.plan import PlannedFitting, PlannedSide, Support
from generator.model.room import Wall
from generator.units import label, label_opening, label_size

KIND = "Framing elevation"
CEILING = {"framing": "bare framing of the ceiling", "finished": "finished ceiling"}


def framing_leaves(job: Job) -> tuple[Leaf, ...]:
    """The framing elevations of all walls, left to right."""
    return tuple(leaf for wall in job.room.chain for leaf in _framing(job, wall))


def _framing(job: Job, wall: Wall) -> tuple[Leaf, ...]:
    across, fitting_stops, up = _stud_stops(job, wall), _fitting_stops(job, wall), _height_stops(job, wall)
    bottom = strip(t for _, t in across) + strip(t for _, t in fitting_stops)
    tags = tuple(tag(s) for s in supports_of(job, wall))
    margins = Margins(strip(t for _, t in up), bottom, SHOWN_OFF + 2 * FLAG + 2.0, widest(tags) + 7.0)
    seen = elevation(job, wall, margins)
    shown = on_wall(job, wall, ("found",))
    moves = _moves(job, wall, tuple(n.finding for n in shown))
    model = (
        *(*base_ink(job, wall), *wall_ink(wall), *support_ink(job, wall), *damage_ink(seen), *mount_ink(job, wall)),
        *(Outline(_moved(stud, to), "hidden") for stud, to in moves),
        *_fitting_ink(job, wall),
        *hung_ink(job, wall),
        *broken_ink(shown),
    )
    fittings = _fitting_marks(seen)
    marks = (
        *(ink for stud, to in moves for ink in _arrow(seen, stud, to)),
        *fittings,
        *support_tags(seen, tuple(ink for ink in fittings if isinstance(ink, Text))),
        *_across(seen, across, fitting_stops),
        *_up(seen, up),
        *finding_flags(seen, shown),
    )
    return assembled(KIND, f"{KIND}, {wall_name(wall)}", seen, model, marks, _notes(seen))


def fittings_of(job: Job, wall: Wall) -> tuple[PlannedFitting, ...]:
    """The wall's fittings, by id."""
    return tuple(f for f in job.plan.fittings if f.wall == wall.id)


def from_datum(wall: Wall, datum: Datum, u: float) -> float:
    """Distance of u from the corner that the wall was measured from, mm."""
    left, right = wall.bare_ends
    return u - left if datum == "left" else right - u


def _entered_paths(support: Support) -> tuple[str, ...]:
    path = support.room_path
    return (path, f"{path}.centre") if support.origin == "found" else ()


def _stud_stops(job: Job, wall: Wall) -> tuple[tuple[float, str], ...]:
    datum = measured_from(job.room, wall)
    stops: dict[float, str] = {}
    for s in supports_of(job, wall):
        if stands(s):
            u = s.axis[0][0]
            text = said(job, from_datum(wall, datum, u), _entered_paths(s))
            stops.setdefault(u, text if s.origin == "found" else f"{text} add")
    left, right = wall.bare_ends
    far = right if datum == "left" else left
    stops.setdefault(far, said(job, right - left, (f"{wall.path}.width",)))
    return tuple(sorted(stops.items()))


def _room_path(job: Job, fitting: PlannedFitting) -> str:
    return next((f.path for f in job.room.fittings if f.id == fitting.id), "")


def _fitting_stops(job: Job, wall: Wall) -> tuple[tuple[float, str], ...]:
    datum = measured_from(job.room, wall)
    stops: dict[float, str] = {}
    for f in fittings_of(job, wall):
        path = _room_path(job, f)
        stops.setdefault(f.centre[0], said(job, from_datum(wall, datum, f.centre[0]), (f"{path}.across",)))
    return tuple(sorted(stops.items()))


def _height_stops(job: Job, wall: Wall) -> tuple[tuple[float, str], ...]:
    stops: list[tuple[float, str]] = []
    for side in sides_of(job, wall):
        stops += _deck_stops(job, side)
    stops += _block_stops(job, wall)
    stops += [
        (f.centre[1], f"{f.kind} {said(job, f.centre[1], (_room_path(job, f) + '.up',))}")
        for f in fittings_of(job, wall)
    ]
    stops += [*mount_stops(job, wall), *hung_stops(job, wall)]
    stops += _top_stops(job, wall)
    return tuple(dict(sorted(stops, reverse=True)).items())[::-1]


def _block_stops(job: Job, wall: Wall) -> Iterator[tuple[float, str]]:
    """Middles of the blocks, those of one height together."""
    level: dict[float, list[Support]] = {}
    for s in supports_of(job, wall):
        if s.kind == "blocking" and not s.set_back:
            level.setdefault(middle(s)[1], []).append(s)
    for v, blocks in level.items():
        yield v, f"{', '.join(map(short, blocks))}: {said(job, v, _entered_paths(blocks[0]))}"


def _top_stops(job: Job, wall: Wall) -> Iterator[tuple[float, str]]:
    """Where the framing ends; below a rake the height of each of its corners."""
    floor, entered = box(wall.outline)[1], [f"{wall.path}.heights.{i}.is" for i in range(len(wall.outline))]
    for top in {tidy(v): v for _, v in wall.outline if v > floor + TOUCH}.values():
        yield top, "framing " + said(job, top, (f"{wall.path}.height", *entered))


def _deck_stops(job: Job, side: PlannedSide) -> Iterator[tuple[float, str]]:
    """Deck, and top of the flange or of a tray's lining; of a deck out of level all at either end."""
    upstand = "lining" if job.room.base.tray else "flange"
    ends, rise = (side.deck[0][1], side.deck[-1][1]), flange_rise(side)
    names = ("",) if abs(ends[1] - ends[0]) <= TOUCH else (" at left", " at right")
    for i, (name, deck) in enumerate(zip(names, ends, strict=False)):
        yield deck, f"deck{name} " + said(job, deck, (f"base.decks.{side.wall}.{i}", "base.deck"))
        if rise > TOUCH:
            yield tidy(deck + rise), f"{upstand}{name} " + said(job, deck + rise)


def _moves(job: Job, wall: Wall, findings: tuple[Finding, ...]) -> tuple[tuple[Support, float], ...]:
    """Each stud that is to be moved, and the u where its middle then stands."""
    moves = {(f.cure.room_path, f.cure.to) for f in findings if f.cure and f.cure.kind == "move_support"}
    studs = {s.room_path: s for s in reversed(supports_of(job, wall))}
    return tuple((studs[path], to) for path, to in sorted(moves) if path in studs)


def _moved(stud: Support, to: float) -> Ring:
    left, bottom, right, top = box(stud.outline)
    shift = to - stud.axis[0][0]
    return rectangle(left + shift, bottom, right + shift, top)


def _arrow(seen: Elevation, stud: Support, to: float) -> tuple[Ink, ...]:
    """From the stud's old place to the new, with words."""
    _, bottom, _, top = box(stud.outline)
    y = bottom + (top - bottom) * 0.55
    start, end = seen.view.point((stud.axis[0][0], y)), seen.view.point((to, y))
    way = 1.0 if end[0] > start[0] else -1.0
    head = tuple(Line(end, (end[0] - way * 1.6, end[1] + d), "visible") for d in (0.7, -0.7))
    datum = measured_from(seen.job.room, seen.wall)
    text = f"move {short(stud)} to {label(from_datum(seen.wall, datum, to), seen.job.room.choices.paper_units)}"
    words = Text((end[0] + way * 2.4, end[1]), text, 2.5, "centre", "middle", 90.0, bold=True)
    return (Line(start, end, "visible"), *head, words)


def _diameter(fitting: PlannedFitting) -> float:
    """Of what is seen of it; 0 where it is not round."""
    return fitting.outside_diameter or fitting.cutout_diameter or 0.0


def _fitting_ink(job: Job, wall: Wall) -> tuple[Symbol, ...]:
    return tuple(symbol(f.kind, f.centre, _fitting_shapes(f), f.id) for f in fittings_of(job, wall))


def _fitting_shapes(f: PlannedFitting) -> tuple[Ink, ...]:
    size = _diameter(f)
    return (
        *((Circle(f.centre, size / 2, "fitting"),) if size else ()),
        *((Outline(f.cutout_ring, "fitting"),) if f.cutout_ring else ()),
        *((Outline(_body_ring(f.centre, f.body[0], f.body[1]), "hidden"),) if f.body else ()),
    )


def _fitting_marks(seen: Elevation) -> tuple[Ink, ...]:
    ink: list[Ink] = []
    named = plate_names(seen)
    for f in fittings_of(seen.job, seen.wall):
        at = seen.view.point(f.centre)
        reach = max(2.0, _diameter(f) / 2 * seen.scale.factor + 1.2)
        ink += centre_mark(at, reach)
        named.append(Named(at, reach, f.id))
    return (*ink, *names_beside(named))


def _body_ring(centre: Point, width: float, height: float) -> tuple[Point, ...]:
    (u, v), w, h = centre, width / 2, height / 2
    return ((u - w, v - h), (u + w, v - h), (u + w, v + h), (u - w, v + h))


def _across(
    seen: Elevation, studs: tuple[tuple[float, str], ...], fittings: tuple[tuple[float, str], ...]
) -> tuple[Ink, ...]:
    bottom = seen.hull[1]
    datum = seen.view.x(seen.wall.bare_ends[0 if measured_from(seen.job.room, seen.wall) == "left" else 1])
    stops = [Stop(seen.view.x(u), text, bottom - 0.8) for u, text in studs]
    ink = running("x", bottom - 4.0, datum, stops)
    if fittings:
        line = bottom - 4.0 - strip(t for _, t in studs)
        ink += running("x", line, datum, [Stop(seen.view.x(u), text) for u, text in fittings])
    return ink


def _up(seen: Elevation, heights: tuple[tuple[float, str], ...]) -> tuple[Ink, ...]:
    left = seen.hull[0]
    stops = [Stop(seen.view.y(v), text, left - 0.8) for v, text in heights]
    return running("y", left - 4.0, seen.view.y(0.0), stops)


def _notes(seen: Elevation) -> tuple[Block, ...]:
    job, wall = seen.job, seen.wall
    width = seen.panel[0][2] - seen.panel[0][0]
    corner = measured_from(job.room, wall)
    datum = job.plan.wall(wall.id).datum_name
    damage = " Small and dashed on a stud: a hole or a notch, as found." if wall.holes or wall.notches else ""
    how = (
        f"Seen from the boarded side. Widths run from the {corner} framing corner, heights from the {datum}. "
        f"{ENTERED} as entered; all others are computed and rounded once. "
        "Thin: as found. Heavy, grey and crossed: to add. Dashed: to add, set back behind a fitting. Dashed with an "
        "arrow: move. "
        f"Numbers in circles: findings; heavy outlines: where they break a limit.{damage}"
    )
    ceiling = f" Height to the {CEILING[wall.ceiling]}." if wall.to_ceiling else ""
    also = " ".join((*leaning_words(job, wall), furring_words(job, wall)))
    duty = f"Duty of the wall: {wall.duty.replace('_', '-')}.{ceiling} {also}".rstrip()
    return (
        heading(f"Framing, {wall_name(wall)}", width, 5.0),
        prose(f"Scale {seen.scale.text}", width),
        prose(how, width),
        prose(duty, width),
        *_support_table(job, wall, width),
        *_fitting_table(job, wall, width),
        *mount_table(job, wall, width),
        *plate_table(job, wall, width),
        *finding_table(job, on_wall(job, wall, ("found",)), width, "Findings, framing as found"),
    )


def _support_table(job: Job, wall: Wall, width: float) -> tuple[Block, ...]:
    datum = measured_from(job.room, wall)
    rows = []
    for s in supports_of(job, wall):
        value = from_datum(wall, datum, s.axis[0][0]) if stands(s) else middle(s)[1]
        where = said(job, value, _entered_paths(s)) + (_at_top(job, wall, s) if stands(s) else " up")
        rows.append((short(s), f"{'row of plugs,' if wall.masonry else s.kind} {s.profile_id}", where, state(s)))
    columns = (Column("No.", 10), Column("Support", 34), Column("Centre", 20), Column("State", 36))
    return table(columns, rows, width, f"Supports S-{wall.id}-")


def _at_top(job: Job, wall: Wall, stud: Support) -> str:
    """Where the upper end of a crooked stud has its middle; "" for one that is plumb."""
    (foot, _), (head, _) = stud.axis
    if abs(head - foot) <= TOUCH:
        return ""
    path = stud.room_path.replace(".centres.", ".centres_top.")
    return f", at its top {said(job, from_datum(wall, measured_from(job.room, wall), head), (path,))}"


def _fitting_table(job: Job, wall: Wall, width: float) -> tuple[Block, ...]:
    datum, units = measured_from(job.room, wall), job.room.choices.paper_units
    rows = []
    for f in fittings_of(job, wall):
        path = _room_path(job, f)
        size = f.outside_diameter or f.cutout_diameter
        across = said(job, from_datum(wall, datum, f.centre[0]), (f"{path}.across",))
        up = said(job, f.centre[1], (f"{path}.up",))
        body = f", body {label_size((f.body[0], f.body[1]), units)}" if f.body else ""
        rows.append((f.id, across, up, (f"{label_opening(size, units)} dia." if size else "shaped") + body))
    columns = (Column("Fitting", 24), Column("Across", 20), Column("Up", 18), Column("Size", 38))
    return table(columns, rows, width, "Fittings") if rows else ()
