"""Sealing of each niche, window, bench, curb or half-wall top: its faces side by side, a number for each band."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from generator.drafting.ink import Ink, Outline, Text, View
from generator.drafting.inview import InView
from generator.drafting.page import text_width
from generator.drawings.boards import boards_of
from generator.drawings.elevation import PANEL
from generator.drawings.face_rows import TITLE, FaceSheet, Seen, face_leaves, face_title, faces_of, feature_name
from generator.drawings.flow import Block, Box, heading, prose
from generator.drawings.leaf import Leaf
from generator.drawings.marks import FLAG, Label, flags
from generator.drawings.scales import Scale
from generator.drawings.sealing import (
    KIND,
    band_ink,
    band_table,
    bands_of,
    corner_ink,
    long_of,
    patch_words,
    rings_of,
    spot,
)
from generator.model.features import Feature
from generator.model.geometry import box
from generator.model.job import Job
from generator.model.room import Wall

BESIDE = 2 * FLAG + 5.0
"""mm of paper that a column of numbers needs beside a view."""
HOW = (
    "Each face is seen from the room's side. Grey: bands, half of each on either face of a fold; the same number on "
    "two faces is one piece. Circles: preformed corner pieces, where three faces meet (common practice, no source). "
    "Small squares: patches. The lower of two pieces goes on first, so that the upper one laps it as water runs."
)


def feature_sealing_leaves(job: Job) -> tuple[Leaf, ...]:
    """The sheets of all features, in the order of the room file."""
    return tuple(leaf for feature in job.room.features for leaf in _leaves(job, feature))


def _leaves(job: Job, feature: Feature) -> tuple[Leaf, ...]:
    faces = faces_of(job, feature)
    numbers = {band.id: str(i + 1) for i, band in enumerate(long_of(job, faces))}
    sheet = FaceSheet(
        KIND,
        f"Sealing of {feature_name(feature)}",
        size=lambda face, scale: _size(job, face, scale),
        draw=lambda face, scale, at: _view(job, _seen(job, face, scale, at), numbers),
        notes=lambda scale: _notes(job, feature, faces, numbers, scale),
    )
    return face_leaves(job, feature, faces, sheet) if faces else ()


def _around(job: Job, face: Wall) -> Box:
    """Everything that a view shows: the face's boards and what bands cover of it."""
    rings = [b.outline for b in boards_of(job, face)]
    rings += [ring for band in bands_of(job, face) for ring in rings_of(band, face)]
    return box([p for ring in rings for p in ring])


def _size(job: Job, face: Wall, scale: float) -> tuple[float, float]:
    left, low, right, high = _around(job, face)
    count = (len(long_of(job, (face,))) + 1) // 2
    height = max((high - low) * scale, count * (2 * FLAG + 0.7))
    return max((right - left) * scale + 2 * BESIDE, text_width(face_title(face), 2.5, bold=True)), height + TITLE + FLAG


def _seen(job: Job, face: Wall, scale: float, at: tuple[float, float]) -> Seen:
    left, low, right, high = _around(job, face)
    x, y = at[0] + BESIDE, at[1] - TITLE - (high - low) * scale
    return Seen(face, View(scale, (x, y), (left, low)), (x, y, x + (right - left) * scale, at[1] - TITLE))


def _view(job: Job, seen: Seen, numbers: Mapping[str, str]) -> InView:
    boards = (Outline(b.outline, "visible") for b in boards_of(job, seen.face))
    model = (*boards, *band_ink(job, seen.face), *corner_ink(job, seen.face))
    title = Text((seen.hull[0], seen.hull[3] + 3.5), face_title(seen.face), 2.5, bold=True)
    return InView(seen.view, model, (title, *_numbers(job, seen, numbers)))


def _numbers(job: Job, seen: Seen, numbers: Mapping[str, str]) -> tuple[Ink, ...]:
    """Flags left and right of the view, whichever side is nearer, shared out evenly."""
    left, low, right, high = seen.hull
    labels = sorted(
        (
            Label(seen.view.point(spot(ring, 0)), numbers[band.id])
            for band in long_of(job, (seen.face,))
            for ring in rings_of(band, seen.face)[:1]
        ),
        key=lambda label: (label.at[0], label.at[1], label.text),
    )
    half = (len(labels) + 1) // 2
    low = min(low, high - half * (2 * FLAG + 0.7))
    return (
        *flags(labels[:half], left - FLAG - 3.0, low, high, "band"),
        *flags(labels[half:], right + FLAG + 3.0, low, high, "band"),
    )


def _notes(
    job: Job, feature: Feature, faces: Sequence[Wall], numbers: Mapping[str, str], scale: Scale
) -> tuple[Block, ...]:
    return (
        heading(f"Sealing, {feature_name(feature)}", PANEL, 5.0),
        prose(f"Scale {scale.text}", PANEL),
        prose(HOW, PANEL),
        prose(patch_words(job, faces, "these faces"), PANEL),
        *band_table(job, long_of(job, faces), numbers, PANEL),
    )
