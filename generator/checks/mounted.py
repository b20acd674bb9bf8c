"""What is fastened to the wall finds something solid: bars, seats, glass and doors; valves, spouts and shower arms."""

from __future__ import annotations

from collections.abc import Iterator

from generator.checks.measuring import on_wall, or_note, outline_place
from generator.model.findings import Cure, Measure, Place
from generator.model.geometry import REAL_AREA, Ring, box
from generator.model.mounts import Mount
from generator.model.plan import Plan, Support
from generator.model.room import Fitting, Room
from generator.planning.bays import is_upright
from generator.planning.blocking.fittings import BACKED
from generator.planning.blocking.mounts import solid_zones


def mount_backed(room: Room, plan: Plan) -> Iterator[Measure]:
    """Every fixing of a mount has faces of supports behind the whole of its plate."""
    return or_note((_mount(plan, mount) for mount in room.mounts), "nothing is fastened to these walls")


def _mount(plan: Plan, mount: Mount) -> Measure:
    own = on_wall(plan.supports, mount.wall)
    bare = [zone for zone in solid_zones(mount) if not _is_solid(zone, own)]
    subject = f"{mount.id}: {'fixings without anything solid behind' if bare else 'solid behind every fixing'}"
    text = f"add a stud beside {mount.id}, so that a block can hang behind its fixings, or move it"
    cure = Cure(text, "advice", mount.wall, mount.path, box(bare[0])[0]) if bare else None
    place = outline_place(mount.wall, bare[0] if bare else mount.ring)
    return Measure(subject, float(len(bare)), place, mount.path, cure)


def _is_solid(zone: Ring, supports: tuple[Support, ...]) -> bool:
    """True where faces together cover all of it; masonry is solid between its strips too."""
    if any(support.material == "masonry" for support in supports):
        return True
    from shapely import union_all

    from generator.planning.shapes import polygon

    faces = union_all([polygon(support.outline) for support in supports])
    return bool(polygon(zone).difference(faces).area <= REAL_AREA)


def fitting_backed(room: Room, plan: Plan) -> Iterator[Measure]:
    """Every valve, spout and arm has a block to be fastened to; one that the plan adds is to be confirmed."""
    bare = {wall.id for wall in room.walls if wall.masonry}
    wanted = (f for f in room.fittings if f.kind in BACKED and f.wall not in bare)
    return or_note((_fitting(plan, f) for f in wanted), "no valve, spout or shower arm in this room")


def _fitting(plan: Plan, fitting: Fitting) -> Measure:
    near = [s for s in plan.supports if s.wall == fitting.wall and not is_upright(s) and _is_beside(s, fitting)]
    block = min(near, key=lambda s: (s.origin == "added", s.id), default=None)
    place = Place(fitting.wall, (fitting.centre,))
    if block is None:
        depth = "" if fitting.body is None else " behind its body, or none deep enough,"
        text = f"{fitting.id}: no block{depth} to fasten it to; confirm with the plumber how it is held"
        cure = "fasten it to blocking above and below it"
        return Measure(text, 1.0, place, fitting.path, _advice(fitting, cure), "confirm")
    proposed = block.origin == "added"
    text = f"{fitting.id}: {'block proposed' if proposed else 'block found'} to fasten it to, {block.id}"
    where = f"{fitting.wall}: put in {block.id}, at the depth that the fitting in hand wants"
    advice = _advice(fitting, where) if proposed else None
    return Measure(text, 0.0, place, fitting.path, advice, "confirm", "confirm" if proposed else "pass")


def _advice(fitting: Fitting, text: str) -> Cure:
    return Cure(text, "advice", fitting.wall, fitting.path, fitting.centre[0])


def _is_beside(support: Support, fitting: Fitting) -> bool:
    """True where a level piece spans the fitting and is at most its own height away from the middle."""
    left, low, right, high = box(support.outline)
    u, v = fitting.centre
    reach = (high - low) / 2 + fitting.diameter / 2
    return left <= u <= right and abs(v - (low + high) / 2) <= max(reach, high - low)
