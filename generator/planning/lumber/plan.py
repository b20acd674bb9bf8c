"""The lumber list of a room: what to buy, and which piece is cut from which stick."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from math import dist, fsum

from generator.model.geometry import tidy
from generator.model.plan import Support
from generator.model.purchase import LumberCut, LumberStick, Proof
from generator.model.room import Room
from generator.planning.lumber.cutting import Cutting, cut_stock

SCOPE = "any number of sticks of the lengths in stock, straight cuts with the saw's kerf between two pieces"


def plan_lumber(room: Room, supports: Iterable[Support]) -> tuple[tuple[LumberStick, ...], Proof | None]:
    """Sticks with their cuts, numbered by profile and then longest first; no proof where nothing is added.

    A piece of lumber that two walls see is counted once.
    """
    added = sorted((s for s in supports if s.origin == "added" and s.same_as is None), key=_order)
    sticks: list[LumberStick] = []
    total, bound = 0.0, 0.0
    for profile, group in groupby(added, lambda s: s.profile_id):
        own = tuple(group)
        cutting = cut_stock([length_of(s) for s in own], _stocks(room, own), room.choices.kerf)
        total, bound = total + cutting.total, bound + cutting.bound
        sticks += _named(room, profile, cutting, own, len(sticks))
    if not sticks:
        return (), None
    total, bound = tidy(total), tidy(bound)
    return tuple(sticks), Proof("mm of lumber bought", total, bound, total <= bound + 1e-3, SCOPE)


def length_of(support: Support) -> float:
    """mm along its axis, from tip to tip: more than the axis of a piece whose ends are cut to a slope."""
    (u0, v0), (u1, v1) = support.axis
    whole = dist(*support.axis)
    along = [((u - u0) * (u1 - u0) + (v - v0) * (v1 - v0)) / whole for u, v in support.outline]
    return tidy(max(along) - min(along))


def _order(support: Support) -> tuple[str, float, str]:
    return support.profile_id, -length_of(support), support.id


def _stocks(room: Room, own: tuple[Support, ...]) -> tuple[float, ...]:
    """Lengths in stock; where nothing is known, every piece is bought cut to length."""
    return room.choices.lumber.get(own[0].profile_id, ()) or tuple(sorted({length_of(s) for s in own}))


def _named(room: Room, profile: str, cutting: Cutting, own: tuple[Support, ...], before: int) -> Iterator[LumberStick]:
    """The sticks with ids; equal pieces are handed out in the order of their ids."""
    waiting: dict[float, list[str]] = {}
    for support in own:
        waiting.setdefault(length_of(support), []).append(support.id)
    for number, (length, cuts) in enumerate(sorted(cutting.sticks, key=lambda s: (-s[0], s[1])), before + 1):
        made = tuple(LumberCut(waiting[cut].pop(0), cut) for cut in cuts)
        yield LumberStick(f"L-{number:02d}", profile, length, room.choices.kerf, made)


def rest_of(stick: LumberStick) -> float:
    """mm left over, the kerf of the last cut taken off where there is one."""
    used = fsum(cut.length for cut in stick.cuts) + (len(stick.cuts) - 1) * stick.kerf
    return max(0.0, tidy(stick.length - used - stick.kerf))
