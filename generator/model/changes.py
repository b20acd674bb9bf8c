"""What is different between two plans, as it is told to people."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

DETAIL = "detail"
"""Topic of the parts of plan.json that are not the same, whether another topic tells it or not."""


@dataclass(frozen=True, slots=True)
class Change:
    """An item of a topic that came, went, or changed in what is said of it."""

    topic: str
    name: str
    kind: Literal["added", "removed", "changed"]
    text: str
