"""Details at large scale: each condition of the room once, cut through the solids, several to a sheet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import chain, cycle

from generator.drafting.dimension import staggered
from generator.drafting.hatch import Hatch
from generator.drafting.ink import Dimension, Ink, Outline, Text, View, move
from generator.drafting.inview import InView, Piece
from generator.drawings.callouts import Note, column, column_height
from generator.drawings.detail_base import base_said
from generator.drawings.detail_ink import detail_ink, seen
from generator.drawings.detail_joints import joint_said
from generator.drawings.detail_masonry import masonry_notes, masonry_patches
from generator.drawings.detail_said import Said, Size, halves
from generator.drawings.flow import Block, Box, columns_of, heading, prose, spread_out
from generator.drawings.leaf import CONTINUED, Leaf, area
from generator.drawings.materials import NAMES, PATTERNS, Material, material_of
from generator.drawings.scales import Scale, standard_scales
from generator.drawings.stamp import stamp_of
from generator.model.cuts import Cut
from generator.model.geometry import Point, rectangle
from generator.model.job import Job
from generator.planning.cuts import detail_cuts
from generator.units import PaperUnits

KIND = "Details"
CELL = 118.0
"""mm: least width of a detail with its words."""
VIEW = (60.0, 104.0)
"""mm of paper that a view may take at most."""
LINE = 5.2
"""mm from one dimension line to the next, and from the view to the first."""
HEAD = 13.0
"""mm above a view for its title and scale."""
CEILING = -10.0
"""mm from a detail's upper edge to what stands below its title and scale."""
SWATCH = 5.6
"""mm from one square of a hatch to the next."""
AFTER = 9.0
"""mm below a detail."""
LARGEST = {"screw": 1.0}
"""The largest scale of a kind of detail; half size for all others."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A detail as a view with its upper left corner at (0, 0) on paper, the height that it takes, its scale."""

    view: InView
    height: float
    scale: Scale

    @property
    def block(self) -> Block:
        """What has to be found a place."""
        return Block(self.height, self.view.on_paper)


def detail_leaves(job: Job) -> tuple[Leaf, ...]:
    """The sheets of details; none where the job holds no cuts."""
    cuts = tuple(cut for cut in detail_cuts(job.room, job.plan) if cut.name in job.sections)
    if not cuts:
        return ()
    warning = stamp_of(job, tuple(cut.wall for cut in cuts))
    columns = columns_of(area(job, warning), CELL)
    width = columns[0][2] - columns[0][0]
    drawn, legend = [draw(job, cut, i + 1, width) for i, cut in enumerate(cuts)], _legend(job, cuts, width)
    filled = _placed(drawn, legend, columns)
    scale = "as shown" if len({d.scale for d in drawn}) > 1 else drawn[0].scale.text
    blank = Leaf(KIND, KIND, scale, (), warning)
    pages = (filled[i : i + len(columns)] for i in range(0, len(filled), len(columns)))
    leaves = (replace(blank, views=_views((*drawn, legend), chain(*page))) for page in pages)
    return tuple(replace(leaf, title=KIND + CONTINUED * (i > 0)) for i, leaf in enumerate(leaves))


def _placed(drawn: Sequence[Drawn], legend: Drawn, columns: Sequence[Box]) -> Sequence[Sequence[tuple[Block, Point]]]:
    """The details column after column, and the legend in the first column of their last sheet that has room for it."""
    filled = list(spread_out(tuple(d.block for d in drawn), cycle(columns)))
    start = (len(filled) - 1) // len(columns) * len(columns)
    filled += [()] * (start + len(columns) - len(filled))
    for i, (left, bottom, _, high) in enumerate(columns, start):
        top = min((at[1] - block.height for block, at in filled[i]), default=high)
        if top - legend.height >= bottom:
            filled[i] = (*filled[i], (legend.block, (left, top)))
            return filled
    return [*filled, ((legend.block, (columns[0][0], columns[0][3])),)]


def _views(drawn: Sequence[Drawn], blocks: Iterable[tuple[Block, Point]]) -> tuple[InView, ...]:
    """What the blocks of a sheet show, in their places."""
    views = {d.block: d.view for d in drawn}
    return tuple(views[block].moved(*at) for block, at in blocks)


def draw(job: Job, cut: Cut, number: int, width: float) -> Drawn:
    """One detail, its upper left corner at (0, 0), in a column of that width."""
    shown = seen(job, cut)
    said = base_said(shown) if cut.kind == "base" else joint_said(shown)
    patches = (*masonry_patches(shown), *said.patches)
    scale = scale_of(cut, job.room.choices.paper_units)
    rows = {axis: sum(s.axis == axis for s in said.sizes) for axis in ("x", "y")}
    left = 2.0 + LINE * rows["y"]
    top = -HEAD - LINE * rows["x"]
    high = (cut.window[3] - cut.window[1]) * scale.factor
    wide = (cut.window[2] - cut.window[0]) * scale.factor
    view = View(scale.factor, (left, top - high), (cut.window[0], cut.window[1]))
    notes = [Note(view.point(n.at), n.text) for n in (*said.notes, *masonry_notes(shown))]
    start = left + wide + 5.0
    words = column(notes, start, width - start, top, top - high)
    below = top - max(high, column_height(notes, width - start)) - AFTER
    marks = (*_dimensions(job, said.sizes, view, cut), *words, *_head(number, said, scale))
    return Drawn(InView(view, detail_ink(shown, patches, view.scale), marks, patched=False), -below, scale)


def scale_of(cut: Cut, units: PaperUnits) -> Scale:
    """The largest standard scale, up to that of its kind, at which the window fits."""
    wide, high = cut.window[2] - cut.window[0], cut.window[3] - cut.window[1]
    most = LARGEST.get(cut.kind, 0.5)
    usual = [s for s in standard_scales(units) if s.factor <= most + 1e-9]
    fits = (s for s in usual if wide * s.factor <= VIEW[0] + 5.0 and high * s.factor <= VIEW[1])
    return next(fits, usual[-1])


def _head(number: int, said: Said, scale: Scale) -> tuple[Ink, ...]:
    return (
        Text((0.0, -4.0), f"{number}  {said.title}", 3.5, bold=True),
        Text((0.0, -8.2), f"scale {scale.text.lower()}", 2.5),
    )


def _dimensions(job: Job, sizes: Sequence[Size], view: View, cut: Cut) -> tuple[Ink, ...]:
    """Those along x above the view, those along y left of it, the shorter nearer to it."""
    dims: list[Dimension] = []
    counts = {"x": 0, "y": 0}
    for size in sorted(sizes, key=lambda s: (s.axis, s.mm, s.p)):
        counts[size.axis] += 1
        off = LINE * counts[size.axis] - 1.6
        line = view.y(cut.window[3]) + off if size.axis == "x" else view.x(cut.window[0]) - off
        text = halves(size.mm, job.room.choices.paper_units)
        dims.append(Dimension(view.point(size.p), view.point(size.q), size.axis, line, text, size.mm))
    return staggered(dims, CEILING)


def _legend(job: Job, cuts: Iterable[Cut], width: float) -> Drawn:
    """A square of each hatch that the details use, in two columns."""
    used: set[Material] = {material_of(job, c.frame, p) for c in cuts for p in job.sections[c.name].parts}
    used |= {"sealant", "mortar"}
    if any(c.kind == "wallboard" for c in cuts):
        used.add("wallboard")
    if job.room.base.tray:
        used.add("lining")
    note = (
        "Parts are cut through the solids of the model. Band and mortar are drawn thicker than they are; sealant, "
        "bands, screws, linings and wallboard are drawn from the numbers of the plan. The form of a tub, base or tray "
        "below its deck is for show."
    )
    title, told = heading("Hatching", width), prose(note, width)
    shown = [m for m in NAMES if m in used]
    half = (len(shown) + 1) // 2
    rows = [(m, (width / 2 * (i // half), -title.height - SWATCH * (i % half))) for i, m in enumerate(shown)]
    low = -title.height - SWATCH * half - 2.0
    names = (Text((x + 15.0, y - 2.9), NAMES[m], 2.5, "left", "middle") for m, (x, y) in rows)
    view = InView(
        View(1.0, (0.0, 0.0)),
        tuple(piece for m, at in rows for piece in _swatch(m, at)),
        (*title.ink, *names, *move(told.ink, 0.0, low)),
        patched=False,
    )
    return Drawn(view, told.height - low, standard_scales(job.room.choices.drawing_units)[0])


def _swatch(material: Material, at: Point) -> tuple[Piece, ...]:
    x, top = at
    ring = rectangle(x, top - 5.0, x + 12.0, top - 0.8)
    return (Hatch((ring,), PATTERNS[material]), Outline(ring, "visible"))
