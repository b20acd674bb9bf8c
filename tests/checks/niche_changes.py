"""A niche by hand in the back wall of the worked room, 48 in up; lengths in inches."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from generator.model.features import Feature, InBay, Mouth
from generator.model.frames import Frame
from generator.model.geometry import Ring
from generator.model.plan import Plan, PlannedWall, Support
from generator.model.room import Duty, Room, Wall
from generator.model.stud_work import Hole
from tests.worked_room import STUD, mm, rect_in

Pair = tuple[Room, Plan]
Change = Callable[[Room, Plan], Pair]


def niche(
    left: float = 17,
    right: float = 30,
    depth: float = 2,
    fall: float = 1 / 48,
    duty: Duty = "unknown",
    change: Callable[[Wall], Wall] = lambda wall: wall,
) -> Change:
    """A hole in the framing from `left` to `right` and 47-1/2 to 72-1/2, with 2x2 cleats and a sill that falls."""

    def changed(room: Room, plan: Plan) -> Pair:
        ring = rect_in(left, 47.5, right, 72.5)
        mouth = Mouth("niches.0", "shelf", "niche", ring, mm(depth))
        walls = tuple(change(replace(w, duty=duty, mouths=(mouth,))) if w.id == "back" else w for w in room.walls)
        back = plan.wall("back")
        rear = face_of(plan, "shelf", "rear", back.frame, rect_in(left, 47.5, right, 72.5))
        tilted = back.frame.turned((0.0, mm(47.5), 0.0), (0.0, -fall, 1.0), (1.0, 0.0, 0.0))
        sill = face_of(plan, "shelf", "sill", tilted, rect_in(-depth, left, 0, right))
        faces = tuple(_wall(room, face) for face in (rear, sill))
        room = replace(
            room,
            walls=(*walls, *faces),
            features=(Feature("niches.0", "shelf", "niche", "back", ("shelf-rear", "shelf-sill"), ("shelf-sill",)),),
        )
        cleats = tuple(_cleat(i, u) for i, u in enumerate((left + 0.75, right - 0.75), 1))
        supports = tuple(sorted((*plan.supports, *cleats), key=lambda s: s.id))
        return room, replace(plan, walls=(*plan.walls, rear, sill), supports=supports)

    return changed


def face_of(plan: Plan, feature: str, kind: str, frame: Frame, ring: Ring) -> PlannedWall:
    """A face of what is built in at the back wall, in its own frame."""
    return replace(
        plan.wall("back"),
        id=f"{feature}-{kind}",
        origin=frame.origin,
        u_axis=frame.u_axis,
        v_axis=frame.v_axis,
        w_axis=frame.w_axis,
        outline=ring,
        extent=ring,
        allowances=(),
        wet_region=(),
        face=kind,
        feature_id=feature,
    )


def _wall(room: Room, face: PlannedWall) -> Wall:
    back = next(w for w in room.walls if w.id == "back")
    return replace(
        back,
        path="niches.0",
        id=face.id,
        outline=face.outline,
        duty="non_bearing",
        beside=("free", "free"),
        supports=(),
        to_ceiling=False,
        frame=face.frame,
        face=face.face,  # type: ignore[arg-type]
        feature="shelf",
        extent=face.extent,
    )


def _cleat(number: int, u: float) -> Support:
    ring = rect_in(u - 0.75, 47, u + 0.75, 72.5)
    axis = ((mm(u), mm(47)), (mm(u), mm(72.5)))
    return Support(
        f"S-shelf-rear-{number:02d}", "shelf-rear", "nailer", "added", ring, axis, mm(1.5), "wood", "cleat", "cure",
        STUD.id, "niches.0",
    )  # fmt: skip


def in_bay(left: float, right: float) -> Change:
    """A niche with a pipe in the wall, from u to u over its whole height."""
    pipe = InBay("walls.1.in_bays.0", "pipe", rect_in(left, 0, right, 96))
    return niche(change=lambda wall: replace(wall, in_bays=(pipe,)))


def piped(at: float) -> Change:
    """A niche with a pipe through the stud at its left, an inch thick, its middle so high."""

    def bored(wall: Wall) -> Wall:
        path = wall.supports[1].path
        return replace(
            wall, holes=(Hole(f"{wall.path}.supports.holes.0", path, mm(at), mm(1), mm(1.75), False, "pipe"),)
        )

    return niche(change=bored)


def outside() -> Change:
    """A niche in a wall against the weather."""
    return niche(change=lambda wall: replace(wall, outside=True))
