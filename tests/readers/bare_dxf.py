"""DXF files without what every program draws its own way, taken out group code by group code: no library."""

from __future__ import annotations

from collections.abc import Iterator

OWN_WAY = ("TEXT", "MTEXT", "DIMENSION", "HATCH", "ATTRIB", "ATTDEF", "VIEWPORT")
"""Writing and hatches, for which every program has its own letters and strokes; windows, which LibreCAD lacks."""
LARGE = {"1": ("40.0", "30.0"), "4": ("1200.0", "900.0")}
"""Width and height of a sheet of whole mm with room for all views, by $INSUNITS."""

PAPER = ("9", "$PLIMMAX")
"""Of the header: the sheet's upper right corner."""
Pair = tuple[str, str]


def bare(data: bytes, layouts: bool = False, large: bool = False) -> bytes:
    """The same file with full lines only, without what `OWN_WAY` lists; with layouts, and on a large sheet, if asked.

    LibreCAD counts a page in whole mm and stretches what is on it: by 1 in 2200 on tabloid paper, seen by measuring.
    """
    kept: list[Pair] = []
    section = ""
    for record in _records(data):
        if record[0] == ("0", "SECTION"):
            section = record[1][1]
        if _wanted(section, record, layouts):
            kept += _large(record) if large and PAPER in record else _full_lines(record)
    return "".join(f"{code}\n{value}\n" for code, value in kept).encode()


def _records(data: bytes) -> Iterator[list[Pair]]:
    """Pairs of group code and value, from one code 0 to the next."""
    lines = data.decode().splitlines()
    record: list[Pair] = []
    for code, value in zip(map(str.strip, lines[::2]), lines[1::2], strict=True):
        if code == "0" and record:
            yield record
            record = []
        record.append((code, value))
    yield record


def _wanted(section: str, record: list[Pair], layouts: bool) -> bool:
    if section not in ("ENTITIES", "BLOCKS"):
        return True
    on_layout = section == "ENTITIES" and ("67", "1") in record
    return record[0][1] not in OWN_WAY and (layouts or not on_layout)


def _full_lines(record: list[Pair]) -> list[Pair]:
    if record[0] != ("0", "LAYER"):
        return record
    return [(code, "Continuous" if code == "6" else value) for code, value in record]


def _large(header: list[Pair]) -> list[Pair]:
    at = header.index(PAPER)
    width, height = LARGE[header[header.index(("9", "$INSUNITS")) + 1][1].strip()]
    return [*header[: at + 1], ("10", width), ("20", height), *header[at + 3 :]]
