"""Everything that the drawings receive, and what they hand to the writers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from generator.model.changes import Change
from generator.model.findings import Finding
from generator.model.frames import Vector
from generator.model.geometry import Point, Ring
from generator.model.plan import Plan
from generator.model.room import Room


@dataclass(frozen=True, slots=True)
class Face:
    """A visible patch of a picture: rings on paper (mm before scaling), the part seen, 0..1 shade."""

    part: str
    kind: str
    rings: tuple[Ring, ...]
    shade: float


@dataclass(frozen=True, slots=True)
class Stroke:
    """A visible or hidden edge of a picture or view, as a polyline."""

    part: str
    points: tuple[Point, ...]
    hidden: bool
    outer: bool


@dataclass(frozen=True, slots=True)
class Projection:
    """A view of the solids: `faces` for filled pictures, `strokes` for lines. Frame: x right, y up, mm."""

    name: str
    faces: tuple[Face, ...]
    strokes: tuple[Stroke, ...]


@dataclass(frozen=True, slots=True)
class SectionPart:
    """What a cutting plane meets of one body: rings with holes as further rings."""

    part: str
    kind: str
    rings: tuple[Ring, ...]


@dataclass(frozen=True, slots=True)
class Section:
    """A cut through the solids. Frame: x right, y up, mm; what x and y are is said by `name`."""

    name: str
    parts: tuple[SectionPart, ...]


@dataclass(frozen=True, slots=True)
class Mesh:
    """A body as triangles: points in the room's frame, mm, each once; corners counter-clockwise from outside."""

    part: str
    kind: str
    points: tuple[Vector, ...]
    triangles: tuple[tuple[int, int, int], ...]


@dataclass(frozen=True, slots=True)
class Job:
    """Room, plan and findings joined, with the views of the solids; what every drawing is made from."""

    room: Room
    plan: Plan
    findings: tuple[Finding, ...]
    failed: frozenset[str]
    """Ids of walls whose parts are not for cutting."""
    projections: Mapping[str, Projection]
    sections: Mapping[str, Section]
    meshes: tuple[Mesh, ...] = ()
    """Every body, in the order of the solids."""
    changes: tuple[Change, ...] | None = None
    """What is different from an earlier build; None where there is none to compare with."""


@dataclass(frozen=True, slots=True)
class Bar:
    """A check bar of a page printed at 1:1: from `p` to `q` (mm from the page's lower left), `length` in mm."""

    page: int
    """1-based."""
    p: Point
    q: Point
    length: float


@dataclass(frozen=True, slots=True)
class FileRecord:
    """One file of a build as plan.json lists it (see the contract); `subject` is a board's id for a part."""

    path: str
    kind: str
    subject: str
    units: Literal["in", "mm"]
    scale: float
    mirrored: bool
    """True where the drawing shows its subject seen from the back."""
    not_for_cutting: bool
    bars: tuple[Bar, ...] = ()
