"""Profiles: every number has a source; a user's folder adds and overrides, with every mistake named."""

from __future__ import annotations

import re
from dataclasses import fields
from pathlib import Path

import pytest

from generator.errors import InputError
from generator.model.profiles import Profile, Rule
from generator.reading import describe, load_catalogue
from generator.reading.catalogue import KINDS, shipped
from generator.units import INCH

CATALOGUE = load_catalogue()
RECORDS = [(kind, record) for kind in KINDS for record in getattr(CATALOGUE, kind).values()]
SPRUCE = "units: mm\nstuds:\n  spruce-60:\n    name: 60 mm spruce\n    source: measured\n    confidence: maker\n"
SPRUCE += "    material: wood\n    face: 60\n    depth: {value: 80, source: the yard, confidence: memory}\n"


def folder(tmp_path: Path, **files: str) -> Path:
    mine = tmp_path / "mine"
    mine.mkdir()
    for name, text in files.items():
        (mine / f"{name}.yaml").write_text(text, "utf-8")
    return mine


def complaints(mine: Path) -> list[str]:
    with pytest.raises(InputError) as caught:
        load_catalogue((mine,))
    return [str(problem) for problem in caught.value.problems]


@pytest.mark.parametrize(("kind", "record"), RECORDS, ids=[f"{kind}-{record.id}" for kind, record in RECORDS])
def test_every_record_says_where_its_numbers_come_from(kind: str, record: Profile | Rule) -> None:
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", record.id) or re.fullmatch(r"[a-z0-9x-]+", record.id)
    assert len(record.origin.source) > 5
    if record.origin.confidence == "practice":
        words = ("common practice", "computed", "geometry", "design of this program")
        assert any(word in record.origin.source for word in words)
    if record.origin.confidence == "memory":
        assert "memory" in record.origin.source
    if isinstance(record, Rule):
        assert record.statement.endswith(".")
        assert record.reason.endswith(".")
    assert kind in KINDS


def test_a_shipped_folder_holds_these_files_and_no_others() -> None:
    names = {path.name for path in shipped().iterdir() if path.is_file()}
    assert names == {f"{kind}.yaml" for kind in KINDS} | {"defaults.yaml"}


def test_what_the_issue_asks_for_is_there() -> None:
    thick = {board.thickness for board in CATALOGUE.boards.values()}
    assert len(thick) >= 3
    kinds = [flange.kind for flange in CATALOGUE.flanges.values()]
    assert (kinds.count("thin"), kinds.count("thick")) == (2, 2)
    assert {tray.order for tray in CATALOGUE.trays.values()} == {"boards_first", "tray_first"}
    assert {screw.support for screw in CATALOGUE.fasteners.values()} == {
        "wood",
        "light_steel",
        "heavy_steel",
        "masonry",
    }
    assert {"trim-5-round", "spout-2-round"} <= set(CATALOGUE.cutouts)
    assert {"irc", "ipc", "none"} == set(CATALOGUE.codes)
    assert {"letter", "a4", "tabloid", "a3"} <= set(CATALOGUE.papers)


def test_screws_bite_and_stay_out_of_the_pipe_zone() -> None:
    """Of every default screw with every board of its unit: bite of the rule, and at most 1-1/4 in beyond the board."""
    limits = {key: rule.limit for key, rule in CATALOGUE.rules.items()}
    for screw, board in (
        ("screw-wood-1-5-8", "foam-1-2"),
        ("screw-wood-40-mm", "foam-12-5-mm"),
        ("screw-wood-2", "foam-3-4"),
    ):
        beyond = CATALOGUE.fasteners[screw].length - CATALOGUE.boards[board].thickness
        assert limits["screw-bite-wood"] <= beyond <= limits["pipe-zone"] + 1e-9
    for screw in ("screw-sharp-1-1-4", "screw-drill-1-1-4"):
        beyond = CATALOGUE.fasteners[screw].length - CATALOGUE.boards["foam-1-2"].thickness
        assert limits["screw-bite-steel"] <= beyond <= limits["pipe-zone"]


def test_bands_cover_a_seam_to_either_side() -> None:
    for band in CATALOGUE.bands.values():
        assert band.width / 2 >= CATALOGUE.rules["band-cover"].limit
        assert band.patch_side >= 1.25 * INCH


def test_sections_are_read_as_drawn() -> None:
    thin, thick = CATALOGUE.flanges["thin-3-16"], CATALOGUE.flanges["thick-1-2"]
    assert (thin.top, thin.thickness) == pytest.approx((INCH, 3 / 16 * INCH))
    assert thick.thickness == CATALOGUE.boards["foam-1-2"].thickness
    assert thin.section[0] == (0.0, 0.0)


def test_units_of_limits() -> None:
    assert CATALOGUE.rules["support-spacing"].limit == pytest.approx(16 * INCH)
    assert CATALOGUE.rules["shower-area"].limit == pytest.approx(900 * INCH**2)
    assert CATALOGUE.rules["overlap"].limit == 0.1
    assert CATALOGUE.rules["rabbet-share"].limit == 0.5


def test_a_users_folder_adds_and_overrides(tmp_path: Path) -> None:
    pipe = (
        "units: in\npipes:\n  copper-1-2: {name: ours, source: callipers, confidence: maker, outside_diameter: 0.63, "
    )
    pipe += "material: copper, collar_diameter: 4}\n"
    mine = load_catalogue((folder(tmp_path, studs=SPRUCE, pipes=pipe),))
    assert mine.studs["spruce-60"].face == 60
    assert mine.studs["spruce-60"].origin.confidence == "maker"
    assert mine.studs["spruce-60"].origins["depth"].source == "the yard"
    assert mine.pipes["copper-1-2"].outside_diameter == pytest.approx(16.002)
    assert mine.pipes["copper-1-2"].origin.source == "callipers"
    assert set(CATALOGUE.studs) < set(mine.studs)
    assert load_catalogue() == CATALOGUE


def test_every_mistake_of_a_folder_is_named(tmp_path: Path) -> None:
    mine = folder(
        tmp_path,
        studs=SPRUCE.replace("    source: measured\n", "").replace("face: 60", "fase: 60"),
        boards="units: in\nbords: {}\n",
        pipes="- a\n",
        stud="units: in\n",
        rules="units: in\nrules:\n  fit: {statement: a., reason: b., limit: 1/8 furlong, unit: mm, sense: at_least, "
        "source: me, confidence: sure}\n",
        codes="units: in\ncodes:\n  ours: {name: ours, source: us, confidence: maker, rules: [finish-heigth]}\n",
        cutouts="units: in\ncutouts:\n  copper-1-2: {name: x, source: x, confidence: maker, diameter: 3, "
        "body_width: 1, body_height: 1, body_depth: 1, collar_diameter: 4}\n",
        papers="units: [in\n",
    )
    wanted = [
        "mine/boards.yaml:2: unknown key `bords`; did you mean `boards`?",
        "mine/boards.yaml: `boards` is missing",
        "mine/papers.yaml:2: not valid YAML",
        "mine/pipes.yaml: `units` and `pipes` are expected here, not a list",
        "mine/rules.yaml:3: confidence: `sure` is not one of the words known here",
        "mine/stud.yaml: is not a profile file; did you mean `studs.yaml`?",
        "mine/studs.yaml:3: `source` is missing: where the numbers come from",
        "mine/studs.yaml:7: unknown key `fase`; did you mean `face`?",
        "codes.yaml: `ours`: unknown rule `finish-heigth`; did you mean `finish-height`?",
        "cutouts.yaml: `copper-1-2` is a pipe too",
    ]
    found = complaints(mine)
    for words in wanted:
        assert any(text.startswith(words) for text in found), (words, found)
    assert any("furlong" in text for text in found)


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    (text,) = complaints(tmp_path / "nowhere")
    assert "is not a folder" in text


@pytest.mark.parametrize(
    ("kind", "record", "words"),
    [
        ("studs", "{material: steel, face: 1, depth: 1}", "says its `steel_mils`"),
        ("studs", "{material: wood, face: 0, depth: 1}", "next to nothing"),
        ("flanges", "{kind: thin, section: [[0, 0], [1, 1]]}", "three or more points"),
        ("flanges", "{kind: thin, section: [[0, 0], [1, 0], [2, 0]]}", "encloses no area"),
        ("flanges", "{kind: thin, section: [[0, 0], [1, 1], [1, 0], [0, 1]]}", "crosses itself"),
        ("flanges", "{kind: thin, section: [[1, 0], [2, 0], [2, 1]]}", "begins at its back"),
        ("cutouts", "{body_width: 1, body_height: 1, body_depth: 1, collar_diameter: 9}", "either a `diameter`"),
        ("boards", "{material: x, thickness: 1/2, density: 60, sheets: [{id: a, width: 60, height: 36}]}", "swap them"),
        ("boards", "{material: x, thickness: 1/2, density: 60, sheets: []}", "at least 1"),
        ("sealants", "{cartridge: 10 gallons}", "a volume such as 300 ml"),
        ("mortars", "{bag: 300 ml, waste: 2}", "a share from 0 to 1"),
    ],
)
def test_a_record_that_cannot_be(tmp_path: Path, kind: str, record: str, words: str) -> None:
    head = "name: x, source: made up, confidence: invented, "
    text = f"units: in\n{kind}:\n  x: {{{head}{record[1:]}\n"
    assert any(words in line for line in complaints(folder(tmp_path, **{kind: text})))


def test_the_description_shows_every_number_with_its_source() -> None:
    rows = describe(CATALOGUE, "in")
    assert len({(row.kind, row.id, row.field) for row in rows}) == len(rows)
    assert all(row.source and row.confidence for row in rows)
    by_key = {(row.kind, row.id, row.field): row for row in rows}
    assert by_key["studs", "wood-2x4", "face"].value == '1 1/2"'
    assert by_key["pipes", "brass-nps-1-2", "outside_diameter"].value == "0.84 in"
    assert by_key["pipes", "copper-15-mm", "outside_diameter"].value == "0.5906 in"
    assert by_key["pipes", "copper-1-2", "collar_diameter"].confidence == "invented"
    assert by_key["pipes", "copper-1-2", "outside_diameter"].confidence == "published"
    assert by_key["rules", "shower-area", "limit"].value == "900 in2"
    assert by_key["rules", "fit", "limit"].value == '1/8"'
    assert by_key["sealants", "sealant-300-ml", "cartridge"].value == "300 ml"
    metric = {(row.kind, row.id, row.field): row.value for row in describe(CATALOGUE, "mm")}
    assert metric["studs", "wood-38x89", "depth"] == "89 mm"
    assert metric["pipes", "copper-1-2", "outside_diameter"] == "15.875 mm"
    named = {(row.kind, row.id) for row in rows}
    assert named == {(field.name, key) for field in fields(CATALOGUE) for key in getattr(CATALOGUE, field.name)}


def test_every_rule_that_the_contract_names_is_there() -> None:
    """plan-contract.md: these limits are always in plan.json."""
    names = (
        "seam-on-axis bearing-seam-wood bearing-seam-steel bearing-edge support-spacing screw-spacing "
        "screw-edge-distance screw-side-distance screw-bite-wood screw-bite-steel pipe-clearance opening-margin "
        "band-cover band-lap flange-clearance rabbet-share deck-gap stagger"
    )
    assert set(names.split()) <= set(CATALOGUE.rules)
