"""The plan: where every stud, board, screw and band goes, and why. Mirrors plan.json (see the contract).

Lengths in mm. Rings are canonical (`geometry.canonical`) in the wall frame, or in the sheet's frame for
placements and cuts. Tuples are sorted by id, walls stand left to right.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, Protocol, TypeVar

from generator.model.features import Fold, Segment
from generator.model.frames import Frame, Vector
from generator.model.geometry import Point, Ring
from generator.model.purchase import LumberStick, PlannedStock, Proof, Sheet, TakeoffRow
from generator.model.stud_work import FinishedPlane, Furring, ShieldPlate, Shim, StudFace


class HasId(Protocol):
    """Anything that carries an id."""

    @property
    def id(self) -> str: ...


Record = TypeVar("Record", bound=HasId)


def next_by_id(records: tuple[Record, ...], wanted: str) -> Record:
    """The record of that id; KeyError when there is none."""
    for record in records:
        if record.id == wanted:
            return record
    raise KeyError(wanted)


SupportKind = Literal["stud", "blocking", "plate", "nailer", "ledger"]
"""A ledger runs along an edge of a seat aslant to its joists: it ends a bay at every height, as an upright does, and
boards are screwed along it."""

EdgeRole = Literal["seam", "corner", "free", "wallboard", "bottom", "top", "apron"]


@dataclass(frozen=True, slots=True)
class Allowance:
    """A named piece that boards keep out of (corner-fit, neighbour, ceiling-fit, base, leg-gap, nip)."""

    name: str
    ring: Ring


@dataclass(frozen=True, slots=True)
class Region:
    """A polygon with holes."""

    ring: Ring
    holes: tuple[Ring, ...]


@dataclass(frozen=True, slots=True)
class PlannedMouth:
    """Framing opening of a niche or a window: boards end at its ring."""

    feature_id: str
    kind: Literal["niche", "window"]
    ring: Ring


@dataclass(frozen=True, slots=True)
class PlannedWall:
    """A wall placed in the room. Room point of (u, v, w) = origin + u*u_axis + v*v_axis + w*w_axis."""

    id: str
    origin: Vector
    u_axis: Vector
    v_axis: Vector
    w_axis: Vector
    datum_name: str
    datum_v: float
    outline: Ring
    extent: Ring
    allowances: tuple[Allowance, ...]
    wet_region: tuple[Region, ...]
    mouths: tuple[PlannedMouth, ...] = ()
    face: str = "wall"
    feature_id: str | None = None
    """The niche, window, bench ... that it is a face of; None for a wall of the room."""
    furring: float = 0.0
    """Thickness of the strips between its supports and its boards: supports lie behind w = -furring."""

    @property
    def frame(self) -> Frame:
        """Where it stands."""
        return Frame(self.origin, self.u_axis, self.v_axis, self.w_axis)


@dataclass(frozen=True, slots=True)
class PlannedCorner:
    id: str
    left_wall: str
    right_wall: str
    angle_deg: float
    first: str


@dataclass(frozen=True, slots=True)
class PlannedSide:
    wall: str
    start: float
    end: float
    deck: tuple[Point, ...]
    flange_top: float
    """Height above the datum (the highest along the side); the deck's own where there is no flange."""
    gap: float = 0.0
    """w of the flange's back: `flange_section` is shifted by it. Negative where it stands behind furred faces."""


@dataclass(frozen=True, slots=True)
class PlannedBase:
    kind: Literal["lapped", "butted", "tray", "none"]
    flange_section: Ring
    sides: tuple[PlannedSide, ...]


@dataclass(frozen=True, slots=True)
class Support:
    """Anything that can take a screw. Lies at w from -depth to 0, on a furred wall behind its strip."""

    id: str
    wall: str
    kind: SupportKind
    origin: Literal["found", "added"]
    outline: Ring
    axis: Segment
    depth: float
    material: Literal["wood", "steel", "masonry"]
    reason: str
    """Why it was added; "as found" otherwise."""
    cause: Literal["found", "cure", "seam", "mount"]
    """cure: added because the framing as found breaks a rule; seam: only to carry a seam; mount: only to carry a bar,
    a seat, glass, a door or a fitting."""
    profile_id: str
    room_path: str
    same_as: str | None = None
    """Id of the support of another wall that this is a side of: one piece of lumber, two faces."""
    set_back: float = 0.0
    """How far its face stands behind the others', where it carries a fitting and no board."""
    plies: int = 1
    """Pieces side by side that it is made of: no screw goes into the joint between two."""
    bevels: tuple[float, float] = (0.0, 0.0)
    """How far its left and its right side run in for each mm behind its face: cut against what it meets askew."""


@dataclass(frozen=True, slots=True)
class Opening:
    """A hole through a board. Round: `diameter` > 0 and `ring` empty; else the ring in the wall frame."""

    id: str
    fitting_id: str | None
    feature_id: str | None
    centre: Point
    diameter: float
    ring: Ring


@dataclass(frozen=True, slots=True)
class Rabbet:
    ring: Ring
    depth: float
    face: Literal["back", "front"]


@dataclass(frozen=True, slots=True)
class Board:
    """One part. `id` is its mark; boards fill w from 0 to thickness."""

    id: str
    wall: str
    stock_id: str
    thickness: float
    outline: Ring
    openings: tuple[Opening, ...]
    rabbets: tuple[Rabbet, ...]
    sheet_id: str
    factory_edges: tuple[str, ...]
    weight_kg: float


@dataclass(frozen=True, slots=True)
class Edge:
    """A stretch of a board's outline, p to q counter-clockwise on its board."""

    id: str
    board: str
    p: Point
    q: Point
    role: EdgeRole
    neighbour: str | None
    support_ids: tuple[str, ...]
    bearing: float | None


@dataclass(frozen=True, slots=True)
class PlannedFitting:
    """`body` is (width, height, depth) or None; a cut-out has no `outside_diameter`; its ring is in u, v."""

    id: str
    wall: str
    kind: str
    centre: Point
    outside_diameter: float | None
    cutout_diameter: float | None
    cutout_ring: Ring
    body: tuple[float, float, float] | None
    collar_diameter: float


@dataclass(frozen=True, slots=True)
class Fastener:
    id: str
    wall: str
    point: Point
    board_ids: tuple[str, ...]
    support_id: str
    length: float
    washer_diameter: float


@dataclass(frozen=True, slots=True)
class WallRing:
    wall: str
    ring: Ring


@dataclass(frozen=True, slots=True)
class Band:
    """One piece as cut: its legs unfolded onto the board faces."""

    id: str
    kind: Literal["seam", "corner", "base", "patch", "collar"]
    covers: tuple[str, ...]
    rings: tuple[WallRing, ...]
    length: float
    lap_ids: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    room: str
    walls: tuple[PlannedWall, ...]
    corners: tuple[PlannedCorner, ...]
    base: PlannedBase
    stocks: tuple[PlannedStock, ...]
    supports: tuple[Support, ...]
    boards: tuple[Board, ...]
    edges: tuple[Edge, ...]
    fittings: tuple[PlannedFitting, ...]
    fasteners: tuple[Fastener, ...]
    bands: tuple[Band, ...]
    sheets: tuple[Sheet, ...]
    takeoff: tuple[TakeoffRow, ...]
    proof: Proof
    sequence: tuple[str, ...]
    """Board ids in the order in which they go up."""
    faces: tuple[StudFace, ...] = ()
    """Stud faces as measured, by wall, u and v."""
    shims: tuple[Shim, ...] = ()
    planes: tuple[FinishedPlane, ...] = ()
    """One for each wall whose stud faces were measured."""
    plates: tuple[ShieldPlate, ...] = ()
    folds: tuple[Fold, ...] = ()
    lumber: tuple[LumberStick, ...] = ()
    lumber_proof: Proof | None = None
    """How near to the least length the lumber bought is; None where nothing is added."""
    furring: tuple[Furring, ...] = ()

    def wall(self, wall_id: str) -> PlannedWall:
        """The wall of that id; KeyError when there is none."""
        return next_by_id(self.walls, wall_id)

    def board(self, board_id: str) -> Board:
        """The board of that id; KeyError when there is none."""
        return next_by_id(self.boards, board_id)

    def support(self, support_id: str) -> Support:
        """The support of that id; KeyError when there is none."""
        return next_by_id(self.supports, support_id)
