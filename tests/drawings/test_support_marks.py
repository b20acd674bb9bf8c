"""Numbers of level supports: wherever pieces lie, all find a place, and no two of them or of the names meet."""

from __future__ import annotations

from itertools import combinations

import shapely
from hypothesis import given
from hypothesis import strategies as st

from generator.drafting.ink import Text
from generator.drafting.page import text_box
from generator.drawings.support_marks import _apart

PLACES = st.tuples(st.floats(0, 40), st.floats(0, 30))
NAMES = st.builds(lambda at: Text(at, "arm", 2.5), PLACES)
ON_FACE = st.builds(lambda at: (Text(at, "04", 2.5, "centre", "middle"),), PLACES)
OFF_FACE = st.builds(
    lambda at: (
        Text(at, "ADD 05", 2.5, "centre", "top", bold=True),
        Text((at[0], at[1] + 3.0), "ADD 05", 2.5, "centre", bold=True),
    ),
    PLACES,
)


@given(st.lists(st.tuples(st.one_of(ON_FACE, OFF_FACE), st.floats(0, 60)), max_size=8), st.lists(NAMES, max_size=2))
def test_no_two_numbers_meet(tags: list[tuple[tuple[Text, ...], float]], names: list[Text]) -> None:
    """Plates on plates, a block to add below one as found: the latter once had no end."""
    placed = _apart(tags, names)
    assert [t.text for t in placed] == [places[0].text for places, _ in tags]
    boxes = [shapely.Polygon(text_box(text)) for text in placed]
    assert all(a.intersection(b).area < 1e-6 for a, b in combinations(boxes, 2))
    assert all(box.intersection(shapely.Polygon(text_box(name))).area < 1e-6 for box in boxes for name in names)
