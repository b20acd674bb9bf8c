"""Where the details of niches, windows, benches, decks, caps, curbs and soffits are cut: square across their folds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import dist

from generator.model.cuts import Cut, CutKind, Window
from generator.model.features import Feature, Fold
from generator.model.frames import Frame, Vector
from generator.model.geometry import box
from generator.model.plan import Edge, Plan, PlannedWall
from generator.model.room import Room

UP: Vector = (0.0, 0.0, 1.0)
LEAST = 60.0
"""mm: a fold or an edge shorter than this has no detail."""


def feature_cuts(room: Room, plan: Plan) -> Iterator[tuple[tuple[object, ...], Cut]]:
    """Of every feature, with what makes two of them alike."""
    for feature in room.features:
        faces = {w.id: w.face for w in plan.walls if w.id in feature.faces}
        for fold in plan.folds:
            pair = frozenset(faces.get(face, "wall") for face in fold.faces)
            kind = _kind(feature, pair)
            if kind and any(face in feature.faces for face in fold.faces) and _is_shown(plan, feature, fold, kind):
                yield (feature.kind, kind, _size_of(plan, feature)), _folded(plan, feature, fold, kind)
        for edge in _rims(plan, feature):
            yield (feature.kind, "rim", _size_of(plan, feature)), _at_rim(plan, feature, edge)


def _kind(feature: Feature, pair: frozenset[str]) -> CutKind | None:
    """What a fold between faces of these sorts is worth drawing as."""
    in_wall: dict[frozenset[str], CutKind] = {frozenset(("wall", k)): k for k in ("head", "sill")}
    before: dict[frozenset[str], CutKind] = {
        frozenset(("front", "seat")): "nosing",
        frozenset(("wall", "seat")): "seat",
    }
    table = {"niche": in_wall, "window": in_wall, "bench": before, "deck": before}
    table["half_wall"] = {frozenset(("wall", "cap")): "cap"}
    table["curb"] = {frozenset(("inside", "cap")): "curb"}
    table["soffit"] = {frozenset(("underside", "front")): "drop", frozenset(("wall", "underside")): "underside"}
    return table[feature.kind].get(pair)


def _size_of(plan: Plan, feature: Feature) -> tuple[float, ...]:
    """What tells one niche from another in section: the sizes of its rear's, seat's or top's boards across."""
    return tuple(sorted({round(b.thickness, 2) for b in plan.boards if b.wall in feature.faces}))


def _is_shown(plan: Plan, feature: Feature, fold: Fold, kind: CutKind) -> bool:
    """Level folds; of a cap that over the inside of its wall, which may fall along the wall, as a deck's front does."""
    if feature.kind == "half_wall":
        return feature.wall in fold.faces
    return (feature.kind, kind) == ("deck", "nosing") or _is_level(plan, fold)


def _is_level(plan: Plan, fold: Fold) -> bool:
    p, q = (plan.wall(fold.faces[0]).frame.at(*point) for point in fold.lines[0])
    return abs(p[2] - q[2]) < 0.01 * dist(p, q) and dist(p, q) > LEAST


def _folded(plan: Plan, feature: Feature, fold: Fold, kind: CutKind) -> Cut:
    """Square across a level fold, at the screw of its faces nearest to its middle."""
    host = _standing(plan, fold)
    p, q = (plan.wall(fold.faces[0]).frame.at(*point) for point in fold.lines[0])
    dx, dy, dz = ((b - a) / dist(p, q) for a, b in zip(p, q, strict=True))
    along: Vector = (dx, dy, dz)
    at = _along(plan, fold.faces, p, along, dist(p, q))
    spot = tuple(a + at * k for a, k in zip(p, along, strict=True))
    out: Vector = host.w_axis
    normal = (out[1], -out[0], 0.0)
    frame = Frame((spot[0], spot[1], spot[2]), out, UP, normal)
    wall = feature.wall if kind not in ("curb", "nosing", "drop") else host.id
    return Cut(f"{kind}:{fold.id}", kind, fold.id, wall, frame, _around(plan, feature, kind, frame, along), feature.id)


def _rims(plan: Plan, feature: Feature) -> Iterator[Edge]:
    """Where the top of a deck ends beside the tub."""
    tops = {b.id for b in plan.boards if b.wall in feature.faces and plan.wall(b.wall).face == "seat"}
    if feature.kind == "deck":
        yield from (e for e in plan.edges if e.board in tops and e.role == "bottom" and dist(e.p, e.q) > LEAST)


def _at_rim(plan: Plan, feature: Feature, edge: Edge) -> Cut:
    """Square across a level edge of a top, at its screw nearest to the middle; the tub is at the right."""
    wall = plan.wall(plan.board(edge.board).wall)
    p, q = (wall.frame.at(*point) for point in (edge.p, edge.q))
    dx, dy, _ = along = tuple((b - a) / dist(p, q) for a, b in zip(p, q, strict=True))
    at = _along(plan, (wall.id,), p, along, dist(p, q))
    x, y, z = (a + at * k for a, k in zip(p, along, strict=True))
    frame = Frame((x, y, z), (dy, -dx, 0.0), UP, (-dx, -dy, 0.0))
    return Cut(f"rim:{edge.id}", "rim", edge.id, wall.id, frame, _ROUND["rim"], feature.id)


def _standing(plan: Plan, fold: Fold) -> PlannedWall:
    """The one of a fold's faces that is plumb."""
    walls = [plan.wall(face) for face in fold.faces]
    return min(walls, key=lambda w: round(abs(w.w_axis[2]), 6))


def _along(plan: Plan, faces: Sequence[str], start: Vector, along: Sequence[float], length: float) -> float:
    """How far along a line on the faces their screw nearest to its middle stands."""
    frames = {face: plan.wall(face).frame for face in faces}
    points = [frames[f.wall].at(*f.point) for f in plan.fasteners if f.wall in frames]
    places = [sum((a - b) * k for a, b, k in zip(point, start, along, strict=True)) for point in points]
    inner = [t for t in places if 0.15 * length < t < 0.85 * length]
    return min(inner, key=lambda t: (round(abs(t - length / 2), 3), t), default=length / 2)


def _around(plan: Plan, feature: Feature, kind: CutKind, frame: Frame, along: Vector) -> Window:
    """What is shown: of a cap or curb the whole of it, else so much round the fold, which runs `along`."""
    boards = [b for b in plan.boards if b.wall in feature.faces]
    points = [
        frame.of(plan.wall(b.wall).frame.at(u, v, w)) for b in boards for u, v in b.outline for w in (0.0, b.thickness)
    ]
    rise = along[2] / sum(a * b for a, b in zip(along, frame.w_axis, strict=True))
    left, low, right, high = box([(u, v - rise * w) for u, v, w in points])
    if kind in ("cap", "curb"):
        return (left - 30.0, (low if kind == "curb" else high - 90.0) - 12.0, right + 30.0, high + 16.0)
    if kind in ("head", "sill"):
        beyond = 80.0 if feature.kind == "niche" else 30.0  # a window has no rear board to be seen past the fold
        return (left - 22.0, -80.0 if kind == "sill" else -beyond, 32.0, 80.0 if kind == "head" else beyond)
    return _ROUND[kind]


_ROUND: dict[CutKind, Window] = {
    "nosing": (-75.0, -82.0, 40.0, 30.0),
    "seat": (-52.0, -60.0, 78.0, 82.0),
    "rim": (-70.0, -64.0, 56.0, 34.0),
    "drop": (-75.0, -30.0, 40.0, 82.0),
    "underside": (-52.0, -82.0, 78.0, 60.0),
}
"""What is shown round a fold, by the kind of its cut."""
