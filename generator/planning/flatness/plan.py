"""The shim and plane schedule of every wall whose stud faces were measured."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from generator.model.geometry import box, tidy
from generator.model.plan import Support
from generator.model.room import Room, Wall
from generator.model.stud_work import FinishedPlane, Shim, StudFace
from generator.planning.flatness.faces import Face, Flatness, faces_of, wanted_flatness
from generator.planning.flatness.solve import Moves, Plane, Tied, flattest_plane, least_moves
from generator.units import paper_step


@dataclass(frozen=True, slots=True)
class StudWork:
    """Readings, shims and finished planes of a room, sorted as the plan wants them."""

    faces: tuple[StudFace, ...]
    shims: tuple[Shim, ...]
    planes: tuple[FinishedPlane, ...]


def plan_shims(room: Room, supports: Sequence[Support]) -> StudWork:
    """The least material that brings each measured wall within what its tile wants.

    A wall that cannot keep to its flange, or to the neighbour's fit at a corner, is planned without them; checks say
    so. Added supports are set to the finished plane and have no readings.
    """
    ids = {s.room_path: s.id for s in supports if s.origin == "found" and s.same_as is None}
    faces: list[StudFace] = []
    shims: list[Shim] = []
    planes: list[FinishedPlane] = []
    for wall in room.walls:
        own = faces_of(room, wall)
        if own:
            moves, plane = _wall_schedule(room, wall, own)
            faces += (StudFace(wall.id, ids[f.support], f.u, f.v, f.off) for f in own)
            shims += _shims(room, wall, own, moves, ids)
            planes.append(_finished(room, wall, plane, moves))
    return StudWork(tuple(faces), tuple(sorted(shims, key=lambda s: s.id)), tuple(planes))


def flange_ties(room: Room, wall: Wall) -> tuple[Tied, ...]:
    """Where the plane of the studs is to pass, at both ends of a flange that was measured off the wall's line.

    That is behind the flange's back, by the gap that is planned with there.
    """
    sides = [s for s in room.base.sides if s.wall == wall.id and s.flanged]
    if wall.flange_off is None or not sides:
        return ()
    side, top = sides[0], room.base.flange.top if room.base.flange else 0.0
    ends = ((side.start, side.deck[0][1]), (side.end, side.deck[-1][1]))
    behind = side.gap + wall.furring
    return tuple(Tied(u, v + top, off + behind) for (u, v), off in zip(ends, wall.flange_off, strict=True))


def _wall_schedule(room: Room, wall: Wall, faces: Sequence[Face]) -> tuple[Moves, Plane]:
    """Bound to flange and corners if that can be; else free of them, which always can."""
    wanted, step, tied = wanted_flatness(room), paper_step(room.units), flange_ties(room, wall)
    free = [replace(face, most_shim=None) for face in faces]
    for own, ties in ((faces, tied), (free, tied), (faces, ()), (free, ())):
        moves = least_moves(own, wanted, step, ties)
        if moves is not None:
            return moves, _plane_of(faces, moves, wanted, step, ties)
    still = Moves((0,) * len(faces), 0.0, 0.0)
    return still, _plane_of(faces, still, wanted, step, ())


def _plane_of(faces: Sequence[Face], moves: Moves, wanted: Flatness, step: float, tied: Sequence[Tied]) -> Plane:
    """The plane that the finished faces keep to with the most to spare."""
    finished = [replace(f, off=f.off - n * step) for f, n in zip(faces, moves.steps, strict=True)]
    return flattest_plane(finished, wanted, tied)[0]


def _shims(room: Room, wall: Wall, faces: Sequence[Face], moves: Moves, ids: dict[str, str]) -> list[Shim]:
    step = paper_step(room.units)
    moved = sorted(
        ((ids[f.support], f.v, f, n) for f, n in zip(faces, moves.steps, strict=True) if n), key=lambda m: m[:2]
    )
    return [
        Shim(
            id=f"H-{wall.id}-{number:02d}",
            wall=wall.id,
            support_id=support,
            work="shim" if steps > 0 else "plane",
            v=v,
            low=face.low,
            high=face.high,
            width=face.width,
            thickness=tidy(abs(steps) * step),
        )
        for number, (support, v, face, steps) in enumerate(moved, 1)
    ]


def _finished(room: Room, wall: Wall, plane: Plane, moves: Moves) -> FinishedPlane:
    left, low, right, high = box(wall.outline)
    corners = ((left, low), (right, low), (left, high))
    a, b, c = ((u, v, tidy(plane.off(u, v))) for u, v in corners)
    proven = moves.material - moves.bound <= 1e-6 * max(moves.material, 1.0)
    return FinishedPlane(wall.id, (a, b, c), tidy(moves.material), tidy(moves.bound), proven, room.finish.longest)
