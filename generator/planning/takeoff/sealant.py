"""Sealant, in ml: the joints along the base, of legs, floor and window frames, and the slots that the profile fills."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import dist

from generator.model.ends import corner_offset
from generator.model.geometry import TOUCH, Ring, area, box, tidy
from generator.model.plan import (
    Board,
    Plan,
    PlannedSide,
    Rabbet,
)
from generator.model.purchase import TakeoffRow, Term
from generator.model.room import Room, Side
from generator.planning.sealing.bottoms import Run, bottom_runs, deck_at
from generator.planning.sealing.joints import apron_edges, corner_spans
from generator.planning.sealing.surface import Surface
from generator.planning.shapes import polygon
from generator.planning.takeoff.coverings import base_runs
from generator.planning.takeoff.fixings import fixing_terms
from generator.planning.takeoff.rows import in_van, make_row, term, waste_term
from generator.units import label


def sealant_rows(room: Room, plan: Plan, surfaces: Sequence[Surface]) -> Iterator[TakeoffRow]:
    """Cartridges of sealant; waste is a term of its own."""
    sealant = room.choices.sealant
    terms = [*base_terms(room, plan, surfaces), *leg_terms(room, plan, surfaces), *frame_terms(room, plan, surfaces)]
    if sealant.fill_corners:
        terms += (*corner_terms(room, plan, surfaces), *fold_terms(room, plan, surfaces))
    if sealant.fill_rabbet:
        terms += rabbet_terms(plan)
    terms += fixing_terms(room)
    if terms:
        terms.append(waste_term(terms, sealant.waste))
        yield make_row("sealant", sealant.id, sealant.name, "ml", terms, sealant.cartridge, in_van(room, "sealant"))


def base_terms(room: Room, plan: Plan, surfaces: Sequence[Surface]) -> Iterator[Term]:
    """The joint between the boards and the base, along its middle line.

    Over a thin flange the gap in front of it, filled from the flange to the board's face; on a thick one the
    bed in the profile's section; else the whole gap under the board.
    """
    units = room.choices.drawing_units
    for run in base_runs(plan, surfaces):
        surface = next(s for s in surfaces if s.wall == run.wall)
        width, depth, middle = _section(room, plan, surface, run)
        length = middle_length(plan, surfaces, surface, run, middle)
        text = f"base along {run.wall}: {label(length, units)} x {label(width, units)} x {label(depth, units)}"
        yield term(text, length * width * depth / 1000, run.edges)


def _section(room: Room, plan: Plan, surface: Surface, run: Run) -> tuple[float, float, float]:
    """Width and depth of the joint, and the w of its middle from the stud faces."""
    assert run.side is not None
    thickness, front = surface.boards[0].thickness, _flange_front(plan, run.side)
    if plan.base.kind == "butted" and front > 0:
        sealant = room.choices.sealant
        return sealant.bed_width, sealant.bed_depth, thickness / 2
    behind = front if plan.base.kind == "lapped" else 0.0
    u, v = run.middle
    return v - deck_at(run.side, u), thickness - behind, (behind + thickness) / 2


def _flange_front(plan: Plan, side: PlannedSide) -> float:
    """Greatest w of the flange at a side of the base; 0 where it has none, or all of it behind furred faces."""
    flanged = bool(plan.base.flange_section) and side.flange_top > max(v for _, v in side.deck) + TOUCH
    return max(0.0, tidy(side.gap + box(plan.base.flange_section)[2])) if flanged else 0.0


def middle_length(plan: Plan, surfaces: Sequence[Surface], surface: Surface, run: Run, middle: float) -> float:
    """Length of a base joint along the line `middle` in front of the stud faces, corner to corner."""
    return run.length + sum(_at_corner(plan, surfaces, surface, run, middle, side) for side in ("left", "right"))


def _at_corner(plan: Plan, surfaces: Sequence[Surface], surface: Surface, run: Run, middle: float, side: Side) -> float:
    """What the joint's middle line has over the line of the faces at an end in a corner; 0 at any other end."""
    at, face = (run.p[0], surface.left) if side == "left" else (run.q[0], surface.right)
    meets = surface.meets_left if side == "left" else surface.meets_right
    own = "right_wall" if side == "left" else "left_wall"
    corner = next((c for c in plan.corners if getattr(c, own) == surface.wall), None)
    if not meets or corner is None or abs(at - face) > TOUCH:
        return 0.0
    other = corner.left_wall if side == "left" else corner.right_wall
    if all(base_side.wall != other for base_side in plan.base.sides):
        return 0.0
    thick = {s.wall: s.boards[0].thickness for s in surfaces}
    at_face = corner_offset(thick[surface.wall], thick[other], corner.angle_deg)
    return at_face - corner_offset(middle, middle, corner.angle_deg)


def leg_terms(room: Room, plan: Plan, surfaces: Sequence[Surface]) -> Iterator[Term]:
    """The joints of legs with the apron, and of boards with the floor, through the whole thickness."""
    units, gap = room.choices.drawing_units, room.limit("leg-gap")
    for surface in surfaces:
        aprons = apron_edges(surface)
        floors = [run for run in bottom_runs(surface, plan.base) if run.side is None]
        length = sum(dist(e.p, e.q) for e in aprons) + sum(run.length for run in floors)
        if length > 0:
            depth = surface.boards[0].thickness
            text = f"apron and floor, {surface.wall}: {label(length, units)} x {label(gap, units)}"
            refs = (*(e.id for e in aprons), *(edge for run in floors for edge in run.edges))
            yield term(f"{text} x {label(depth, units)}", length * gap * depth / 1000, refs)


def corner_terms(room: Room, plan: Plan, surfaces: Sequence[Surface]) -> Iterator[Term]:
    """The slots at inside corners between the second wall's board edge and the first wall's face."""
    by_wall = {surface.wall: surface for surface in surfaces}
    units, fit = room.choices.drawing_units, room.limit("fit")
    for corner in plan.corners:
        left, right = by_wall.get(corner.left_wall), by_wall.get(corner.right_wall)
        if left is None or right is None or corner.angle_deg >= 180:
            continue
        depth = (left if corner.first == right.wall else right).boards[0].thickness
        for low, high, edges in corner_spans(left, right):
            text = f"corner {corner.id}: {label(high - low, units)} x {label(fit, units)} x {label(depth, units)}"
            yield term(text, (high - low) * fit * depth / 1000, edges)


def fold_terms(room: Room, plan: Plan, surfaces: Sequence[Surface]) -> Iterator[Term]:
    """The slots at inside folds between the later board's edge and the first one's face."""
    thick = {surface.wall: surface.boards[0].thickness for surface in surfaces}
    units, fit = room.choices.drawing_units, room.limit("fit")
    for fold in plan.folds:
        if fold.angle_deg < 180 and all(face in thick for face in fold.faces):
            later = fold.faces[1 if fold.first == fold.faces[0] else 0]
            length, depth = dist(*fold.lines[0]), thick[later]
            text = f"fold of {' and '.join(fold.faces)}: {label(length, units)} x {label(fit, units)}"
            yield term(f"{text} x {label(depth, units)}", length * fit * depth / 1000, (fold.id,))


def frame_terms(room: Room, plan: Plan, surfaces: Sequence[Surface]) -> Iterator[Term]:
    """The joint between the boards of a window's reveal and its frame, through the whole thickness."""
    units, fit = room.choices.drawing_units, room.limit("fit")
    windows = {feature.id for feature in room.features if feature.kind == "window"}
    feature_of = {wall.id: wall.feature_id for wall in plan.walls}
    for surface in surfaces:
        edges = [edge for edge in surface.edges if edge.role == "free"]
        if feature_of[surface.wall] in windows and edges:
            length, depth = sum(dist(e.p, e.q) for e in edges), surface.boards[0].thickness
            text = f"window frame joint, {surface.wall}: {label(length, units)} x {label(fit, units)}"
            yield term(f"{text} x {label(depth, units)}", length * fit * depth / 1000, (e.id for e in edges))


def rabbet_terms(plan: Plan) -> Iterator[Term]:
    """The space that the flange leaves in the notches on the backs of the boards."""
    for board in plan.boards:
        volume = sum(_rabbet_space(plan, board, rabbet) for rabbet in board.rabbets if rabbet.face == "back")
        if volume > 0:
            yield term(f"notch of {board.id}", volume / 1000, (board.id,))


def _rabbet_space(plan: Plan, board: Board, rabbet: Rabbet) -> float:
    """mm3 of one notch, less the flange in it."""
    left, bottom, right, _ = box(rabbet.ring)
    taken = 0.0
    for side in plan.base.sides:
        length = min(right, side.end) - max(left, side.start)
        if side.wall == board.wall and length > 0:
            deck = deck_at(side, (left + right) / 2)
            taken += length * section_above(_before_studs(plan, side), bottom - deck)
    return area(rabbet.ring) * rabbet.depth - taken


def _before_studs(plan: Plan, side: PlannedSide) -> Ring:
    """The flange's section as far as it stands in front of w = 0."""
    return tuple((max(0.0, side.gap + w), height) for w, height in plan.base.flange_section)


def section_above(section: Ring, height: float) -> float:
    """mm2 of a flange's section above a height over the deck."""
    left, _, right, top = box(section)
    if top <= height or right - left <= TOUCH:
        return 0.0
    above = ((left, height), (right, height), (right, top), (left, top))
    return float(polygon(section).intersection(polygon(above)).area)
