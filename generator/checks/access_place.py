"""An accessible place as the checks see it: which wall is which, and distances between finished faces."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import wraps

from generator.checks.measuring import Check, or_note, unmeasured
from generator.model.ends import foot
from generator.model.findings import Measure, Place
from generator.model.geometry import tidy
from generator.model.mounts import Mount
from generator.model.plan import Plan
from generator.model.room import Fitting, Room

PLACE = "place.accessible"


@dataclass(frozen=True, slots=True)
class Bathing:
    """The three walls of a bathing place; `finish` is what stands in front of the framing: board, bed and tile."""

    room: Room
    plan: Plan
    back: str
    ends: tuple[str, str]
    """The walls to the left and right of the back wall."""
    finish: float

    @property
    def floor(self) -> float:
        """v of the finished floor."""
        bare = self.room.datum == "bare floor"
        return (self.room.floor_build_up or 0.0) if bare else 0.0

    @property
    def deck(self) -> float:
        """v of the rim of a tub, of the floor of a shower."""
        return self.room.base.sides[0].deck[0][1]

    @property
    def valve(self) -> Fitting | None:
        """The controls: the first valve on one of the three walls."""
        return next((f for f in self.room.fittings if f.kind == "valve" and f.wall in (self.back, *self.ends)), None)

    @property
    def control(self) -> str:
        """The end wall with the controls; "" where they are on the back wall, or nowhere."""
        return self.valve.wall if self.valve and self.valve.wall in self.ends else ""

    @property
    def seat(self) -> Mount | None:
        """The seat on one of the end walls."""
        return next((m for m in self.room.mounts if m.kind == "seat" and m.wall in self.ends), None)

    def opposite(self, wall: str) -> str:
        """The other end wall; "" for a wall that is none."""
        return {self.ends[0]: self.ends[1], self.ends[1]: self.ends[0]}.get(wall, "")

    def bars(self, wall: str) -> tuple[Mount, ...]:
        """Level grab bars of a wall, lowest first."""
        bars = [m for m in self.room.mounts if m.wall == wall and m.kind == "grab_bar" and m.direction == "level"]
        return tuple(sorted(bars, key=lambda m: (m.top, m.id)))

    def from_wall(self, wall: str, u: float, other: str) -> float:
        """mm along a wall from the finished face of its neighbour."""
        joined = any(c.left_wall == wall and c.right_wall == other for c in self.room.corners)
        corner = foot(self.plan.wall(wall).outline, "right" if joined else "left")
        return tidy(abs(u - corner) - self.finish)

    def near_end(self, mount: Mount, other: str) -> float:
        """mm from the finished face of a neighbouring wall to the mount."""
        return min(self.from_wall(mount.wall, u, other) for u in mount.ends)

    def far_end(self, mount: Mount, other: str) -> float:
        """mm from the finished face of a neighbouring wall to the mount's other end."""
        return max(self.from_wall(mount.wall, u, other) for u in mount.ends)

    @property
    def width(self) -> float:
        """mm between the finished end walls."""
        outline = self.plan.wall(self.back).outline
        return tidy(foot(outline, "right") - foot(outline, "left") - 2 * self.finish)

    def depth(self, wall: str) -> float:
        """mm along an end wall from the finished back wall to the front edge of the base."""
        side = next(s for s in self.room.base.sides if s.wall == wall)
        return max(self.from_wall(wall, u, self.back) for u in (side.start, side.end))


Asked = Callable[[Bathing], Iterator[Measure]]


def between_finished_faces(asked: Asked) -> Check:
    """Makes a check of a function that measures an accessible place; where none can be measured, it says why."""

    @wraps(asked)
    def check(room: Room, plan: Plan) -> Iterator[Measure]:
        place = bathing(room, plan)
        if isinstance(place, str):
            yield unmeasured(place, "confirm", "", PLACE)
        else:
            yield from or_note(asked(place), "nothing here that this is asked of")

    return check


def bathing(room: Room, plan: Plan) -> Bathing | str:
    """The place, or why it cannot be measured."""
    walls = [w.id for w in room.chain if any(s.wall == w.id for s in room.base.sides)]
    if len(walls) != 3:
        return "an accessible place is measured between three walls; the base stands against another number of them"
    if room.finish.tile is None or room.finish.bed is None:
        return "tile and bed are not known; confirm every distance between finished faces"
    thick = max((board.thickness for board in plan.boards), default=0.0)
    return Bathing(room, plan, walls[1], (walls[0], walls[2]), thick + room.finish.tile + room.finish.bed)


def of_mount(mount: Mount, words: str, value: float) -> Measure:
    """A measure of one mount."""
    return Measure(f"{mount.id}: {words}", tidy(value), Place(mount.wall, mount.ring), mount.path)
