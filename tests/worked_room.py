"""The room of worked-room.md as the reader would hand it over, typed in by hand (stud moved to 12 1/2: it passes)."""

from __future__ import annotations

from generator.model import choices as ch
from generator.model import profiles as pr
from generator.model import room as rm
from generator.model.geometry import Point, Ring, rectangle
from generator.units import INCH

WIDTHS = {"left": 60.0, "back": 60.25, "right": 60.0}
"""Inches between framing; the end walls go on past the tub."""
BACK_STUDS = (0.75, 15.875, 31.0, 46.5, 59.5)
END_STUDS = (0.75, 12.5, 28.0, 32.75, 36.0)
END_STUDS_AS_FOUND = (0.75, 16.25, 28.0, 32.75, 36.0)
LIMITS: tuple[tuple[str, float, str, pr.Sense], ...] = (
    ("seam-on-axis", 1 / 8, "mm", "at_most"),
    ("bearing-seam-wood", 5 / 8, "mm", "at_least"),
    ("bearing-seam-steel", 1 / 2, "mm", "at_least"),
    ("bearing-edge", 1 / 2, "mm", "at_least"),
    ("support-spacing", 16, "mm", "at_most"),
    ("corner-backing", 1 / 2, "mm", "at_least"),
    ("screw-spacing", 12, "mm", "at_most"),
    ("screw-edge-distance", 3 / 4, "mm", "at_least"),
    ("screw-side-distance", 3 / 8, "mm", "at_least"),
    ("washer-gap", 0, "mm", "at_least"),
    ("screw-bite-wood", 3 / 4, "mm", "at_least"),
    ("screw-bite-steel", 3 / 8, "mm", "at_least"),
    ("plug-depth", 35 / 25.4, "mm", "at_least"),
    ("drill-point", 0.033, "mm", "at_least"),
    ("pipe-clearance", 1 / 4, "mm", "at_least"),
    ("opening-margin", 1, "mm", "at_least"),
    ("opening-stud-clearance", 1 / 8, "mm", "at_least"),
    ("collision-body", 0, "mm", "at_least"),
    ("collision-pipe", 0, "mm", "at_least"),
    ("band-cover", 2, "mm", "at_least"),
    ("band-lap", 2, "mm", "at_least"),
    ("flange-clearance", 1 / 8, "mm", "at_least"),
    ("rabbet-clearance", 1 / 16, "mm", "at_least"),
    ("rabbet-share", 0.5, "ratio", "at_most"),
    ("deck-gap", 1 / 4, "mm", "at_least"),
    ("leg-gap", 1 / 4, "mm", "at_least"),
    ("fit", 1 / 8, "mm", "at_least"),
    ("bed-gap", 1 / 8, "mm", "at_least"),
    ("thick-flush", 1 / 32, "mm", "at_most"),
    ("stagger", 6, "mm", "at_least"),
    ("least-rip", 4, "mm", "at_least"),
    ("collar-seam", 0, "mm", "at_least"),
    ("pipe-zone", 1.25, "mm", "at_most"),
    ("finish-height", 72, "mm", "at_least"),
    ("finish-height-drain", 70, "mm", "at_least"),
    ("shower-area", 900, "mm2", "at_least"),
    ("shower-side", 30, "mm", "at_least"),
    ("mortar-strip", 5, "mm", "at_least"),
    ("elbow-depth", 7 / 8, "mm", "at_most"),
)
ORIGIN = pr.Origin("worked by hand for the tests", "invented")


def mm(inches: float) -> float:
    return inches * INCH


def rect_in(left: float, bottom: float, right: float, top: float) -> Ring:
    """A rectangle given in inches, in mm."""
    return rectangle(mm(left), mm(bottom), mm(right), mm(top))


def mirrored(wall: str, across: float) -> float:
    """u in inches of a point measured from the back corner of an end wall."""
    return WIDTHS["left"] - across if wall == "left" else across


def _rule(key: str, limit: float, unit: str, sense: pr.Sense) -> pr.Rule:
    scale = {"mm": INCH, "mm2": INCH**2}.get(unit, 1.0)
    return pr.Rule(key, f"Limit {key}.", "Given in the worked room.", limit * scale, unit, sense, ORIGIN)


STUD = pr.StudProfile("wood-2x4", "wood stud 2x4", ORIGIN, {}, "wood", mm(1.5), mm(3.5), 0.0)
FOAM = pr.BoardProfile(
    "foam-1-2",
    "foam-core board 1/2 in",
    ORIGIN,
    {},
    "foam-core",
    mm(0.5),
    40.0,
    (pr.SheetSize("48x96", mm(48), mm(96)),),
    False,
)
FLANGE = pr.FlangeProfile("thin-3-16", "thin flange", ORIGIN, {}, "thin", rect_in(0, 0, 3 / 16, 1), mm(1), mm(3 / 16))
LETTER = pr.PaperProfile("letter", "Letter", ORIGIN, {}, mm(8.5), mm(11), mm(0.5))
TABLOID = pr.PaperProfile("tabloid", "Tabloid", ORIGIN, {}, mm(17), mm(11), mm(0.5))


def _screw(kind: str) -> pr.FastenerProfile:
    return pr.FastenerProfile(f"screw-{kind}", f"screw, {kind}", ORIGIN, {}, kind, mm(1.625), mm(1.25), 100)  # type: ignore[arg-type]


def _stud(wall: str, index: int, centre: float) -> rm.FoundSupport:
    u = mirrored(wall, centre)
    axis: tuple[Point, Point] = ((mm(u), 0.0), (mm(u), mm(96)))
    path = f"walls.{list(WIDTHS).index(wall)}.supports.studs.0.centres.{index}"
    return rm.FoundSupport(path, "stud", STUD, rect_in(u - 0.75, 0, u + 0.75, 96), axis)


def _wall(wall: str, studs: tuple[float, ...]) -> rm.Wall:
    reach = {"left": (24.0, 60.0), "back": (0.0, 60.25), "right": (0.0, 36.0)}[wall]
    beside: dict[str, tuple[rm.Beside, rm.Beside]] = {
        "left": ("wallboard", "corner"),
        "back": ("corner", "corner"),
        "right": ("corner", "wallboard"),
    }
    return rm.Wall(
        path=f"walls.{list(WIDTHS).index(wall)}",
        id=wall,
        outline=rect_in(0, 0, WIDTHS[wall], 96),
        reach=(mm(reach[0]), mm(reach[1])),
        top=mm(96),
        to_ceiling=True,
        ceiling="framing",
        duty="unknown",
        beside=beside[wall],
        supports=tuple(_stud(wall, i, c) for i, c in enumerate(studs)),
    )


def _side(index: int, wall: str, start: float, end: float) -> rm.BaseSide:
    deck = ((mm(start), mm(18.5)), (mm(end), mm(18.5)))
    return rm.BaseSide(f"base.sides.{index}", wall, mm(start), mm(end), deck, True)


def _base() -> rm.Base:
    sides = (_side(0, "left", 28.25, 60), _side(1, "back", 0, 60.25), _side(2, "right", 0, 31.75))
    seen = rect_in(0, 0, 60.25, 31.75)
    return rm.Base("base", "tub", "lapped", mm(60.25), mm(31.75), FLANGE, None, sides, None, None, "back", seen)


def _fitting(name: str, kind: str, up: float, diameter: float, profile: str) -> rm.Fitting:
    body = rm.Body(mm(4.5), mm(4.5), mm(3)) if kind == "valve" else None
    return rm.Fitting(
        path=f"fittings.{name}",
        id=name,
        name=name,
        wall="right",
        kind=kind,  # type: ignore[arg-type]
        centre=(mm(15.875), mm(up)),
        is_pipe=kind != "valve",
        diameter=mm(diameter),
        ring=(),
        body=body,
        collar_diameter=mm(8 if kind == "valve" else 4.5),
        steel=False,
        profile_id=profile,
    )


def _choices() -> ch.Choices:
    return ch.Choices(
        stocks=(ch.Stock("foam-1-2:48x96", FOAM, mm(48), mm(96), 60.0, None),),
        prices=ch.Prices(9.0, "USD"),
        screws={kind: _screw(kind) for kind in ("wood", "light_steel", "heavy_steel")},
        band=pr.BandProfile("band-5", "sealing band 5 in", ORIGIN, {}, mm(5), mm(12 * 32.8), mm(5)),
        sealant=pr.SealantProfile(
            "sealant-10", "sealant", ORIGIN, {}, 298.7, mm(0.5), mm(0.125), True, False, 0.1, mm(2160)
        ),
        mortar=pr.MortarProfile("thin-set-50", "thin-set", ORIGIN, {}, 17000.0, 0.1),
        trowel=pr.TrowelProfile("v-3-16", "V notch", ORIGIN, {}, "v", mm(3 / 16), mm(3 / 16), mm(1 / 16), 45.0),
        added_stud=dict.fromkeys(WIDTHS, STUD),
        kerf=mm(0.125),
        shop=ch.Shop(mm(0.25), "none", False),
        papers=(LETTER,),
        sheet_paper=TABLOID,
        label=pr.LabelProfile("plain", "plain", ORIGIN, {}, 95.0, 60.0, 0.4),
        drawing_units="in",
        layer_standard="ncs",
        in_van={},
    )


def worked_room(end_studs: tuple[float, ...] = END_STUDS) -> rm.Room:
    """The room of worked-room.md; with END_STUDS_AS_FOUND it is the one whose valve meets a stud."""
    walls = (_wall("left", END_STUDS), _wall("back", BACK_STUDS), _wall("right", end_studs))
    return rm.Room(
        name="worked recess",
        file="worked.yaml",
        sha256="0" * 64,
        job=rm.JobInfo("Hall bath", "", "R-001", "2026-11-24", "", "", "0"),
        units="in",
        datum="finished floor",
        floor_build_up=None,
        code=pr.CodeProfile("irc", "IRC", ORIGIN, {}, ("finish-height",)),
        base=_base(),
        walls=walls,
        corners=(
            rm.Corner("corners.0", "C-left-back", "left", "back", 90.0, "back"),
            rm.Corner("corners.1", "C-back-right", "back", "right", 90.0, "back"),
        ),
        fittings=(
            _fitting("arm", "arm", 78, 0.840, "brass-1-2"),
            _fitting("spout", "spout", 23, 0.625, "copper-1-2"),
            _fitting("valve", "valve", 28, 5, "trim-5-round"),
        ),
        finish=rm.Finish(None, None),
        choices=_choices(),
        rules={row[0]: _rule(*row) for row in LIMITS},
        entered={"base.width": "31 3/4", "base.length": "60 1/4"},
        lines={},
    )
