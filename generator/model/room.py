"""The room as measured. Lengths in mm in the wall frame (u right, v up from the datum, seen from inside).

Each record carries `path`, the path of its key in the room file (`walls.1.supports.0`); `Room.entered`
maps the path of a length to the text as entered, so that a label can repeat it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from generator.model.choices import Choices
from generator.model.features import FaceKind, Feature, Fold, InBay, Mouth
from generator.model.frames import Frame
from generator.model.geometry import Point, Ring
from generator.model.mounts import Accessible, Mount
from generator.model.plan import Allowance
from generator.model.profiles import (
    CodeProfile,
    FlangeProfile,
    Rule,
    StudProfile,
    TrayProfile,
)
from generator.model.stud_work import FaceReading, Hole, Notch
from generator.units import Units as Units

Side = Literal["left", "right"]
Duty = Literal["bearing", "non_bearing", "unknown"]
Beside = Literal["corner", "wallboard", "free"]
"""What is at an end of the boards: a corner of the room, wallboard flush on a shared stud, or nothing."""


@dataclass(frozen=True, slots=True)
class Revision:
    """A row of the list of revisions, as the room file has it."""

    mark: str
    date: str
    what: str


@dataclass(frozen=True, slots=True)
class JobInfo:
    """What a title block says; every field may be empty. `revisions`: oldest first; `revision` is the last one's."""

    title: str
    owner: str
    number: str
    date: str
    drawn_by: str
    approved_by: str
    revision: str
    revisions: tuple[Revision, ...] = ()


@dataclass(frozen=True, slots=True)
class FoundSupport:
    """A stud, plate, nailer or piece of blocking that is there now."""

    path: str
    kind: Literal["stud", "blocking", "plate", "nailer"]
    profile: StudProfile
    outline: Ring
    """Its face in (u, v)."""
    axis: tuple[Point, Point]
    """Middle of the face, end to end."""
    plies: int = 1
    """Pieces fastened face to face that it is made of: 2 for a doubled stud, whose `profile.face` is that of both."""
    state: str = "as found"
    """How it was found, in words."""


@dataclass(frozen=True, slots=True)
class Wall:
    """One wall. `outline` is the framing as measured; boards are asked for inside `reach` and `top`."""

    path: str
    id: str
    outline: Ring
    reach: tuple[float, float]
    """u from, u to of the boards asked for (a corner end of the wall: the wall's own end)."""
    top: float
    """Height asked for, above the datum; the framing's height when boards go to the ceiling."""
    to_ceiling: bool
    """True where the boards end at the ceiling and keep the fit allowance from it."""
    ceiling: Literal["framing", "finished"]
    duty: Duty
    beside: tuple[Beside, Beside]
    """Left end, right end of the boards."""
    supports: tuple[FoundSupport, ...]
    readings: tuple[FaceReading, ...] = ()
    """Stud faces measured off a string line; empty where nobody measured."""
    flange_off: tuple[float, float] | None = None
    """From the same line back to the back of the base's flange, at its left and right end on this wall."""
    holes: tuple[Hole, ...] = ()
    notches: tuple[Notch, ...] = ()
    mouths: tuple[Mouth, ...] = ()
    in_bays: tuple[InBay, ...] = ()
    outside: bool = False
    """True where the wall stands against the weather: its bays hold insulation."""
    frame: Frame | None = None
    """Of a face of a feature; None for a wall of the chain, which its corners place."""
    face: FaceKind = "wall"
    feature: str = ""
    """Id of the feature that it is a face of."""
    extent: Ring = ()
    """Of a face: what its boards fill before allowances; may pass `outline` by one board where it laps another."""
    allowances: tuple[Allowance, ...] = ()
    """Of a face: strips that its boards keep out of. Of a wall of the chain: where soffits stand before its framing."""
    borrows: bool = False
    """True where it has no framing of its own and is fastened to the sides of its neighbours' framing."""
    masonry: StudProfile | None = None
    """Of a wall of concrete or masonry: a strip of it that takes a row of plugs. It has no other supports."""
    rake: FoundSupport | None = None
    """Of a half wall that falls along its length: the top plate that is there, its face along the rake."""
    furring: float = 0.0
    """Thickness of the strips on every support, or of the bed of mortar on masonry: w = 0 is their face, the stud
    faces lie at w = -furring."""
    trims: tuple[float, float] = (0.0, 0.0)
    """How far the outline's left and right foot stand inside the corners of the bare framing, because walls there are
    furred. u = 0 and every measurement stay with the bare framing."""

    @property
    def bare_width(self) -> float:
        """Between the corners of the bare framing, at the floor; the left one is at u = 0."""
        return self.outline[1][0] + self.trims[1]

    @property
    def bare_ends(self) -> tuple[float, float]:
        """u of the outermost points of the bare framing, left and right: a tape's two ends."""
        us = [u for u, _ in self.outline]
        return min(us) - self.trims[0], max(us) + self.trims[1]


@dataclass(frozen=True, slots=True)
class Corner:
    """Between a wall and the next one to the right; `angle_deg` is measured inside the room."""

    path: str
    id: str
    left_wall: str
    right_wall: str
    angle_deg: float
    first: str
    """Id of the wall that is boarded first; the other's boards butt against its faces."""


@dataclass(frozen=True, slots=True)
class BaseSide:
    """Where the base stands along a wall: u from `start` to `end`, deck as (u, v) points left to right."""

    path: str
    wall: str
    start: float
    end: float
    deck: tuple[Point, ...]
    flanged: bool
    gap: float = 0.0
    """w of the flange's back. Off bare studs never negative; it is where it stands behind the faces of furring."""
    flare: tuple[float, float] = (0.0, 0.0)
    """mm that the base goes on beyond its left and its right end here for each mm out from the wall; never negative."""


@dataclass(frozen=True, slots=True)
class Base:
    """`treatment` is how boards meet it: lapped (thin flange), butted (thick flange), tray, none."""

    path: str
    kind: Literal["tub", "shower_base", "tray", "none"]
    treatment: Literal["lapped", "butted", "tray", "none"]
    length: float
    width: float
    flange: FlangeProfile | None
    tray: TrayProfile | None
    sides: tuple[BaseSide, ...]
    threshold: float | None
    """Height of a shower's finished threshold above the datum, where there is one and it was measured."""
    drain: float | None
    """Height of the drain above the datum, where measured."""
    along: str = ""
    """Id of the wall that its length stands against; "" without a base."""
    footprint: Ring = ()
    """The base from above, in (u, w) of that wall."""


@dataclass(frozen=True, slots=True)
class Body:
    """What sits behind the board: a valve with its supplies; centred on the fitting."""

    width: float
    height: float
    depth: float


@dataclass(frozen=True, slots=True)
class Fitting:
    """A pipe or a trimmed opening. `diameter`: the pipe's outside or the cut-out's; `ring` (about 0,0) if not round."""

    path: str
    id: str
    name: str
    wall: str
    kind: Literal["valve", "spout", "arm", "pipe", "other"]
    centre: Point
    is_pipe: bool
    diameter: float
    ring: Ring
    body: Body | None
    collar_diameter: float
    steel: bool
    profile_id: str


@dataclass(frozen=True, slots=True)
class Finish:
    """Tile and its bed, where known."""

    tile: float | None
    bed: float | None
    longest: float | None = None
    """Longest edge of the tile."""


@dataclass(frozen=True, slots=True)
class Room:
    name: str
    file: str
    sha256: str
    """Of the room file's bytes."""
    job: JobInfo
    units: Units
    datum: Literal["finished floor", "bare floor"]
    floor_build_up: float | None
    """From the bare floor up to the finished one, where the datum is bare and it is known."""
    code: CodeProfile
    base: Base
    walls: tuple[Wall, ...]
    """The chain, left to right, then the faces of features."""
    corners: tuple[Corner, ...]
    fittings: tuple[Fitting, ...]
    finish: Finish
    choices: Choices
    rules: Mapping[str, Rule]
    """Every limit in force: the profiles' with this room's own allowances over them."""
    entered: Mapping[str, str]
    """Path of a length -> its text as entered."""
    lines: Mapping[str, int]
    """Path of a key -> its line in the room file, 1-based."""
    mounts: tuple[Mount, ...] = ()
    accessible: Accessible | None = None
    """Which accessible place the bars, seat and controls are measured for; None: none is asked for."""
    features: tuple[Feature, ...] = ()
    folds: tuple[Fold, ...] = ()

    @property
    def chain(self) -> tuple[Wall, ...]:
        """The walls that stand one beside another, left to right."""
        return tuple(wall for wall in self.walls if wall.frame is None)

    def limit(self, rule_id: str) -> float:
        """The limit of a rule, in the rule's unit (mm for lengths)."""
        return self.rules[rule_id].limit
