"""Full-size templates: one per cluster of openings, laid on the front face of its board.

A template is registered on the board's own edges where the page that the openings need anyway reaches them, else
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
from generator.drawings.template_clusters import bounds, clusters
from generator.drawings.template_drawing import drawing
from generator.drawings.template_registration import Registration, extent, register
from generator.drawings.template_tiles import Grid, Tile, count, crop_marks, grid, joints, page_plan
from generator.drawings.template_words import words
from generator.model.geometry import Point
from generator.model.job import Job
from generator.model.plan import Board, Opening
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

    paper: sheet.Paper
    words: sheet.Words
    grid: Grid
    registration: tuple[Registration, Registration]


def templates(job: Job, paper: PaperProfile) -> tuple[Template, ...]:
    """A file for every board with openings, in the order of the plan."""
    return tuple(
        Template(board.id, paper.id, _pages(job, board, paper), board.wall in job.failed)
        for board in job.plan.boards
        if board.openings
    )


def _pages(job: Job, board: Board, profile: PaperProfile) -> tuple[Page, ...]:
    groups = clusters(board.openings, lambda group: _page_count(job, board, group, profile))
    sets = (_cluster_pages(job, board, group, f"T{i + 1}", profile) for i, group in enumerate(groups))
    return tuple(chain.from_iterable(sets))


def _page_count(job: Job, board: Board, group: tuple[Opening, ...], profile: PaperProfile) -> int:
    """Pages that the openings of a cluster need, before anybody asks what to lay them on."""
    left, bottom, right, top = extent(group, ())
    sizes = (_window_size(job, board, group, paper) for paper in sheet.both_ways(profile))
    return min(count(right - left, wide) * count(top - bottom, high) for wide, high in sizes)


def _window_size(job: Job, board: Board, group: tuple[Opening, ...], paper: sheet.Paper) -> Point:
    """Size of the window with the longest words that this cluster can need (registered on two lines)."""
    left, bottom, right, top = sheet.window(paper, words(job, board, group, register(board, group, None), "T99"))
    return (right - left, top - bottom)


def _plot(job: Job, board: Board, group: tuple[Opening, ...], name: str, paper: sheet.Paper) -> _Plot:
    size = _window_size(job, board, group, paper)
    found = register(board, group, size)
    texts = words(job, board, group, found, name)
    left, bottom, right, top = sheet.window(paper, texts)
    boxes = [bounds((opening,)) for opening in group]
    return _Plot(paper, texts, grid(extent(group, found), (right - left, top - bottom), boxes), found)


def _rank(plot: _Plot) -> tuple[int, int]:
    """Fewest pages, then most board edges to lay the template on."""
    return (plot.grid.columns * plot.grid.rows, sum(1 for r in plot.registration if not r.is_edge))


def _cluster_pages(
    job: Job, board: Board, group: tuple[Opening, ...], name: str, profile: PaperProfile
) -> tuple[Page, ...]:
    plot = min((_plot(job, board, group, name, paper) for paper in sheet.both_ways(profile)), key=_rank)
    full_size = drawing(job, board, group, plot.registration, plot.grid)
    title = f"{board.id} {name}: {', '.join(o.fitting_id or o.feature_id or o.id for o in group)}"
    return tuple(_page(plot, tile, full_size, name, title, group) for tile in plot.grid.tiles())


def _page(
    plot: _Plot, tile: Tile, full_size: tuple[Ink, ...], name: str, title: str, group: tuple[Opening, ...]
) -> Page:
    frame = sheet.window(plot.paper, plot.words)
    tiles = plot.grid.columns * plot.grid.rows
    view = View(1.0, (frame[0], frame[1]), tile.corner)
    inside = view.place(clip((*full_size, *joints(plot.grid, tile)), tile.ring))
    foot, bars = sheet.footer(plot.paper)
    ink = (*crop_marks(frame), *inside, *sheet.header(plot.paper, plot.words, f"{name} {tile.label}", tiles), *foot)
    if tiles > 1:
        boxes = tuple(opening_box(o) for o in group)
        ink = (*ink, *page_plan(plot.grid, tile, boxes, sheet.plan_frame(plot.paper, plot.words)))
    return Page(f"{name}-{tile.label}", title, plot.paper.width, plot.paper.height, "FULL SIZE", ink, bars)
