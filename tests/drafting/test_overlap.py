"""`overlaps` must see what a reader would complain about, and only that."""

from generator.drafting.ink import Circle, Dimension, Ink, Line, Outline, Text
from generator.drafting.overlap import overlaps
from generator.drafting.page import Page
from generator.model.geometry import rectangle

WORD = Text((50, 50), "seventeen", 5)


def _page(*ink: Ink) -> Page:
    return Page("1", "", 200, 100, "", ink)


def test_a_clean_page_is_clean() -> None:
    frame = Outline(rectangle(10, 10, 190, 90), "frame")
    assert overlaps(_page(frame, WORD, Text((50, 60), "eighteen", 5))) == ()


def test_text_over_text_is_seen_at_any_angle() -> None:
    for angle in (0.0, 30.0, 90.0):
        assert len(overlaps(_page(WORD, Text((60, 48), "crossing", 5, angle=angle)))) == 1


def test_upright_text_beside_level_text_is_not_an_overlap() -> None:
    """Their axis-parallel boxes are apart, and so are two turned texts whose boxes only seem to meet."""
    a, b = Text((50, 50), "long diagonal words", 4, angle=45), Text((60, 50), "long diagonal words", 4, angle=45)
    assert overlaps(_page(a, b)) == ()


def test_lines_through_text_are_seen_unless_it_is_masked() -> None:
    line = Line((40, 52), (120, 52), "cut")
    assert len(overlaps(_page(line, WORD))) == 1
    masked = Text(WORD.at, WORD.text, 5, mask=True)
    assert overlaps(_page(line, masked)) == ()
    assert len(overlaps(_page(masked, line))) == 1, "a mask does not help against what is drawn later"


def test_a_fill_hides_what_is_under_it() -> None:
    line, patch = Line((40, 52), (120, 52), "cut"), Outline(rectangle(45, 40, 110, 65), "light", fill=1.0)
    assert overlaps(_page(line, patch, WORD)) == ()
    assert len(overlaps(_page(WORD, patch))) == 1


def test_circles_and_dimensions_count() -> None:
    assert len(overlaps(_page(Circle((55, 45), 8, "opening"), WORD))) == 1
    crossed = overlaps(_page(Dimension((30, 20), (120, 20), "x", 52, "90", 90), WORD))
    assert any("dimension" in text for text in crossed)


def test_ink_beyond_the_paper_is_seen() -> None:
    assert len(overlaps(_page(Text((190, 50), "too long for it", 5)))) == 1
    assert len(overlaps(_page(Line((0, 0), (0, 101), "cut")))) == 1
