"""What the person chose: sheets and prices, screws, bands, mortar, the cutter of the shop, paper; profiles resolved."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from generator.model.profiles import (
    BandProfile,
    BoardProfile,
    FastenerProfile,
    LabelProfile,
    MortarProfile,
    PaperProfile,
    PracticeProfile,
    SealantProfile,
    StudProfile,
    TrowelProfile,
)
from generator.units import PaperUnits, Units


@dataclass(frozen=True, slots=True)
class Stock:
    """A sheet that can be bought or is in the van. `price` None: unknown; `available` None: any number."""

    id: str
    board: BoardProfile
    width: float
    height: float
    price: float | None
    available: int | None


@dataclass(frozen=True, slots=True)
class Prices:
    """What one added support costs, in the currency of the sheets; None: unknown."""

    support: float | None
    currency: str


@dataclass(frozen=True, slots=True)
class Shop:
    """How nested sheets are cut by a router."""

    cutter: float
    """Diameter of its round cutter, mm."""
    offset: Literal["none", "outside"]
    """none: lines are edges of parts, the machine keeps off them; outside: the middle of the cutter runs on them."""
    relief: bool
    """True: inner corners are cut out as far as the round cutter needs, where the sealing covers that."""


@dataclass(frozen=True, slots=True)
class Choices:
    """What the person chose, profiles resolved."""

    stocks: tuple[Stock, ...]
    prices: Prices
    screws: Mapping[str, FastenerProfile]
    """By kind of support: wood, light_steel, heavy_steel, masonry."""
    band: BandProfile
    sealant: SealantProfile
    mortar: MortarProfile
    trowel: TrowelProfile
    added_stud: Mapping[str, StudProfile]
    """Stud profile to add, by wall id."""
    kerf: float
    shop: Shop
    papers: tuple[PaperProfile, ...]
    """Papers of the templates."""
    sheet_paper: PaperProfile
    """Paper of the drawing set."""
    label: LabelProfile
    """Label of a part; labels are printed on the first of `papers`."""
    drawing_units: Units
    """Main unit of drawings; that of DXF files and lists, and of the scales."""
    layer_standard: Literal["ncs", "iso13567"]
    in_van: Mapping[str, float]
    """Packages already in the van, by kind of take-off row (screw, washer, band, ...)."""
    bond_trowel: TrowelProfile | None = None
    """Combs the bed of mortar under boards on masonry; None: the trowel of the bands."""
    plotter: PaperProfile | None = None
    """Roll that templates are plotted on from DXF; None: there are no such files."""
    added_block: StudProfile | None = None
    """Lumber laid flat between studs to carry mounts; None: as the studs to add."""
    lumber: Mapping[str, tuple[float, ...]] = field(default_factory=dict)
    """Lengths in which lumber is sold, by stud profile; profiles that are missing are bought cut to length."""
    other_units: Units | None = None
    """Said in brackets behind `drawing_units` on everything that is printed; None: one unit throughout."""

    practice: PracticeProfile | None = None
    """Lines, writing and dimensions of the drawings; None: the sizes that they are laid out for."""

    @property
    def paper_units(self) -> PaperUnits:
        """What lengths are said in on paper."""
        comma = self.practice is not None and self.practice.decimal == "comma"
        return PaperUnits(self.drawing_units, self.other_units, comma)
