"""What lines a niche or a window: the faces of its boards, each a wall with a frame of its own, and their folds.

Frames, in terms of the wall that the recess is in (u right, v up, w out of it; w = 0 at the stud faces):

    face    u            v       w            u = 0
    rear    right        up      out          the wall's own
    left    back         up      right        stud faces
    right   out          up      left         stud faces
    head    back         right   down         stud faces
    sill    out (falls)  right   up (leans)   stud faces

So v runs along the piece of lumber that each face is fastened to, and v of the rear, left and right is a height.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot
from typing import Literal

from generator.model.features import FaceKind, Feature, Fold, Mouth
from generator.model.frames import Frame, Vector
from generator.model.geometry import Ring, box, canonical, rectangle
from generator.model.plan import Allowance
from generator.model.planes import Plane, face_plane, fold_between, meeting_point
from generator.model.room import Wall

BOARDED: tuple[FaceKind, ...] = ("rear", "sill", "head", "left", "right")
"""The order in which the boards go in."""


@dataclass(frozen=True, slots=True)
class Recess:
    """An opening in the framing of a wall, and what its boards must know (mm).

    `frame`: the wall's. `opening`: left, bottom, right, top of the opening that the wall's boards leave, in its frame.
    `depth`: from the stud faces back to the back of the rear board, or to the frame of the window. `fall`: drop of the
    sill for each mm towards the room.
    """

    path: str
    id: str
    kind: Literal["niche", "window"]
    wall: Wall
    frame: Frame
    opening: tuple[float, float, float, float]
    depth: float
    thickness: float
    fit: float
    fall: float

    @property
    def kinds(self) -> tuple[FaceKind, ...]:
        """Its faces in boarding order; a window has no rear."""
        return BOARDED if self.kind == "niche" else BOARDED[1:]

    @property
    def stretch(self) -> float:
        """Length along the sill for each mm of depth."""
        return hypot(1.0, self.fall)

    @property
    def rear(self) -> float:
        """How far behind the stud faces the other boards end, before the fit: at the rear board's face."""
        return self.depth - (self.thickness if self.kind == "niche" else 0.0)

    def face_id(self, kind: FaceKind) -> str:
        """Id of one of its faces."""
        return f"{self.id}-{kind}"


def mouth_of(recess: Recess) -> Mouth:
    """The opening that it leaves in its wall's boards."""
    return Mouth(recess.path, recess.id, recess.kind, rectangle(*recess.opening), recess.depth)


def feature_of(recess: Recess) -> Feature:
    """The recess as a feature; water that lands on its sill must run off."""
    faces = tuple(recess.face_id(kind) for kind in recess.kinds)
    return Feature(recess.path, recess.id, recess.kind, recess.wall.id, faces, (recess.face_id("sill"),))


def faces_of(recess: Recess) -> tuple[Wall, ...]:
    """Its faces in boarding order."""
    return tuple(_face(recess, kind) for kind in recess.kinds)


def _face(recess: Recess, kind: FaceKind) -> Wall:
    extent = _extent(recess, kind)
    left, _, right, top = box(extent)
    return Wall(
        path=recess.path,
        id=recess.face_id(kind),
        outline=_outline(recess, kind),
        reach=(left, right),
        top=top,
        to_ceiling=False,
        ceiling="framing",
        duty=recess.wall.duty,
        beside=("free", "free"),
        supports=(),
        frame=frame_of(recess, kind),
        face=kind,
        feature=recess.id,
        extent=extent,
        allowances=tuple(_allowances(recess, kind)),
        borrows=kind in ("left", "right", "head"),
    )


def frame_of(recess: Recess, kind: FaceKind) -> Frame:
    """Where a face stands; w = 0 is the framing that its boards are fastened to."""
    left, bottom, right, top = recess.opening
    ways: dict[FaceKind, tuple[Vector, Vector, Vector]] = {
        "rear": ((0.0, 0.0, -recess.depth), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
        "left": ((left, 0.0, 0.0), (0.0, 0.0, -1.0), (0.0, 1.0, 0.0)),
        "right": ((right, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 1.0, 0.0)),
        "head": ((0.0, top, 0.0), (0.0, 0.0, -1.0), (1.0, 0.0, 0.0)),
        "sill": ((0.0, bottom + recess.thickness * recess.fall, 0.0), (0.0, -recess.fall, 1.0), (1.0, 0.0, 0.0)),
    }
    return recess.frame.turned(*ways[kind])


def _span(recess: Recess, kind: FaceKind) -> tuple[float, float]:
    """u of the framing's rear and of the boards' front edge: flush with the face of the wall's boards."""
    front = recess.thickness
    if kind == "sill":
        return -recess.depth * recess.stretch, front * (recess.stretch - recess.fall)
    return (-recess.depth, front) if kind == "right" else (recess.depth, -front)


def _outline(recess: Recess, kind: FaceKind) -> Ring:
    """The framing behind a face, from the stud faces back."""
    rear = _span(recess, kind)[0]
    return rectangle(*_across(recess, kind, rear, 0.0)) if kind != "rear" else rectangle(*recess.opening)


def _extent(recess: Recess, kind: FaceKind) -> Ring:
    """As the framing, and forward over the edge of the wall's boards."""
    return rectangle(*_across(recess, kind, *_span(recess, kind))) if kind != "rear" else rectangle(*recess.opening)


def _across(recess: Recess, kind: FaceKind, a: float, b: float) -> tuple[float, float, float, float]:
    """The box between two u over the whole length of a side, sill or head."""
    left, bottom, right, top = recess.opening
    low, high = (left, right) if kind in ("sill", "head") else (bottom, top)
    return min(a, b), low, max(a, b), high


def _allowances(recess: Recess, kind: FaceKind) -> Iterator[Allowance]:
    """What the boards keep out of: the fit at framing, and the board before them with the fit."""
    left, bottom, right, top = box(_extent(recess, kind))
    fit, keep = recess.fit, recess.fit + recess.thickness
    if kind in ("rear", "sill", "head"):
        yield Allowance("fit", rectangle(left, bottom, right, bottom + fit))
        yield Allowance("fit", rectangle(left, top - fit, right, top))
    if kind == "rear":
        yield Allowance("fit", rectangle(left, bottom, left + fit, top))
        yield Allowance("fit", rectangle(right - fit, bottom, right, top))
        return
    yield _at_rear(recess, kind)
    if kind in ("left", "right"):
        yield Allowance("neighbour", rectangle(left, top - keep, right, top))
        yield Allowance("neighbour", _over_sill(recess, kind, keep))


def _at_rear(recess: Recess, kind: FaceKind) -> Allowance:
    """The strip behind the rear edge of a board: up to the rear board, or to the frame of the window."""
    rear, front = _span(recess, kind)
    near = (recess.rear - recess.fit) * (recess.stretch if kind == "sill" else 1.0)
    edge = near if rear > front else -near
    return Allowance("neighbour" if recess.kind == "niche" else "fit", rectangle(*_across(recess, kind, rear, edge)))


def _over_sill(recess: Recess, kind: FaceKind, keep: float) -> Ring:
    """Of a side: all below a line so far (mm) above the sill's framing, square to it."""
    bottom, ends = recess.opening[1], _span(recess, kind)
    heights = [
        bottom + (recess.thickness - (u if kind == "right" else -u)) * recess.fall + keep * recess.stretch for u in ends
    ]
    return canonical(((ends[0], bottom), (ends[1], bottom), (ends[1], heights[1]), (ends[0], heights[0])))


def folds_of(recess: Recess) -> Iterator[Fold]:
    """Where finished faces meet: round the front, round the rear, and along the sides."""
    frames = {kind: frame_of(recess, kind) for kind in recess.kinds}
    planes = {kind: face_plane(frame, recess.thickness) for kind, frame in frames.items()}
    wall = (recess.wall.id, recess.frame)
    front = face_plane(recess.frame, recess.thickness)
    rear = planes.get("rear") or face_plane(recess.frame, -recess.depth)
    named: dict[FaceKind, tuple[str, Frame]] = {k: (recess.face_id(k), frame) for k, frame in frames.items()}
    for one, (low, high) in _BETWEEN.items():
        ends = _ends(planes[one], front, (planes[low], planes[high]))
        yield fold_between(recess.path, wall, named[one], ends, outside=True)
    for one, (low, high) in _BETWEEN.items() if recess.kind == "niche" else ():
        ends = _ends(planes[one], rear, (planes[low], planes[high]))
        yield fold_between(recess.path, named["rear"], named[one], ends, outside=False)
    for first in ("sill", "head"):
        for later in ("left", "right"):
            ends = _ends(planes[first], planes[later], (rear, front))
            yield fold_between(recess.path, named[first], named[later], ends, outside=False)


_BETWEEN: dict[FaceKind, tuple[FaceKind, FaceKind]] = {
    "sill": ("left", "right"),
    "head": ("left", "right"),
    "left": ("sill", "head"),
    "right": ("sill", "head"),
}
"""Between which two faces the front and the rear edge of a face run."""


def _ends(a: Plane, b: Plane, ends: tuple[Plane, Plane]) -> tuple[Vector, Vector]:
    return meeting_point(a, b, ends[0]), meeting_point(a, b, ends[1])
