"""What the parts of a section are made of, and how each material is hatched."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Literal

from generator.drafting.hatch import Lines, Pattern
from generator.model.frames import Frame
from generator.model.geometry import box
from generator.model.job import Job, SectionPart

Material = Literal[
    "end_grain",
    "long_grain",
    "level_grain",
    "steel",
    "board",
    "base",
    "masonry",
    "sealant",
    "mortar",
    "wallboard",
    "pipe",
    "lining",
]


ANSI = 3.175
"""mm between the lines of the hatches that CAD programs call ANSI31, ANSI37 and, in pairs, ANSI32, as they come."""


def _grain_along(angle: float) -> Pattern:
    """Full lines and long dashes by turns."""
    return Pattern((Lines(angle, 2.6), Lines(angle, 2.6, (9.0, 3.0), 0.9)), tone=0.97)


PATTERNS: Mapping[Material, Pattern] = MappingProxyType(
    {
        "end_grain": Pattern(crossed=True, tone=0.97),
        "long_grain": _grain_along(90.0),
        "level_grain": _grain_along(0.0),
        "steel": Pattern(tone=0.15),
        "board": Pattern((Lines(45.0, 1.7), Lines(135.0, 1.7)), 1.0, name="ANSI37", size=1.7 / ANSI),
        "base": Pattern((Lines(45.0, 1.5),), 0.95, name="ANSI31", size=1.5 / ANSI),
        "masonry": Pattern((Lines(45.0, 3.6), Lines(45.0, 3.6, None, 1.2)), 1.0, name="ANSI32", size=1.2 / ANSI),
        "sealant": Pattern(tone=0.3),
        "mortar": Pattern((Lines(0.0, 0.8, (0.25, 0.9)),), tone=0.78),
        "wallboard": Pattern((Lines(0.0, 1.1, (0.3, 2.0)),), tone=1.0),
        "pipe": Pattern((Lines(135.0, 0.8),), tone=1.0),
        "lining": Pattern(tone=0.5),
    }
)
NAMES: Mapping[Material, str] = MappingProxyType(
    {
        "end_grain": "lumber, cut across",
        "long_grain": "lumber, cut along",
        "level_grain": "lumber, cut along, lying",
        "steel": "steel",
        "board": "foam-core board and skins",
        "base": "tub, base or tray",
        "masonry": "masonry",
        "sealant": "sealant",
        "mortar": "thin-set mortar",
        "wallboard": "wallboard",
        "pipe": "pipe or valve",
        "lining": "lining of the tray",
    }
)


def material_of(job: Job, frame: Frame, part: SectionPart) -> Material:
    """What a part is made of, as it is cut in this frame: lumber across its grain or along it."""
    if part.kind in ("board", "base"):
        return "board" if part.kind == "board" else "base"
    support = next((s for s in job.plan.supports if s.id == part.part), None)
    if support is not None and support.material != "wood":
        return "steel" if support.material == "steel" else "masonry"
    if support is not None:
        return _grain(job, frame, support.wall, support.outline)
    strip = next((f for f in job.plan.furring if f.id == part.part), None)
    return _grain(job, frame, strip.wall, strip.ring) if strip else "pipe"


def _grain(job: Job, frame: Frame, wall: str, outline: Sequence[tuple[float, float]]) -> Material:
    """Across where the piece's length runs through the plane of the cut."""
    left, low, right, high = box(outline)
    planned = job.plan.wall(wall)
    length = planned.u_axis if right - left > high - low else planned.v_axis
    across, up, through = (
        abs(sum(a * b for a, b in zip(length, axis, strict=True)))
        for axis in (frame.u_axis, frame.v_axis, frame.w_axis)
    )
    return "end_grain" if through > 0.5 else "long_grain" if up > across else "level_grain"
