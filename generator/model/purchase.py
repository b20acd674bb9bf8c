"""What is bought for a room and how it is cut: sheets with their boards, lumber, and the rows of the take-off.

Lengths in mm; places and cuts in the sheet's frame.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Placement:
    """Lower-left of the board's box on the sheet; `turn` counter-clockwise, front face up."""

    board_id: str
    x: float
    y: float
    turn: Literal[0, 90, 180, 270]


@dataclass(frozen=True, slots=True)
class CutNode:
    """A rectangle of a sheet; `axis` None: a leaf. The cut takes at .. at + kerf."""

    x: float
    y: float
    width: float
    height: float
    axis: Literal["x", "y"] | None
    at: float
    children: tuple[CutNode, ...]
    board_id: str | None


@dataclass(frozen=True, slots=True)
class Sheet:
    id: str
    stock_id: str
    width: float
    height: float
    kerf: float
    placements: tuple[Placement, ...]
    cut_tree: CutNode


@dataclass(frozen=True, slots=True)
class Term:
    """One line of the arithmetic behind a quantity; `refs` are ids of the plan."""

    label: str
    value: float
    refs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TakeoffRow:
    kind: str
    profile_id: str
    item: str
    quantity: float
    unit: str
    terms: tuple[Term, ...]
    package_size: float
    packages: int
    in_van: float
    """Packages already there; 0 when none were named."""


@dataclass(frozen=True, slots=True)
class PlannedStock:
    id: str
    material: str
    thickness: float
    width: float
    height: float
    density: float


@dataclass(frozen=True, slots=True)
class Proof:
    """How good the purchase is: `objective` names what was minimised (cost or mm2 of sheet)."""

    objective: str
    value: float
    bound: float
    proven: bool
    scope: str
    """The class of layouts that the proof speaks of."""


@dataclass(frozen=True, slots=True)
class LumberCut:
    """One added support as cut from a stick."""

    support_id: str
    length: float


@dataclass(frozen=True, slots=True)
class LumberStick:
    """A length of lumber as bought, and what is cut from it in order, the saw's kerf between two pieces."""

    id: str
    profile_id: str
    length: float
    kerf: float
    cuts: tuple[LumberCut, ...]
