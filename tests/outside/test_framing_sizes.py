"""Framing, paper, volumes and rules against the published values of facts.md; units by `pint`."""

from __future__ import annotations

import pytest
from pint import UnitRegistry

from generator.reading import load_catalogue
from generator.units import INCH, parse_length

UNITS: UnitRegistry[float] = UnitRegistry()
CATALOGUE = load_catalogue()


def mm(inches: float) -> float:
    return float((inches * UNITS.inch).to(UNITS.mm).magnitude)


@pytest.mark.parametrize(
    ("stud", "face", "depth"),
    [
        ("wood-2x2", 1.5, 1.5),
        ("wood-2x3", 1.5, 2.5),
        ("wood-2x4", 1.5, 3.5),
        ("wood-2x6", 1.5, 5.5),
        ("wood-2x8", 1.5, 7.25),
        ("wood-4x4", 3.5, 3.5),
        ("steel-250s125-18", 1.25, 2.5),
        ("steel-362s125-18", 1.25, 3.625),
        ("steel-362s125-30", 1.25, 3.625),
        ("steel-600s125-33", 1.25, 6.0),
    ],
)
def test_studs_are_as_wide_and_deep_as_published(stud: str, face: float, depth: float) -> None:
    """PS 20 (dry sizes) and ASTM C645; facts.md, section 6."""
    profile = CATALOGUE.studs[stud]
    assert profile.face == pytest.approx(mm(face))
    assert profile.depth == pytest.approx(mm(depth))


def test_steel_designations_say_web_flange_and_gauge() -> None:
    """facts.md: 362S125-18 is a 3.625 in web, S for stud, a 1.25 in flange, 18 mil (nominal 362 means 3-5/8)."""
    for stud in CATALOGUE.studs.values():
        if stud.material == "steel":
            web, rest = stud.id.removeprefix("steel-").split("s")
            flange, mils = rest.split("-")
            assert stud.depth == pytest.approx(mm(int(web) / 100), abs=mm(0.006))
            assert stud.face == pytest.approx(mm(int(flange) / 100))
            assert stud.steel_mils == int(mils)


@pytest.mark.parametrize(
    ("stud", "face", "depth"), [("wood-38x89", 38, 89), ("wood-38x140", 38, 140), ("wood-38x63", 38, 63)]
)
def test_metric_studs(stud: str, face: float, depth: float) -> None:
    """PS 20 metric equivalents; NHBC 6.3.9 for 38 x 63."""
    assert (CATALOGUE.studs[stud].face, CATALOGUE.studs[stud].depth) == (face, depth)


@pytest.mark.parametrize(
    ("paper", "size"),
    [
        ("letter", (215.9, 279.4)),
        ("tabloid", (431.8, 279.4)),
        ("ansi-c", (558.8, 431.8)),
        ("ansi-d", (863.6, 558.8)),
        ("arch-b", (457.2, 304.8)),
        ("arch-c", (609.6, 457.2)),
        ("arch-d", (914.4, 609.6)),
        ("a4", (210, 297)),
        ("a3", (420, 297)),
        ("a2", (594, 420)),
        ("a1", (841, 594)),
    ],
)
def test_papers(paper: str, size: tuple[float, float]) -> None:
    """facts.md, section 7."""
    assert (CATALOGUE.papers[paper].width, CATALOGUE.papers[paper].height) == pytest.approx(size)


def test_cartridges() -> None:
    """facts.md, section 8: 10.1 US fl oz = 298.7 ml = 18.227 in3; by pint."""
    ounces = (10.1 * UNITS.US_fluid_ounce).to(UNITS.ml).magnitude
    assert CATALOGUE.sealants["sealant-10-1-oz"].cartridge == pytest.approx(ounces)
    assert CATALOGUE.sealants["sealant-10-1-oz"].cartridge == pytest.approx(298.7, abs=0.05)
    assert CATALOGUE.sealants["sealant-300-ml"].cartridge == 300


@pytest.mark.parametrize(("mortar", "low", "high"), [("thinset-50-lb", 15.1, 18.9), ("thinset-25-lb", 7.55, 9.45)])
def test_bags_yield_what_is_published(mortar: str, low: float, high: float) -> None:
    """facts.md, section 8: a 50 lb bag yields 15.1 to 18.9 litres."""
    assert low <= CATALOGUE.mortars[mortar].bag / 1000 <= high


@pytest.mark.parametrize(
    ("trowel", "mean"),
    [("square-1-4", 0.125), ("square-1-4x3-8", 0.1875), ("square-1-2", 0.25), ("v-3-16", 0.0781), ("v-1-4", 0.0938)],
)
def test_notches_leave_the_published_bed(trowel: str, mean: float) -> None:
    """facts.md, section 8, mean bed at 90 degrees in inches: n h / (n + g) square, w h / (2 p) V."""
    notch = CATALOGUE.trowels[trowel]
    pitch = notch.width + notch.land
    area = notch.width * notch.height / (1 if notch.notch == "square" else 2)
    assert area / pitch == pytest.approx(mean * INCH, abs=0.00006 * INCH)


@pytest.mark.parametrize(
    ("rule", "text"),
    [
        ("finish-height", "72 in"),
        ("finish-height-drain", "70 in"),
        ("shower-side", "30 in"),
        ("pipe-zone", "1 1/4 in"),
        ("screw-spacing", "12 in"),
        ("support-spacing", "16 in"),
        ("deck-gap", "1/4 in"),
        ("band-cover", "2 in"),
        ("mortar-strip", "5 in"),
    ],
)
def test_limits_are_those_of_the_trade(rule: str, text: str) -> None:
    """facts.md, sections 1 and 4; domain.md for common practice."""
    assert CATALOGUE.rules[rule].limit == pytest.approx(parse_length(text, "in").mm)


def test_lengths_agree_with_pint() -> None:
    """Where pint reads a text as people do, both agree (it does not read fractions after a whole number)."""
    for text in ("5 ft", "60 in", "1530 mm", "153 cm", "1.53 m", "60.25 inch"):
        assert parse_length(text, "in").mm == pytest.approx(UNITS(text).to(UNITS.mm).magnitude)
