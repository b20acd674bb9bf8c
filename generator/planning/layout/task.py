"""What the layout optimiser is asked and what it answers. Lengths in mm, walls in their own frames."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.geometry import Point, Ring
from generator.model.plan import Region
from generator.model.purchase import CutNode, Placement, Proof


@dataclass(frozen=True, slots=True)
class StockSize:
    """A sheet size that may be used; any number can be bought.

    `price` of one sheet, None when unknown. `have` sheets are already there: they cost nothing and are
    no area bought, but each one used still counts as a sheet.
    """

    id: str
    width: float
    height: float
    price: float | None
    have: int


@dataclass(frozen=True, slots=True)
class SeamPlace:
    """An upright seam may stand at `u` anywhere between `from_v` and `to_v`.

    `adds`: only after a support has been added there (one per wall and u, however many seams use it).
    """

    u: float
    from_v: float
    to_v: float
    adds: bool


@dataclass(frozen=True, slots=True)
class Disc:
    """No seam may pass nearer to `centre` than `radius` (a collar with its clearance)."""

    centre: Point
    radius: float


@dataclass(frozen=True, slots=True)
class Leg:
    """A leg between two u, one piece with the board above it, up to height `top`.

    No level seam at or below `top` between the two, no upright seam strictly between them at any height that
    reaches below `top`.
    """

    from_u: float
    to_u: float
    top: float


@dataclass(frozen=True, slots=True)
class Unscrewed:
    """Between two u no screw may go below a flange's top: no level seam below `top` there, or a board hangs loose."""

    from_u: float
    to_u: float
    top: float


@dataclass(frozen=True, slots=True)
class WallTask:
    """One connected wet region of a wall. `uncut`: rings that no seam may enter (windows excepted)."""

    id: str
    region: Region
    seams: tuple[SeamPlace, ...]
    discs: tuple[Disc, ...]
    uncut: tuple[Ring, ...]
    legs: tuple[Leg, ...]
    unscrewed: tuple[Unscrewed, ...] = ()
    minor: bool = False
    """True for a face of a niche, bench or the like: boarded by its best layout, from the walls' leftovers."""


@dataclass(frozen=True, slots=True)
class LayoutTask:
    """The room. `kerf` only between boards; `support_price` of one added support, None when unknown."""

    walls: tuple[WallTask, ...]
    stocks: tuple[StockSize, ...]
    kerf: float
    stagger: float
    least_rip: float
    support_price: float | None


@dataclass(frozen=True, slots=True)
class Piece:
    """One board. `id` is `B-<wall>-<n>`, numbered by place: left to right, then bottom to top."""

    id: str
    wall: str
    outline: Ring


@dataclass(frozen=True, slots=True)
class LaidSheet:
    """One sheet with its boards; the cut tree's leaves and the placements name pieces."""

    stock_id: str
    owned: bool
    placements: tuple[Placement, ...]
    cut_tree: CutNode


@dataclass(frozen=True, slots=True)
class AddedSupport:
    """A support to be added on a wall, and the heights between which seams need it."""

    wall: str
    u: float
    from_v: float
    to_v: float


@dataclass(frozen=True, slots=True)
class Objective:
    """What is minimised, first field first. `first` is cost (sheets bought and supports added) when every
    price is known, else mm2 of sheet bought."""

    first: float
    sheets: int
    supports: int
    seam_length: float
    pieces: int
    rips: int


@dataclass(frozen=True, slots=True)
class LayoutResult:
    """Pieces sorted by id, sheets by stock and content. `proof` speaks of `objective.first`; its scope says whether
    the further levels are proven too."""

    pieces: tuple[Piece, ...]
    sheets: tuple[LaidSheet, ...]
    added: tuple[AddedSupport, ...]
    objective: Objective
    proof: Proof
