"""What is built of a room does not hang on which sheets are cheapest: here it is planned without that search."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.properties.light import lightly


@pytest.fixture(autouse=True)
def _planned_lightly() -> Iterator[None]:
    with lightly():
        yield
