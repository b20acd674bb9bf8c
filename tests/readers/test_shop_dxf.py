"""Part and sheet files of every example room, read by GDAL and by ezdxf: whole, closed, nothing twice, nothing tiny.

What is compared with comes from the plan and from shapely, not from the code that draws the files.
"""

from __future__ import annotations

import io
import math
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import ezdxf
import pyogrio.raw
import pytest
import shapely

from generator.drafting.layers import layers
from generator.drawings.parts import FlatDrawing, part_drawings
from generator.drawings.sheet_files import sheet_drawings
from generator.model.choices import Shop
from generator.model.job import Job
from generator.writers.dxf import dxf_bytes
from tests.example_rooms import planned

ROOMS = sorted((Path(__file__).parent.parent.parent / "profiles" / "rooms").glob("*.yaml"))
GRAMMAR = {
    "ncs": re.compile(r"^[A-Z]{1,2}-[A-Z0-9]{4}(-[A-Z0-9]{4}){0,2}(-[A-Z0-9])?$"),
    "iso13567": re.compile(r"^[A-Z]-[A-Z0-9-]{6}[-ETHD]-(-[0-9]{4})?$"),
}
"""Names of layers as facts.md has them: agent 2, element 6, presentation 2, then status 1 and sector 4."""
SHORTEST = 0.005
"""mm: no piece of a cut is shorter."""
UNIT = {"in": 25.4, "mm": 1.0}


@cache
def _job(path: Path) -> Job:
    return Job(*planned(path.stem), (), frozenset(), {}, {})


def _in_shop(job: Job) -> Job:
    """As a router would have it: way of the cutter's middle, corners relieved."""
    shop = Shop(job.room.choices.kerf, "outside", True)
    return replace(job, room=replace(job.room, choices=replace(job.room.choices, shop=shop)))


def _bytes(job: Job, drawing: FlatDrawing) -> bytes:
    return dxf_bytes(drawing.ink, job.room.choices.drawing_units, job.room.choices.layer_standard)


def _files(job: Job) -> Iterator[tuple[FlatDrawing, bytes]]:
    for drawing in (*part_drawings(job), *sheet_drawings(job), *sheet_drawings(_in_shop(job))):
        yield drawing, _bytes(job, drawing)


def _gdal(data: bytes) -> list[tuple[str, Any]]:
    """(layer, geometry) of all that GDAL reads."""
    meta, _, shapes, fields = pyogrio.raw.read(io.BytesIO(data))
    names = fields[list(meta["fields"]).index("Layer")]
    return list(zip(names, shapely.from_wkb(shapes), strict=True))


def _key(entity: Any) -> tuple[Any, ...]:
    """What makes two entities the same: kind, layer, geometry; a line is the same from either end."""
    kind, where = entity.dxftype(), entity.dxf
    if kind == "LINE":
        return kind, where.layer, frozenset((tuple(where.start), tuple(where.end)))
    if kind == "LWPOLYLINE":
        return kind, where.layer, frozenset(entity.get_points("xy"))
    if kind == "CIRCLE":
        return kind, where.layer, tuple(where.center), where.radius
    return kind, where.layer, tuple(where.insert), where.text


def _pieces(entity: Any) -> list[float]:
    """Lengths of the straight pieces, or the girth of a circle."""
    if entity.dxftype() == "LINE":
        return [(entity.dxf.end - entity.dxf.start).magnitude]
    if entity.dxftype() == "CIRCLE":
        return [2 * math.pi * entity.dxf.radius]
    if entity.dxftype() == "LWPOLYLINE":
        points = list(entity.get_points("xy"))
        return [math.dist(p, q) for p, q in zip(points, (*points[1:], points[0]), strict=True)]
    return []


@pytest.mark.parametrize("path", ROOMS, ids=lambda p: p.stem)
def test_files_are_whole_closed_and_without_doubles(path: Path) -> None:
    job = _job(path)
    unit, standard = UNIT[job.room.choices.drawing_units], job.room.choices.layer_standard
    for drawing, data in _files(job):
        document = ezdxf.read(io.StringIO(data.decode("utf-8")))
        entities = list(document.modelspace())
        assert document.audit().errors == []
        assert {e.dxftype() for e in entities} <= {"LINE", "LWPOLYLINE", "CIRCLE", "TEXT"}
        assert all(GRAMMAR[standard].match(e.dxf.layer) for e in entities), drawing.name
        polylines = [e for e in entities if e.dxftype() == "LWPOLYLINE"]
        assert all(e.closed and not e.has_arc and len(e) >= 3 for e in polylines)
        assert [key for key, n in Counter(map(_key, entities)).items() if n > 1] == []
        assert min(length for e in entities for length in _pieces(e)) * unit >= SHORTEST, drawing.name


@pytest.mark.parametrize("path", ROOMS, ids=lambda p: p.stem)
def test_gdal_reads_every_part_with_the_area_and_extent_of_its_board(path: Path) -> None:
    job = _job(path)
    unit, names = UNIT[job.room.choices.drawing_units], layers(job.room.choices.layer_standard)
    for drawing in part_drawings(job):
        board = job.plan.board(drawing.subject)
        found = _gdal(_bytes(job, drawing))
        (cut,) = [shape for layer, shape in found if layer == names["cut"]]
        want = shapely.Polygon(board.outline)
        assert cut.is_ring
        assert shapely.Polygon(cut).area * unit**2 == pytest.approx(want.area, abs=0.01)
        left, bottom, right, top = want.bounds
        assert [n * unit for n in cut.bounds] == pytest.approx([0, 0, right - left, top - bottom], abs=1e-5)
        pockets = sorted(shapely.Polygon(s).area * unit**2 for layer, s in found if layer == names["pocket"])
        assert pockets == pytest.approx(sorted(shapely.Polygon(r.ring).area for r in board.rabbets), abs=0.01)
        assert sum(layer == names["opening"] for layer, _ in found) == len(board.openings)


@pytest.mark.parametrize("path", ROOMS, ids=lambda p: p.stem)
def test_gdal_reads_every_board_once_on_its_sheet_and_pockets_by_depth(path: Path) -> None:
    job = _job(path)
    unit, names = UNIT[job.room.choices.drawing_units], layers(job.room.choices.layer_standard)
    for drawing in sheet_drawings(job):
        found = _gdal(_bytes(job, drawing))
        boards = [b for b in job.plan.boards if b.sheet_id == drawing.subject]
        cuts = [shapely.Polygon(shape) for layer, shape in found if layer == names["cut"]]
        wanted = sorted(shapely.Polygon(b.outline).area for b in boards)
        assert sorted(cut.area * unit**2 for cut in cuts) == pytest.approx(wanted, abs=0.01)
        assert drawing.mirrored == any(b.rabbets for b in boards)
        by_depth = Counter(layer[-4:] for layer, _ in found if layer.startswith(f"{names['pocket']}-"))
        assert by_depth == Counter(f"{round(r.depth * 100):04d}" for b in boards for r in b.rabbets)
        pockets = [shapely.Polygon(s) for layer, s in found if layer.startswith(f"{names['pocket']}-")]
        within = [pocket.intersection(cut).area * unit**2 for pocket in pockets for cut in cuts]
        shares = sorted(area for area in within if area > 0.1)
        assert shares == pytest.approx(sorted(shapely.Polygon(r.ring).area for b in boards for r in b.rabbets), abs=0.5)
