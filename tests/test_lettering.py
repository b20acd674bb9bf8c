"""Writing beyond Latin-1: shown, found and measured by others as we say it is; refused where no typeface has it."""

from __future__ import annotations

import ctypes
import io
from dataclasses import replace
from pathlib import Path

import pypdf
import pypdfium2
import pypdfium2.raw as raw
import pytest
from fontTools.ttLib import TTFont

from generator.drafting.ink import Text
from generator.drafting.overlap import overlaps
from generator.drafting.page import Page, text_box
from generator.drawings.leaf import bound
from generator.drawings.title import title_leaves
from generator.errors import InputError
from generator.lettering import font_file, typeface, unwritable, written_width
from generator.reading import read_room
from generator.reading.fields import read_text
from generator.writers.pdf import pdf_bytes
from generator.writers.sheet_dxf import sheet_bytes
from generator.writers.svg import svg_bytes
from tests.drawings.set_job import set_job

POLISH, GREEK, RUSSIAN, PRIMES = "Łazienka górna, ściana północna", "Μπάνιο ορόφου", "Ванная комната", "5′-0 1/4″"
MM = 25.4 / 72
ROOMS = Path(__file__).parents[1] / "profiles" / "rooms"


def _page(*texts: Text) -> Page:
    return Page("1", "Ściana", 200.0, 100.0, "none", texts)


@pytest.mark.parametrize("words", [POLISH, GREEK, RUSSIAN, PRIMES])
def test_pypdf_and_pdfium_find_the_words(words: str) -> None:
    data = pdf_bytes((_page(Text((20, 50), words, 2.5), Text((20, 30), words, 3.5, bold=True)),))
    assert pypdf.PdfReader(io.BytesIO(data)).pages[0].extract_text().count(words) == 2
    assert pypdfium2.PdfDocument(data)[0].get_textpage().get_text_bounded().count(words) == 2


@pytest.mark.parametrize("words", [POLISH, GREEK, RUSSIAN, PRIMES, "Plain words"])
@pytest.mark.parametrize("bold", [False, True])
def test_the_box_that_overlaps_are_judged_by_is_where_pdfium_draws(words: str, bold: bool) -> None:
    """Letters of pdfium's own placing; a PDF has their widths in thousandths of an em, which adds up along a line."""
    text = Text((60.0, 50.0), words, 4.0, "centre", bold=bold)
    page = pypdfium2.PdfDocument(pdf_bytes((_page(text),)))[0].get_textpage()
    loose = [_loose(page, i) for i in range(page.count_chars())]
    corners = text_box(text)
    assert min(b[0] for b in loose) * MM == pytest.approx(corners[0][0], abs=0.25), "the stroke of a Ł leans out"
    assert max(b[2] for b in loose) * MM == pytest.approx(corners[1][0], abs=0.005 * len(words))
    tight = [page.get_charbox(i) for i in range(page.count_chars())]
    assert min(b[1] for b in tight) * MM >= corners[0][1] - 0.1


def _loose(page: pypdfium2.PdfTextPage, i: int) -> tuple[float, float, float, float]:
    """(left, bottom, right, top) of a letter with the space that it takes."""
    box = raw.FS_RECTF()
    raw.FPDFText_GetLooseCharBox(page.raw, i, ctypes.byref(box))
    return box.left, box.bottom, box.right, box.top


@pytest.mark.parametrize("bold", [False, True])
def test_widths_and_capitals_are_those_of_the_font_file(bold: bool) -> None:
    """As fontTools reads the file: advances added up, at a size that makes an H as high as asked for."""
    face = typeface(POLISH)
    font = TTFont(font_file(face.name(bold)))
    em, names = font["head"].unitsPerEm, font.getBestCmap()
    assert font["glyf"]["H"].yMax / em == pytest.approx(face.capital, abs=1e-3)
    assert -font["hhea"].descent / em == pytest.approx(face.descent, abs=1e-3)
    wanted = sum(font["hmtx"][names[ord(letter)]][0] for letter in POLISH) / em * 2.5 / face.capital
    assert written_width(POLISH, 2.5, bold) == pytest.approx(wanted, rel=1e-3)


def test_latin_1_stays_in_the_standard_font_and_nothing_is_embedded() -> None:
    data = pdf_bytes((_page(Text((20, 50), 'Großes Bad, 5 m², Ø 1/2", 30°', 2.5)),))
    fonts = pypdf.PdfReader(io.BytesIO(data)).pages[0]["/Resources"]["/Font"].values()  # type: ignore[index]
    assert all(f["/BaseFont"].startswith("/Helvetica") and "/FontDescriptor" not in f for f in fonts)


def test_a_title_sheet_in_three_alphabets_reads_well() -> None:
    job = set_job("letter", "mm")
    named = replace(job.room, name=GREEK, job=replace(job.room.job, title=POLISH, owner=RUSSIAN, number="№ 7"))
    (page,) = bound(replace(job, room=named), title_leaves(replace(job, room=named), ()))
    assert overlaps(page) == ()
    found = pypdfium2.PdfDocument(pdf_bytes((page,)))[0].get_textpage().get_text_bounded()
    assert all(word in found for word in (GREEK, RUSSIAN, "№ 7"))
    assert GREEK in svg_bytes(page).decode()
    assert page.sheet
    assert POLISH in sheet_bytes(page, page.sheet, "mm", "ncs").decode()


@pytest.mark.parametrize(
    ("title", "said"),
    [("浴室", "浴"), ("חדר", "right to left"), ("bath\u200broom", "U+200B"), ("x\u0323\u0331", "typeface")],
)
def test_what_no_typeface_has_is_refused_with_its_line(title: str, said: str, tmp_path: Path) -> None:
    lines = (ROOMS / "recess.yaml").read_text(encoding="utf-8").split("\n")
    (number,) = [i for i, line in enumerate(lines) if "title: Hall bath" in line]
    lines[number] = lines[number].replace("Hall bath", f'"{title}"')
    file = tmp_path / "room.yaml"
    file.write_text("\n".join(lines), encoding="utf-8")
    with pytest.raises(InputError) as caught:
        read_room(file)
    (problem,) = caught.value.problems
    assert problem.line == number + 1
    assert said in problem.message


def test_letters_and_accents_apart_are_read_as_one() -> None:
    assert unwritable("s\u0301ciana")
    assert read_text("s\u0301ciana") == "ściana"
