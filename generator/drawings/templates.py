"""Full-size templates: one per cluster of openings, corners and notches for the front of a board, of nips and ends of
rabbets for its back.

A template is registered on the board's own edges where the pages that its targets need anyway reach them, else
on a plumb and a level line that are drawn on the board at the distances it prints.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import chain

from generator.drafting.clip import clip
from generator.drafting.ink import Ink, View
from generator.drafting.page import Page
from generator.drawings import template_sheet as sheet
from generator.drawings.sheet_files import from_behind
from generator.drawings.template_clusters import Group, clusters
from generator.drawings.template_drawing import drawing
from generator.drawings.template_plan import page_plan_ink, plan_words
from generator.drawings.template_registration import Registration, extent, ways
from generator.drawings.template_targets import Face, Target, corners, notches, whole, worked_from_behind
from generator.drawings.template_tiles import Grid, Tile, crop_marks, grid, joints, page_plan
from generator.drawings.template_words import names, words
from generator.model.geometry import rectangle
from generator.model.job import Job
from generator.model.plan import Board
from generator.model.profiles import PaperProfile

FACES: tuple[Face, Face] = ("front", "back")
MANY = 2
"""Pages that anybody can put together without a plan."""


@dataclass(frozen=True, slots=True)
class Template:
    """The templates of one face of a board on one paper, as one file. Of the back it is mirrored."""

    board: str
    face: Face
    paper: str
    pages: tuple[Page, ...]
    not_for_cutting: bool

    @property
    def name(self) -> str:
        """The file's name begins so."""
        return self.board if self.face == "front" else f"{self.board}-back"


@dataclass(frozen=True, slots=True)
class _Bench:
    """What lies on the bench: a board with the face up that its templates are for, and the paper for them."""

    job: Job
    board: Board
    """As seen from the face."""
    face: Face
    profile: PaperProfile


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
    """A file for every face of a board that has something to mark, in the order of the plan."""
    found = (_template(job, board, face, paper) for board in job.plan.boards for face in FACES)
    return tuple(template for template in found if template.pages)


def _template(job: Job, board: Board, face: Face, paper: PaperProfile) -> Template:
    bench = _Bench(job, board if face == "front" else from_behind(board), face, paper)
    fitted = cache(lambda group: _best(bench, group, "T99").pages)
    if face == "back":
        targets = worked_from_behind(job, board, job.plan.wall(board.wall))
    else:
        openings = (whole(job, opening) for opening in board.openings)
        parts = (_parts(job, target) if fitted((target,)) > 1 else (target,) for target in openings)
        targets = (*chain.from_iterable(parts), *notches(board, job.plan.wall(board.wall)))
    groups = clusters(targets, fitted, paper.roll)
    pages = chain.from_iterable(_cluster_pages(bench, group, f"T{i + 1}") for i, group in enumerate(groups))
    return Template(board.id, face, paper.id, tuple(pages), board.wall in job.failed)


def _parts(job: Job, target: Target) -> tuple[Target, ...]:
    """The corners of an opening with straight sides that no page holds; a round one stays whole."""
    return corners(job, target.opening) if target.opening and target.opening.ring else (target,)


def _best(bench: _Bench, group: Group, name: str) -> _Plot:
    """The fewest pages; then the most board edges to lay it on, the nearest of them; then paper upright."""
    plots = (plot for found in ways(bench.board, group) for plot in _plots(bench, group, name, found))
    return min(plots, key=lambda plot: (plot.pages, plot.lines, plot.spread, plot.paper.width > plot.paper.height))


def _plots(bench: _Bench, group: Group, name: str, found: tuple[Registration, Registration]) -> tuple[_Plot, ...]:
    """One cluster registered in one way, on the paper upright and lying."""
    texts, shown = words(bench.job, bench.board, group, found, name, bench.face), extent(group, found)
    papers = sheet.papers(bench.profile, texts, shown[3] - shown[1])
    return tuple(_Plot(group, paper, texts, _windows(group, paper, texts, shown), found) for paper in papers)


def _windows(group: Group, paper: sheet.Paper, texts: sheet.Words, shown: tuple[float, float, float, float]) -> Grid:
    left, bottom, right, top = sheet.window(paper, texts)
    return grid(shown, (right - left, top - bottom), [target.around for target in group])


def _cluster_pages(bench: _Bench, group: Group, name: str) -> tuple[Page, ...]:
    plot = _best(bench, group, name)
    full_size = drawing(bench.job, bench.board, group, plot.registration, plot.grid)
    title = f"{bench.board.id} {name} {bench.face}: {names(group)}"
    plan = (_plan_page(bench, plot, full_size, name, title),) if plot.pages > MANY else ()
    return (*plan, *(_page(plot, tile, full_size, name, title) for tile in plot.grid.tiles()))


def _plan_page(bench: _Bench, plot: _Plot, full_size: tuple[Ink, ...], name: str, title: str) -> Page:
    texts, paper = plan_words(bench.job, plot.words, plot.grid), plot.paper
    ink = (
        *sheet.header(paper, texts, name, plot.pages),
        *page_plan_ink(plot.grid, full_size, sheet.window(paper, texts)),
    )
    return Page(f"{name}-PLAN", f"{title}, page plan", paper.width, paper.height, "none", ink)


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
        boxes = tuple(rectangle(*target.around) for target in plot.group)
        ink = (*ink, *page_plan(plot.grid, tile, boxes, sheet.plan_frame(plot.paper, plot.words)))
    return Page(f"{name}-{tile.label}", title, plot.paper.width, plot.paper.height, "FULL SIZE", ink, bars)
