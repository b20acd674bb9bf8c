"""Cures carried out: the room with its framing changed as a cure says, and what the checks then find."""

from __future__ import annotations

from dataclasses import replace

from generator.checks import run_plan_checks
from generator.model.findings import Cure, Finding
from generator.model.geometry import area, canonical, rectangle
from generator.model.plan import Board, Plan
from generator.model.room import FoundSupport, Room, Wall
from generator.planning.boards import plan_fittings
from generator.planning.edges import plan_edges
from generator.planning.framing import plan_supports
from generator.planning.regions import plan_base, plan_corners, plan_walls
from generator.planning.supports import stud_heights
from tests.worked_plan import worked_plan

CURABLE = ("support-spacing", "corner-backing", "collision-body", "collision-pipe")


def framing_plan(room: Room) -> Plan:
    """The framing of a room as planned, with one board on each region: enough to judge the framing as found."""
    walls = plan_walls(room)
    supports = plan_supports(room, walls)
    boards = tuple(
        Board(f"B-{w.id}-{i}", w.id, "", 12.7, r.ring, (), (), "", (), area(r.ring))
        for w in walls
        for i, r in enumerate(w.wet_region)
    )
    boards = tuple(sorted(boards, key=lambda b: b.id))
    return replace(
        worked_plan(),
        walls=walls,
        corners=plan_corners(room),
        base=plan_base(room),
        supports=supports,
        boards=boards,
        edges=plan_edges(room, walls, (), boards, supports),
        fittings=plan_fittings(room),
        fasteners=(),
        bands=(),
        sheets=(),
    )


def found_fails(room: Room) -> list[Finding]:
    """What fails in the framing as found."""
    findings = run_plan_checks(room, framing_plan(room), solids_follow=True)
    return [f for f in findings if f.phase == "found" and f.verdict == "fail" and f.rule in CURABLE]


def replay(room: Room, cure: Cure) -> Room:
    """The room after the carpenter has done what the cure says."""
    return replace(room, walls=tuple(_cured(room, w, cure) if w.id == cure.wall else w for w in room.walls))


def _cured(room: Room, wall: Wall, cure: Cure) -> Wall:
    if cure.kind == "move_support":
        return replace(wall, supports=tuple(_moved(s, cure) for s in wall.supports))
    added = (_stud(room, wall, u, i) for i, u in enumerate((cure.to, *cure.also)))
    return replace(wall, supports=(*wall.supports, *added))


def _moved(support: FoundSupport, cure: Cure) -> FoundSupport:
    if support.path != cure.room_path:
        return support
    shift = cure.to - support.axis[0][0]
    (u0, v0), (u1, v1) = support.axis
    ring = canonical((u + shift, v) for u, v in support.outline)
    return replace(support, outline=ring, axis=((u0 + shift, v0), (u1 + shift, v1)))


def _stud(room: Room, wall: Wall, u: float, index: int) -> FoundSupport:
    profile = room.choices.added_stud[wall.id]
    low, high = stud_heights(wall, (u - profile.face / 2, u + profile.face / 2))
    ring = rectangle(u - profile.face / 2, low, u + profile.face / 2, high)
    path = f"{wall.path}.supports.cured.{len(wall.supports) + index}"
    return FoundSupport(path, "stud", profile, ring, ((u, low), (u, high)))
