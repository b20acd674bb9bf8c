"""Layer names against the grammars of the two standards, pens against the ISO series."""

import re

import pytest

from generator.drafting.layers import Standard, layers, pen

NCS = re.compile(r"[A-Z]{1,2}-[A-Z0-9]{4}(-[A-Z0-9]{4}){0,2}(-[A-Z0-9])?")
"""facts.md, section 7: discipline, major, up to two minors, status."""
ISO13567 = re.compile(r"[A-Z]-[A-Z0-9]{6}[-ETHD]-[A-Z0-9]?")
"""facts.md, section 7: agent 2, element 6, presentation 2 (E-, T-, H-, D-), optional status 1."""
ISO_WIDTHS = {0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0}


@pytest.mark.parametrize(("standard", "grammar"), [("ncs", NCS), ("iso13567", ISO13567)])
def test_names_keep_to_the_grammar_and_differ(standard: Standard, grammar: re.Pattern[str]) -> None:
    names = layers(standard)
    assert [name for name in names.values() if not grammar.fullmatch(name)] == []
    assert len(set(names.values())) == len(names)


def test_the_grammar_refuses_the_known_bad_name() -> None:
    assert NCS.fullmatch("A-WALL-FULL-N")
    assert not NCS.fullmatch("A-WALLS")


def test_pens_are_of_the_iso_series_and_print() -> None:
    for role in layers("ncs"):
        assert pen(role).width in ISO_WIDTHS
        assert pen(role).grey <= 0.5, f"{role} would vanish on a poor printer"
