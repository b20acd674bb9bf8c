"""Records of what the profiles folder holds. Lengths in mm, densities in kg/m3, volumes in ml."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from generator.model.geometry import Ring

Confidence = Literal["published", "practice", "memory", "maker", "invented"]
"""published: a source is named; practice: common practice, no source; memory: from memory, no text
found; maker: maker's sheet to be confirmed; invented: demonstration data."""

Sense = Literal["at_most", "at_least"]


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a number comes from."""

    source: str
    confidence: Confidence


@dataclass(frozen=True, slots=True)
class Profile:
    """What every profile has. `origins` gives the origin of each field whose number has its own."""

    id: str
    name: str
    origin: Origin
    origins: Mapping[str, Origin]


@dataclass(frozen=True, slots=True)
class SheetSize:
    """One size in which a board is sold: `width` is the short side, `height` the long one."""

    id: str
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class BoardProfile(Profile):
    material: str
    thickness: float
    density: float
    sheets: tuple[SheetSize, ...]
    horizontal_backing: bool
    """True where the board's maker wants backing behind level seams between studs."""


@dataclass(frozen=True, slots=True)
class FlangeProfile(Profile):
    """The upstand of a base in section. `section`: ring of (w from its own back face, height from the deck)."""

    kind: Literal["thin", "thick"]
    section: Ring
    top: float
    """Height of the upstand's top above the deck."""
    thickness: float
    """Greatest w of the section, fixings counted."""


@dataclass(frozen=True, slots=True)
class TrayProfile(Profile):
    order: Literal["boards_first", "tray_first"]
    lining_height: float
    """Height of the lining above the tray's deck at the walls."""


@dataclass(frozen=True, slots=True)
class StudProfile(Profile):
    material: Literal["wood", "steel", "masonry"]
    face: float
    """Width of the face that a board bears on."""
    depth: float
    steel_mils: float
    """Thickness of the steel in mil (1/1000 in); 0 for wood."""


@dataclass(frozen=True, slots=True)
class LumberProfile(Profile):
    """Lengths in which these stud profiles are sold."""

    studs: tuple[str, ...]
    lengths: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class PipeProfile(Profile):
    outside_diameter: float
    material: str
    steel: bool
    """True where the pipe itself is steel and needs no shield plate."""
    collar_diameter: float


@dataclass(frozen=True, slots=True)
class CutoutProfile(Profile):
    """An opening that a trim covers. `ring` (about the centre) is given for openings that are not round."""

    diameter: float
    ring: Ring
    body_width: float
    body_height: float
    body_depth: float
    collar_diameter: float


@dataclass(frozen=True, slots=True)
class FastenerProfile(Profile):
    """A screw, or for masonry a plug, with its washer."""

    support: Literal["wood", "light_steel", "heavy_steel", "masonry"]
    length: float
    washer_diameter: float
    package: int
    """Pieces in a box."""


@dataclass(frozen=True, slots=True)
class BandProfile(Profile):
    width: float
    roll_length: float
    patch_side: float
    """Side of the square patch over one fastener."""


@dataclass(frozen=True, slots=True)
class SealantProfile(Profile):
    cartridge: float
    """ml in one cartridge."""
    bed_width: float
    bed_depth: float
    """Section of the bed of sealant on the flange."""
    fill_rabbet: bool
    fill_corners: bool
    waste: float
    """Share added for waste, 0 to 1."""
    masking_roll: float
    """Length of one roll of the tape that masks the deck while the sealant is tooled."""


@dataclass(frozen=True, slots=True)
class MortarProfile(Profile):
    bag: float
    """ml of mixed mortar that one bag yields."""
    waste: float


@dataclass(frozen=True, slots=True)
class TrowelProfile(Profile):
    """Combed bed: `notch` square|v|u, `tooth` the land between notches (pitch - width), lengths in mm."""

    notch: Literal["square", "v", "u"]
    width: float
    height: float
    land: float
    angle_deg: float


@dataclass(frozen=True, slots=True)
class PaperProfile(Profile):
    """Paper as it lies. A roll: `width` across it, `height` the longest piece that may be cut from it."""

    width: float
    height: float
    margin: float
    roll: bool = False


@dataclass(frozen=True, slots=True)
class LabelProfile(Profile):
    """One label of a part; a sheet of paper takes as many of them as fit inside its margins."""

    width: float
    height: float
    module: float
    """Least side of a square of the code."""


WIDTHS = ("fine", "thin", "plain", "medium", "wide", "heavy")
HEIGHTS = ("text", "subtitle", "heading", "title")
DRAFTED = {
    **dict(zip(WIDTHS, (0.13, 0.18, 0.25, 0.35, 0.5, 0.7), strict=True)),
    **dict(zip(HEIGHTS, (2.5, 3.5, 5.0, 7.0), strict=True)),
}
"""mm: the sizes that drawings are laid out in, before a practice is applied (series of ISO 128-2 and ISO 3098)."""


@dataclass(frozen=True, slots=True)
class PracticeProfile(Profile):
    """How an office draws: widths of lines and heights of capitals in mm of paper, ends of dimension lines."""

    fine: float
    thin: float
    plain: float
    medium: float
    wide: float
    heavy: float
    text: float
    subtitle: float
    heading: float
    title: float
    ends: Literal["oblique", "tick"]
    """oblique: a thin stroke; tick: a heavy one."""
    decimal: Literal["point", "comma"]
    projection: Literal["first", "third"]
    """Angle of projection, as its symbol beside the title block says."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One limit of the trade. `limit` is in `unit`: mm | mm2 | mm3 | count | ratio | deg."""

    id: str
    statement: str
    reason: str
    limit: float
    unit: str
    sense: Sense
    origin: Origin


@dataclass(frozen=True, slots=True)
class CodeProfile(Profile):
    """Which published rules a place has: ids of the rules that are measured there."""

    rules: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Catalogue:
    """All profiles, by kind and id, the shipped ones overlaid by the user's folder."""

    boards: Mapping[str, BoardProfile]
    flanges: Mapping[str, FlangeProfile]
    trays: Mapping[str, TrayProfile]
    studs: Mapping[str, StudProfile]
    lumber: Mapping[str, LumberProfile]
    pipes: Mapping[str, PipeProfile]
    cutouts: Mapping[str, CutoutProfile]
    fasteners: Mapping[str, FastenerProfile]
    bands: Mapping[str, BandProfile]
    sealants: Mapping[str, SealantProfile]
    mortars: Mapping[str, MortarProfile]
    trowels: Mapping[str, TrowelProfile]
    papers: Mapping[str, PaperProfile]
    labels: Mapping[str, LabelProfile]
    practices: Mapping[str, PracticeProfile]
    codes: Mapping[str, CodeProfile]
    rules: Mapping[str, Rule]
