"""Where the edges of a wall's boards beside a soffit would land on a stud so that no washer finds a place there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from generator.model.geometry import NOISE, TOUCH, box
from generator.model.profiles import Catalogue
from generator.reading.choice_shapes import ChoicesShape
from generator.reading.choices import limit_of, over_defaults
from generator.reading.draft import Draft
from generator.reading.issues import Issue, join
from generator.reading.judge_footprint import said_length
from generator.reading.niches import lining_of
from generator.reading.room_shapes import WallShape
from generator.reading.walls import supports_of
from generator.units import paper_step


@dataclass(frozen=True, slots=True)
class End:
    """An upright side of a soffit on a wall: u of its framing, and the way (1 or -1) in which the wall's boards go on.

    `key`: what of the soffit moves it; `more`, `less`: words for farther that way, and back.
    """

    wall: WallShape
    index: int
    u: float
    way: float
    key: str
    more: str
    less: str


def judge_edge(path: str, end: End, draft: Draft, catalogue: Catalogue) -> Iterator[Issue]:
    """The board ends a fit past the framing, where the soffit's own board hides it; its washers clear that board.

    So a stud under the edge reaches on far enough, or ends so near that the edge can move to its side.
    """
    lining = lining_of(draft.choices, catalogue, draft.units)
    if lining is None:
        return
    near, bears = lining.thickness - 2 * lining.fit, limit_of("bearing-edge", draft.choices, catalogue, draft.units)
    wanted = max(bears, lining.thickness - lining.fit + _washer(draft, catalogue) / 2)
    edge, step = end.u + end.way * lining.fit, paper_step(draft.units)
    for support in supports_of(join("walls", end.index), end.wall, catalogue):
        left, _, right, _ = box(support.outline)
        first, last = sorted((end.way * (left - edge), end.way * (right - edge)))
        if support.kind in ("stud", "nailer") and first < -TOUCH and near + NOISE < last < wanted - NOISE:
            back = ceil((wanted - last) / step - NOISE) * step
            ways = f"{said_length(last, draft.units)} {end.more}, or {said_length(back, draft.units)} {end.less}"
            at = said_length((left + right) / 2, draft.units)
            text = f'it ends on the {support.kind} {at} from the left end of wall "{end.wall.name}"'
            yield Issue(join(path, end.key), f"{text}, which leaves screws beside it no place; let it end {ways}")


def _washer(draft: Draft, catalogue: Catalogue) -> float:
    """mm: the broadest of the screws into framing."""
    full = over_defaults(draft.choices or ChoicesShape(), draft.units)
    known = (catalogue.fasteners.get(str(wanted)) for support, wanted in full.screws if support != "masonry")
    return max((one.washer_diameter for one in known if one is not None), default=0.0)
