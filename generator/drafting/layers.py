"""Roles of ink: one table says the pen of each role, and its DXF layer under either layer standard.

Pens are drafted in the ISO 128-2 series of widths (0.13, 0.18, 0.25, 0.35, 0.5, 0.7 mm; from memory), of which a
practice may make others, and in shades of grey that survive a black-and-white printer. Layer names keep to the grammar
of the US National CAD Standard (discipline-major-minor; majors WALL and ANNO are in public use, the minors here are
this project's own) or of ISO 13567-2 (agent 2, element 6, presentation 2).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Literal

from generator.model.profiles import DRAFTED, WIDTHS, PracticeProfile

Role = Literal[
    "cut",
    "opening",
    "pocket",
    "mark",
    "datum",
    "sheet",
    "sawline",
    "outline",
    "visible",
    "light",
    "hidden",
    "centre",
    "board",
    "stud",
    "added",
    "base",
    "fitting",
    "screw",
    "band",
    "collar",
    "finding",
    "dimension",
    "text",
    "frame",
    "register",
    "note",
    "window",
]
Standard = Literal["ncs", "iso13567"]


@dataclass(frozen=True, slots=True)
class Pen:
    """Width in mm; grey 0 black to 1 white; `dash` lengths on, off, ... in mm, empty for a full line."""

    width: float
    grey: float = 0.0
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class _Layer:
    pen: Pen
    ncs: str
    iso13567: str
    colour: int = 7
    """AutoCAD colour index on screen, so that cut, opening and pocket differ at a glance."""
    line_type: str = "Continuous"
    """Name in DXF of the pen's dashes: the names that most readers know, LibreCAD by name alone."""


_TABLE: Mapping[Role, _Layer] = MappingProxyType(
    {
        "cut": _Layer(Pen(0.5), "A-WALL-MCUT", "X-WALCUTE-", 7),
        "opening": _Layer(Pen(0.5), "A-WALL-OPNG", "X-WALOPGE-", 1),
        "pocket": _Layer(Pen(0.35, 0.0, (3.0, 1.5)), "A-WALL-PCKT", "X-WALPKTE-", 5, "DASHED"),
        "mark": _Layer(Pen(0.25), "A-WALL-IDEN", "X-WALMRKT-", 3),
        "datum": _Layer(Pen(0.25), "A-ANNO-DATM", "X-WALDATE-", 4),
        "sheet": _Layer(Pen(0.7), "A-WALL-SHET", "X-WALSHTE-", 8),
        "sawline": _Layer(Pen(0.35, 0.0, (6.0, 1.5, 1.0, 1.5)), "A-WALL-SAWL", "X-WALSAWE-", 6, "DASHDOT"),
        "outline": _Layer(Pen(0.5), "A-WALL-OTLN", "X-WALOUTE-"),
        "visible": _Layer(Pen(0.25), "A-WALL-VISI", "X-WALVISE-"),
        "light": _Layer(Pen(0.13, 0.45), "A-WALL-PATT", "X-WALPATH-", 9),
        "hidden": _Layer(Pen(0.18, 0.2, (2.0, 1.0)), "A-WALL-HIDN", "X-WALHIDE-", 8, "HIDDEN2"),
        "centre": _Layer(Pen(0.18, 0.0, (6.0, 1.2, 1.0, 1.2)), "A-ANNO-CNTR", "X-WALCENE-", 7, "CENTER2"),
        "board": _Layer(Pen(0.5), "A-WALL-BORD", "X-WALBORE-"),
        "stud": _Layer(Pen(0.25, 0.25), "A-WALL-STUD", "X-WALSTUE-"),
        "added": _Layer(Pen(0.7), "A-WALL-STUD-N", "X-WALSTUE-N", 2),
        "base": _Layer(Pen(0.35), "P-FIXT-BASE", "X-FIXBASE-"),
        "fitting": _Layer(Pen(0.35), "P-FIXT-FITT", "X-FIXFITE-"),
        "screw": _Layer(Pen(0.18), "A-WALL-SCRW", "X-WALSCRE-"),
        "band": _Layer(Pen(0.25, 0.2), "A-WALL-MBND", "X-WALBNDE-"),
        "collar": _Layer(Pen(0.25, 0.0, (2.5, 1.5)), "A-WALL-COLR", "X-WALCOLE-", 7, "DASHED2"),
        "finding": _Layer(Pen(0.7), "A-ANNO-FIND", "X-ANNFNDE-", 1),
        "dimension": _Layer(Pen(0.18), "A-ANNO-DIMS", "X-ANNDIMD-"),
        "text": _Layer(Pen(0.18), "A-ANNO-TEXT", "X-ANNTXTT-"),
        "frame": _Layer(Pen(0.7), "A-ANNO-TTLB", "X-ANNTTLE-"),
        "register": _Layer(Pen(0.13), "A-ANNO-REGM", "X-ANNREGE-"),
        "note": _Layer(Pen(0.18), "A-ANNO-NOTE", "X-ANNNOTT-"),
        "window": _Layer(Pen(0.13), "A-ANNO-NPLT", "X-ANNNPTE-", 8),
    }
)


def pen(role: Role, practice: PracticeProfile | None = None) -> Pen:
    """The pen of a role, as wide as the practice wants; None: as drafted."""
    drafted = _TABLE[role].pen
    name = next(name for name in WIDTHS if DRAFTED[name] == drafted.width)
    return drafted if practice is None else replace(drafted, width=getattr(practice, name))


def layers(standard: Standard) -> Mapping[Role, str]:
    """DXF layer name of every role under a layer standard."""
    return {role: getattr(layer, standard) for role, layer in _TABLE.items()}


def deep_layer(role: Role, depth: float, standard: Standard) -> str:
    """The layer of what a machine takes out `depth` mm deep: its name ends with the depth in 1/100 mm, four digits.

    In an NCS name that is a second minor field, in an ISO 13567-2 name the optional sector (after an empty status).
    """
    return f"{layers(standard)[role]}-{round(depth * 100):04d}"


def line_types() -> Mapping[Role, str]:
    """DXF line type of every role."""
    return {role: layer.line_type for role, layer in _TABLE.items()}


def colours() -> Mapping[Role, int]:
    """AutoCAD colour index of every role."""
    return {role: layer.colour for role, layer in _TABLE.items()}
