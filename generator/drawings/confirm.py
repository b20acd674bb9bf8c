"""What a person must confirm before cutting: open questions of the room, and numbers that no text stands behind."""

from __future__ import annotations

from dataclasses import dataclass

from generator.checks.rules import ACCESS_RULES, PLAN_RULES, SOLID_RULES
from generator.model.findings import judged
from generator.model.job import Job
from generator.model.profiles import Confidence, Origin, Profile, Rule
from generator.model.room import Room, Wall
from generator.units import PaperUnits, Units, decimals, either, label, label_opening

CONFIDENCE: dict[Confidence, str] = {
    "published": "published",
    "practice": "common practice, no source",
    "memory": "from memory",
    "maker": "maker's sheet to be confirmed",
    "invented": "demonstration data",
}
FINE = 2.0
"""mm: what is less is said to the tenth, or to 1/32 in: a flush face or the gauge of steel would round to double."""


@dataclass(frozen=True, slots=True)
class Open:
    """One value to confirm: what it is, the value that this set uses, and why it is open."""

    subject: str
    value: str
    why: str


def values_to_confirm(job: Job) -> tuple[Open, ...]:
    """Open questions of the room first, then its profiles; the limits of rules are a table of their own."""
    room = job.room
    return (
        *(o for w in room.chain for o in _wall_opens(w)),
        *_finish_opens(room),
        *_fitting_opens(room),
        *_profile_opens(room),
    )


def _wall_opens(wall: Wall) -> tuple[Open, ...]:
    if wall.masonry:
        why = "boards bonded to it hold no better than the face under the mortar"
        return (Open(f"{wall.id} wall, {wall.masonry.name}", "sound, clean, primed, flat", why),)
    if wall.duty != "unknown":
        return ()
    return (Open(f"{wall.id} wall", "duty unknown", "whether it bears load decides what may be cut or moved"),)


def _finish_opens(room: Room) -> tuple[Open, ...]:
    units = room.choices.paper_units
    tile, bed = room.finish.tile, room.finish.bed
    finish = (
        Open("tile and bed", "unknown", "the finished size of the shower cannot be judged")
        if tile is None or bed is None
        else Open("tile and bed", f"{label(tile, units)} and {label(bed, units)}", "as entered; measure the tile")
    )
    listing = Open(
        "listing of the board", "foam plastic", "approval and thermal barrier: the authority that inspects decides"
    )
    return (finish, listing)


def _fitting_opens(room: Room) -> tuple[Open, ...]:
    return tuple(
        Open(f"{f.name} on the {f.wall} wall", f.profile_id, "compare with the fitting itself before the hole is cut")
        for f in room.fittings
    )


def _used_profiles(room: Room) -> tuple[tuple[str, Profile], ...]:
    c = room.choices
    supports = [s.profile for w in room.walls for s in w.supports] + [c.added_stud[k] for k in sorted(c.added_stud)]
    used: list[tuple[str, Profile]] = [("board", s.board) for s in c.stocks]
    used += [("base", p) for p in (room.base.flange, room.base.tray) if p is not None]
    used += [("support", p) for p in supports]
    used += [("screw", c.screws[k]) for k in sorted(c.screws)]
    used += [("band", c.band), ("sealant", c.sealant), ("mortar", c.mortar), ("trowel", c.trowel)]
    return tuple({(kind, profile.id): (kind, profile) for kind, profile in used}.values())


def _profile_opens(room: Room) -> tuple[Open, ...]:
    rows = []
    for kind, profile in _used_profiles(room):
        for confidence, fields in _unpublished(profile):
            rows.append(Open(f"{kind}: {profile.name}", fields, CONFIDENCE[confidence]))
    return tuple(rows)


def _unpublished(profile: Profile) -> tuple[tuple[Confidence, str], ...]:
    """The profile's open origins: each confidence once, with the fields that it speaks of."""
    origins: dict[str, Origin] = {"all other numbers": profile.origin, **profile.origins}
    found: dict[Confidence, list[str]] = {}
    for field, origin in origins.items():
        if origin.confidence != "published":
            found.setdefault(origin.confidence, []).append(field.replace("_", " "))
    return tuple((c, ", ".join(f) if profile.origins else "all numbers") for c, f in found.items())


def open_limits(job: Job) -> tuple[Rule, ...]:
    """Rules whose limit no published text stands behind, in the order of the profiles: those that bear on this room.

    A rule that is checked bears on it where something was judged by it; one that is only planned by always does.
    """
    bearing = {f.rule for f in job.findings if judged(f)}
    idle = {rule for rule, *_ in (*PLAN_RULES, *ACCESS_RULES, *SOLID_RULES)} - bearing
    rules = job.room.rules.values()
    return tuple(r for r in rules if r.origin.confidence != "published" and r.id not in idle)


def limit_text(rule: Rule, units: PaperUnits) -> str:
    """The limit with its sense and unit, as paper says it."""
    sense = "at most" if rule.sense == "at_most" else "at least"
    return f"{sense} {measure_text(rule.limit, rule.unit, units)}"


def measure_text(value: float, unit: str, units: Units | PaperUnits) -> str:
    """A measured value or limit in its rule's unit; lengths and areas in the drawing's units, shares in per cent."""
    if unit == "mm":
        return label_opening(value, units) if 0.05 <= abs(value) < FINE else label(value, units)
    if unit == "mm2":
        metric = f"{value:.1f} mm²"
        return either(units, f"{value / 25.4**2:.0f} in²", metric) if value >= 1 else decimals(metric, units)
    if unit == "mm3":
        metric = f"{value:.1f} mm³"
        return either(units, f"{value / 25.4**3:.2f} in³", metric) if value >= 100 else decimals(metric, units)
    if unit == "deg":
        return decimals(f"{value:.1f}°", units)
    return decimals(f"{value:g}" if unit == "count" else f"{round(100 * value, 4):.3g} %", units)
