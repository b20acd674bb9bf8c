"""Where the work can hurt, and where this plan ends: said on paper with the source of each line.

Values and sources: the project's fact table, section 10 (safety notes) and section 1 (codes).
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.drawings.said import weight_text
from generator.model.job import Job
from generator.model.room import Room

MEMORY = "from memory, no text found"
PRACTICE = "common practice, no source"

DISCLAIMER = (
    "This set is an aid. The local codes, the makers' instructions and the licensed plumbers, electricians and "
    "engineers decide; where they differ from this set, they are right."
)


@dataclass(frozen=True, slots=True)
class Caution:
    """One line of advice, and where it comes from."""

    subject: str
    text: str
    source: str


def cautions(job: Job) -> tuple[Caution, ...]:
    """All cautions of the job: those of every job, with what this room adds to them."""
    bare = tuple(wall.id for wall in job.room.chain if wall.masonry)
    behind, work = (
        (*_behind_the_wall(job.room), *_masonry(bare)),
        (*_dust_and_skin(), *_handling(job), *_seats(job.room)),
    )
    return (*behind, *work, *_building(), *_order_of_work())


def _behind_the_wall(room: Room) -> tuple[Caution, ...]:
    bearing = ", ".join(f"{w.id}: {w.duty.replace('_', '-')}" for w in room.chain)
    return (
        Caution(
            "Services",
            "Find live wiring and pressurised water or gas pipes behind the wall before a screw goes in; isolate and "
            "verify. Put shield plates where a pipe or cable runs close behind the stud face.",
            "NEC 300.4; IRC P2603.2.1 (secondary text)",
        ),
        Caution(
            "Structure",
            "Do not cut, notch, bore or move a bearing stud beyond what the code allows; past that an engineer "
            f"decides. Duty of the walls as entered: {bearing}.",
            "IRC R602.6",
        ),
    )


def _masonry(walls: tuple[str, ...]) -> tuple[Caution, ...]:
    """What drilling into bare walls adds; nothing where there are none."""
    if not walls:
        return ()
    return (
        Caution(
            "Drilling masonry",
            f"Wall {', '.join(walls)}: drilling concrete, block or brick sets respirable silica free. Drill with dust "
            "extraction at the bit and wear a respirator; blow no holes out.",
            "29 CFR 1926.1153; the second sentence: " + PRACTICE,
        ),
        Caution(
            "In masonry",
            "Wires and pipes may be chased into the wall just under its face: find them before drilling. Plugs keep "
            "off the lines straight above and below fittings, which is no proof that nothing runs elsewhere.",
            PRACTICE,
        ),
    )


def _dust_and_skin() -> tuple[Caution, ...]:
    return (
        Caution(
            "Silica dust",
            "Mixing mortar and sawing tile or cement products sets respirable silica free (limit 50, action level 25 "
            "micrograms per cubic metre, mean of 8 hours). Cut wet or with extraction; scoring and snapping makes "
            "little dust.",
            "29 CFR 1926.1153",
        ),
        Caution(
            "Lead",
            "Housing of before 1978: paid work that disturbs more than 6 square feet of painted surface in a room, or "
            "any demolition of it, needs a certified firm.",
            "40 CFR 745.83",
        ),
        Caution(
            "Asbestos",
            "In buildings of 1980 and before, thermal insulation, surfacing and resilient flooring are presumed to "
            "hold asbestos; a later year is no proof of its absence.",
            "29 CFR 1926.1101 (secondary text)",
        ),
        Caution(
            "Wet cement",
            "Thin-set mortar is caustic, and its burns may not hurt at first. Gloves and eye protection; rinse with "
            "clean water.",
            "OSHA 3351 (2008)",
        ),
    )


def _handling(job: Job) -> tuple[Caution, ...]:
    heaviest = max(job.plan.boards, key=lambda b: (b.weight_kg, b.id), default=None)
    units = job.room.choices.paper_units
    load = f" The heaviest board here is {heaviest.id}, {weight_text(heaviest.weight_kg, units)}." if heaviest else ""
    return (
        Caution(
            "Knives, eyes, lifting",
            "Cut away from the body, wear eye protection, and set boards above shoulder height with two people." + load,
            MEMORY,
        ),
        Caution(
            "Glass",
            "A window near the tub or shower needs safety glass when its lower edge is less than 60 in (1524 mm) above "
            "the surface one stands on.",
            "IRC R308.4.5",
        ),
    )


def _seats(room: Room) -> tuple[Caution, ...]:
    """What carries people; nothing where there is no bench and no deck."""
    seats = ", ".join(feature.id for feature in room.features if feature.kind in ("bench", "deck"))
    if not seats:
        return ()
    return (
        Caution(
            "Seats",
            f"{seats}: framing and ledgers carry people. Ledgers are screwed through the wall's boards into studs or "
            "blocking, not into the board alone: take structural screws as their maker says, fill the holes with "
            "sealant, and have the framing confirmed before it is boarded. On masonry anchors take their place.",
            PRACTICE,
        ),
    )


def _building() -> tuple[Caution, ...]:
    return (
        Caution(
            "Foam plastic",
            "Foam-core board is foam plastic: confirm its listing, its approval and the thermal barrier with the "
            "authority that inspects.",
            "IRC R316.3 to R316.6; IBC 2603.3, 2603.4",
        ),
        Caution(
            "Fire",
            "It does not replace the gypsum board of a fire-rated or party wall, nor the fireblocking behind a tub.",
            "IRC R302.11; the first half: " + PRACTICE,
        ),
        Caution(
            "Outside walls",
            "No vapour retarder behind a waterproof board.",
            "trade rule in secondary text; compare IRC R702.3.8",
        ),
    )


def _order_of_work() -> tuple[Caution, ...]:
    return (
        Caution(
            "Hold",
            "No board goes up before the rough plumbing is tested by the licensed trade, framing and plumbing are "
            "inspected, and the base is level, bedded and connected. Photograph the pipes with a tape in view.",
            PRACTICE,
        ),
        Caution("Base", "No board rests on the deck of the base, and no screw goes through its flange.", PRACTICE),
        Caution(
            "Proof",
            "Let sealant and mortar cure, then test the receptor for leaks and have it inspected before any tile.",
            PRACTICE,
        ),
        Caution(
            "Movement joints",
            "Tile meets at every inside corner and at the base with a movement joint, not with grout.",
            "TCNA EJ171",
        ),
    )
