"""Part files read back by GDAL's DXF driver and by a reader of bare group codes, against the plan's own numbers."""

from __future__ import annotations

import math
from pathlib import Path

import ezdxf
import pyogrio.raw
import pytest
import shapely

from generator.drafting.layers import Standard, layers
from generator.drawings.parts import part_drawings
from generator.drawings.sheet_files import sheet_drawings
from generator.model.geometry import area, box
from generator.model.plan import Board
from generator.units import Units
from generator.writers.dxf import dxf_bytes
from tests.drawings.worked_job import worked_job
from tests.readers.dxf_groups import Entity, header, section

INCH = 25.4
BOTH = [("in", "ncs", 1, INCH), ("mm", "iso13567", 4, 1.0)]
MM2 = 1e-6


def _files(units: Units, standard: Standard, *failed: str) -> dict[str, bytes]:
    return {p.subject: dxf_bytes(p.ink, units, standard) for p in part_drawings(worked_job(*failed))}


def _board(mark: str) -> Board:
    return worked_job().plan.board(mark)


def _on(data: bytes, layer: str) -> list[Entity]:
    return [e for e in section(data, "ENTITIES") if e.layer == layer]


@pytest.mark.parametrize(("units", "standard", "code", "unit"), BOTH)
def test_gdal_finds_one_closed_cut_of_exact_extents_and_area(
    units: Units, standard: Standard, code: int, unit: float, tmp_path: Path
) -> None:
    name = layers(standard)["cut"]
    for mark, data in _files(units, standard).items():
        path = tmp_path / f"{mark}.dxf"
        path.write_bytes(data)
        meta, _, shapes, fields = pyogrio.raw.read(path)
        layer = fields[list(meta["fields"]).index("Layer")]
        (cut,) = [s for s, at in zip(shapely.from_wkb(shapes), layer, strict=True) if at == name]
        outline = _board(mark).outline
        left, bottom, right, top = box(outline)
        assert cut.is_ring, mark
        assert cut.bounds == pytest.approx((0.0, 0.0, (right - left) / unit, (top - bottom) / unit), abs=1e-8)
        assert shapely.Polygon(cut).area == pytest.approx(area(outline) / unit**2, abs=MM2)
        assert header(data)["$INSUNITS"] == str(code)


def test_inch_files_carry_the_exact_inches_of_the_worked_table() -> None:
    """Right board: 5/8 to 36 wide, foot at 1/4, top 95-7/8, leg from 32; holes as entered."""
    data = _files("in", "ncs")["B-right-1"]
    (cut,) = _on(data, "A-WALL-MCUT")
    assert sorted(cut.points) == sorted([
        (0.0, 18.5), (31.375, 18.5), (31.375, 0.0), (35.375, 0.0), (35.375, 95.625), (0.0, 95.625),
    ])  # fmt: skip
    holes = {(e.number(10), e.number(20), e.number(40)) for e in _on(data, "A-WALL-OPNG")}
    assert holes == {(15.25, 22.75, 0.4375), (15.25, 27.75, 2.5), (15.25, 77.75, 0.545)}


@pytest.mark.parametrize(("units", "standard", "code", "unit"), BOTH)
def test_every_entity_is_where_the_contract_has_it(units: Units, standard: Standard, code: int, unit: float) -> None:
    names = layers(standard)
    for mark, data in _files(units, standard).items():
        board, entities = _board(mark), section(data, "ENTITIES")
        kinds = [(e.kind, e.layer) for e in entities]
        assert kinds.count(("LWPOLYLINE", names["cut"])) == 1
        assert len(_on(data, names["opening"])) == len(board.openings)
        assert len(_on(data, names["pocket"])) == len(board.rabbets)
        assert {layer for _, layer in kinds} <= {names[r] for r in ("cut", "opening", "pocket", "mark", "datum")}
        polylines = [e for e in entities if e.kind == "LWPOLYLINE"]
        assert all(e.values(70) == ["1"] and not e.values(42) for e in polylines), "closed, without bulges"
        assert all(e.values(67) in ([], ["0"]) for e in entities), "model space only"
        shapes = [(e.kind, e.layer, tuple(e.points), tuple(e.values(11)), tuple(e.values(21))) for e in entities]
        assert len(set(shapes)) == len(shapes), "no duplicates"
        assert code and unit


def test_pockets_lie_in_the_cut_and_openings_keep_off_its_border() -> None:
    for data in _files("in", "ncs").values():
        cut = shapely.Polygon(_on(data, "A-WALL-MCUT")[0].points)
        assert all(cut.covers(shapely.Polygon(e.points)) for e in _on(data, "A-WALL-PCKT"))
        for e in _on(data, "A-WALL-OPNG"):
            assert cut.exterior.distance(shapely.Point(e.number(10), e.number(20))) >= e.number(40) + 1


def test_a_circle_is_one_circle() -> None:
    (valve, *_) = sorted(_on(_files("mm", "ncs")["B-right-1"], "A-WALL-OPNG"), key=lambda e: -e.number(40))
    assert valve.kind == "CIRCLE"
    assert math.isclose(valve.number(40), 63.5)


def test_only_files_of_a_failed_wall_say_not_for_cutting() -> None:
    for mark, data in _files("in", "ncs", "left").items():
        texts = [e.values(1)[0] for e in _on(data, "A-WALL-IDEN") if e.kind == "TEXT"]
        assert mark in texts
        assert any(t.startswith("NOT FOR CUTTING") for t in texts) == mark.startswith("B-left")


@pytest.mark.parametrize(("units", "standard", "code", "unit"), BOTH)
def test_the_audit_finds_nothing(units: Units, standard: Standard, code: int, unit: float, tmp_path: Path) -> None:
    drawings = (*part_drawings(worked_job("back")), *sheet_drawings(worked_job("back")))
    for drawing in drawings:
        path = tmp_path / f"{drawing.subject}.dxf"
        path.write_bytes(dxf_bytes(drawing.ink, units, standard))
        document = ezdxf.readfile(path)
        assert document.audit().errors == []
        assert document.units == code
        assert document.dxfversion == "AC1024", "R2010"
        assert {la.dxf.name for la in document.layers} >= {e.dxf.layer for e in document.modelspace()}
        assert unit


def test_boards_on_a_sheet_keep_the_kerf_between_them() -> None:
    """SH-03 holds two boards of the left wall, one above the other, 1/8 apart."""
    (data,) = (dxf_bytes(s.ink, "in", "ncs") for s in sheet_drawings(worked_job()) if s.subject == "SH-03")
    lower, upper = sorted((shapely.Polygon(e.points) for e in _on(data, "A-WALL-MCUT")), key=lambda p: p.bounds[1])
    assert lower.distance(upper) == pytest.approx(0.125)
    (sheet,) = _on(data, "A-WALL-SHET")
    assert shapely.Polygon(sheet.points).bounds == (0.0, 0.0, 48.0, 96.0)
    saw = [shapely.LineString([e.points[0], (e.number(11), e.number(21))]) for e in _on(data, "A-WALL-SAWL")]
    assert len(saw) == 3
    assert all(line.distance(part) >= 0.0625 - 1e-9 for line in saw for part in (lower, upper))
