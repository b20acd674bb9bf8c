"""Full-size templates: one per cluster of openings, laid on the front face of its board.

A template is registered on the board's own edges where the pages that the openings need anyway reach them, else
on a plumb and a level line that are drawn on the board at the distances it prints.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import chain

from generator.drafting.clip import clip
from generator.drafting.ink import Ink, View
from generator.drafting.page import Page
from generator.drawings import template_sheet as sheet
from generator.drawings.parts import opening_box
from generator.drawings.template_clusters import Group, bounds, clusters
from generator.drawings.template_drawing import drawing
from generator.drawings.template_registration import Registration, extent, ways
from generator.drawings.template_tiles import Grid, Tile, crop_marks, grid, joints, page_plan
from generator.drawings.template_words import words
from generator.model.job import Job
from generator.model.plan import Board
from generator.model.profiles import PaperProfile


@dataclass(frozen=True, slots=True)
class Template:
    """The templates of one board on one paper, as one file."""

    board: str
    paper: str
    pages: tuple[Page, ...]
    not_for_cutting: bool


@dataclass(frozen=True, slots=True)
class _Plot:
    """One cluster on one kind of paper: the windows, and what registers them."""

    group: Group
    paper: sheet.Paper
    words: sheet.Words
    grid: Grid
    registration: tuple[Registration, Registration]

    @property
    def pages(self) -> int:
        return self.grid.columns * self.grid.rows

    @property
    def lines(self) -> int:
        """How many of the two have to be drawn on the board."""
        return sum(not r.is_edge for r in self.registration)

    @property
    def spread(self) -> float:
        """Half the border of what the pages must show, in mm: less, the nearer the edges are."""
        left, bottom, right, top = extent(self.group, self.registration)
        return round(right - left + top - bottom, 6)


def templates(job: Job, paper: PaperProfile) -> tuple[Template, ...]:
    """A file for every board with openings, in the order of the plan."""
    return tuple(
        Template(board.id, paper.id, _pages(job, board, paper), board.wall in job.failed)
        for board in job.plan.boards
        if board.openings
    )


def _pages(job: Job, board: Board, profile: PaperProfile) -> tuple[Page, ...]:
    groups = clusters(board.openings, lambda group: _best(job, board, group, "T99", profile).pages)
    sets = (_cluster_pages(job, board, group, f"T{i + 1}", profile) for i, group in enumerate(groups))
    return tuple(chain.from_iterable(sets))


def _best(job: Job, board: Board, group: Group, name: str, profile: PaperProfile) -> _Plot:
    """The fewest pages; then the most board edges to lay it on, the nearest of them; then paper upright."""
    papers = sheet.both_ways(profile)
    plots = (_plot(job, board, group, name, paper, found) for paper in papers for found in ways(board, group))
    return min(plots, key=lambda plot: (plot.pages, plot.lines, plot.spread))


def _plot(
    job: Job, board: Board, group: Group, name: str, paper: sheet.Paper, found: tuple[Registration, Registration]
) -> _Plot:
    texts = words(job, board, group, found, name)
    left, bottom, right, top = sheet.window(paper, texts)
    boxes = [bounds((opening,)) for opening in group]
    return _Plot(group, paper, texts, grid(extent(group, found), (right - left, top - bottom), boxes), found)


def _cluster_pages(job: Job, board: Board, group: Group, name: str, profile: PaperProfile) -> tuple[Page, ...]:
    plot = _best(job, board, group, name, profile)
    full_size = drawing(job, board, group, plot.registration, plot.grid)
    title = f"{board.id} {name}: {', '.join(o.fitting_id or o.feature_id or o.id for o in group)}"
    return tuple(_page(plot, tile, full_size, name, title) for tile in plot.grid.tiles())


def _page(plot: _Plot, tile: Tile, full_size: tuple[Ink, ...], name: str, title: str) -> Page:
    frame = sheet.window(plot.paper, plot.words)
    view = View(1.0, (frame[0], frame[1]), tile.corner)
    inside = view.place(clip((*full_size, *joints(plot.grid, tile)), tile.ring))
    foot, bars = sheet.footer(plot.paper)
    ink = (
        *crop_marks(frame),
        *inside,
        *sheet.header(plot.paper, plot.words, f"{name} {tile.label}", plot.pages),
        *foot,
    )
    if plot.pages > 1:
        boxes = tuple(opening_box(o) for o in plot.group)
        ink = (*ink, *page_plan(plot.grid, tile, boxes, sheet.plan_frame(plot.paper, plot.words)))
    return Page(f"{name}-{tile.label}", title, plot.paper.width, plot.paper.height, "FULL SIZE", ink, bars)
