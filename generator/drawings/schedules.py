"""Lists of the set: take-off, cut list, findings, cautions, values to confirm."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import repeat

from generator.drawings.boards import size_text
from generator.drawings.cautions import DISCLAIMER, cautions
from generator.drawings.confirm import CONFIDENCE, limit_text, measure_text, open_limits, values_to_confirm
from generator.drawings.elevation import pages_of
from generator.drawings.flow import Block, Column, flow, gap, heading, prose, table
from generator.drawings.leaf import CONTINUED, Leaf, area
from generator.drawings.numbered import Numbered, numbered, told
from generator.drawings.said import weight_text
from generator.model.findings import Finding, judged
from generator.model.job import Job
from generator.model.plan import Board
from generator.model.purchase import Sheet, TakeoffRow
from generator.planning.takeoff.words import FLUID_OUNCE
from generator.units import PaperUnits, Units, decimals, either, label, label_size

SQUARE_FOOT = 304.8**2
"""mm2 in one square foot."""
COUNTED = ("pieces", "sheets")
"""PaperUnits of things that are counted one by one."""


def takeoff_leaves(job: Job) -> tuple[Leaf, ...]:
    """What the work consumes, with the arithmetic, in packages, less what is in the van."""
    units = job.room.choices.paper_units
    columns = (
        Column("Item", 46),
        Column("Arithmetic", 84),
        Column("Quantity", 24, "right"),
        Column("Package", 24, "right"),
        Column("Needed", 18, "right"),
        Column("In van", 16, "right"),
        Column("Buy", 14, "right"),
        Column("Left over", 26, "right"),
    )
    rows = [_takeoff_row(row, units) for row in job.plan.takeoff]
    notes = prose(
        "Needed, in van and buy are packages; left over is what remains of them after the work.", width_of(job)
    )
    return listed(job, "Take-off", "Take-off", (*table(columns, rows, width_of(job), "Take-off"), notes))


def _takeoff_row(row: TakeoffRow, units: PaperUnits) -> tuple[str, ...]:
    buy = max(0.0, row.packages - row.in_van)
    bought = buy if buy == int(buy) else int(buy) + 1
    left = (row.in_van + bought) * row.package_size - row.quantity
    terms = "; ".join(f"{t.label}: {_term(t.value, row.unit, units)}" for t in row.terms)
    return (
        row.item,
        terms,
        amount(row.quantity, row.unit, units),
        amount(row.package_size, row.unit, units),
        str(row.packages),
        f"{row.in_van:g}" if row.in_van else "",
        f"{bought:g}",
        amount(left, row.unit, units),
    )


def _term(value: float, unit: str, units: PaperUnits) -> str:
    """As `amount`; things that are counted go without their name, which the quantity has."""
    return f"{value:g}" if unit in COUNTED else amount(value, unit, units)


def amount(value: float, unit: str, units: Units | PaperUnits) -> str:
    """A quantity with its unit: in feet or metres, their squares, fluid ounces or whole millilitres, or as counted."""
    if unit == "mm":
        return either(units, f"{value / 304.8:.1f} ft", f"{value / 1000:.2f} m")
    if unit == "mm2":
        return either(units, f"{value / SQUARE_FOOT:.1f} sq ft", f"{value / 1e6:.2f} m²")
    if unit == "ml":
        return either(units, f"{value / FLUID_OUNCE:.1f} fl oz", f"{value:.0f} ml")
    number = f"{value:.0f}" if abs(value - round(value)) < 0.005 else f"{value:.1f}"
    return f"{decimals(number, units)} {unit.removesuffix('s') if number == '1' else unit}"


def cut_list_leaves(job: Job) -> tuple[Leaf, ...]:
    """Every board with its stock, sheet, size, cuts and weight; then every sheet with its boards."""
    width = width_of(job)
    boards = table(
        (
            Column("Board", 26),
            Column("Wall", 20),
            Column("Stock", 44),
            Column("Sheet", 18),
            Column("Width x height", 40),
            Column("Openings", 22, "right"),
            Column("Rabbets", 20, "right"),
            Column("Factory edges", 30, "right"),
            Column("Weight", 24, "right"),
        ),
        [_board_row(job, b) for b in job.plan.boards],
        width,
        "Boards",
    )
    sheets = table(
        (Column("Sheet", 20), Column("Stock", 50), Column("Size", 40), Column("Kerf", 20), Column("Boards", 110)),
        [_sheet_row(job, s) for s in job.plan.sheets],
        width,
        "Sheets",
    )
    return listed(job, "Cut list", "Cut list", (*boards, *sheets, _proof(job, width)))


def _board_row(job: Job, board: Board) -> tuple[str, ...]:
    units = job.room.choices.paper_units
    return (
        board.id,
        board.wall,
        board.stock_id,
        board.sheet_id,
        size_text(job, board),
        str(len(board.openings)),
        str(len(board.rabbets)),
        str(len(board.factory_edges)),
        weight_text(board.weight_kg, units),
    )


def _sheet_row(job: Job, sheet: Sheet) -> tuple[str, ...]:
    units = job.room.choices.paper_units
    size = label_size((sheet.width, sheet.height), units)
    return (sheet.id, sheet.stock_id, size, label(sheet.kerf, units), ", ".join(p.board_id for p in sheet.placements))


def _proof(job: Job, width: float) -> Block:
    proof = job.plan.proof
    state = "proven least" if proof.proven else "not proven least"
    least = proof.objective.replace("mm2 of", "area of")
    return prose(f"Purchase by {least}: {state} among the layouts compared. Compared: {proof.scope}.", width)


def findings_blocks(job: Job, width: float) -> tuple[Block, ...]:
    """What was judged and does not plainly pass, numbered as the flags are; what passes, rule by rule; the rest."""
    columns = (
        Column("No.", 12),
        Column("Verdict", 18),
        Column("Phase", 20),
        Column("Rule", 44),
        Column("Wall", 18),
        Column("Found, limit, cure", 126),
        Column("Line", 14, "right"),
    )
    rows = [_finding_row(job, n) for n in numbered(job) if judged(n.finding)]
    found = table(columns, rows, width, "Findings") if rows else (prose("No findings but passes.", width),)
    return (*found, *_held(job, width), *_idle(job, width))


def _finding_row(job: Job, shown: Numbered) -> tuple[str, ...]:
    f = shown.finding
    line = str(f.line) if f.line else ""
    return (str(shown.number), f.verdict, f.phase, f.rule, f.place.wall or "all", told(job, f), line)


def _idle(job: Job, width: float) -> tuple[Block, ...]:
    """Rules that found nothing to judge, with the reason, those of one reason together."""
    reasons: dict[str, list[str]] = {}
    for n in numbered(job):
        if not judged(n.finding):
            reasons.setdefault(told(job, n.finding).rstrip("."), []).append(n.finding.rule)
    if not reasons:
        return ()
    said = (f"{', '.join(dict.fromkeys(rules))}: {reason}" for reason, rules in reasons.items())
    return (heading("Rules that found nothing to judge", width), prose("; ".join(said) + ".", width))


def _held(job: Job, width: float) -> tuple[Block, ...]:
    """Rules that hold, each with how often it was measured and its least margin."""
    passes: dict[str, list[Finding]] = {}
    for f in job.findings:
        if f.verdict == "pass":
            passes.setdefault(f.rule, []).append(f)
    units = job.room.choices.paper_units
    rows = []
    for rule_id in sorted(passes):
        rule = job.room.rules.get(rule_id)
        margin = min((f.margin for f in passes[rule_id] if f.margin is not None), default=None)
        least = "" if margin is None or rule is None else measure_text(margin, rule.unit, units)
        limit = limit_text(rule, units) if rule else ""
        rows.append((rule_id, rule.statement if rule else "", limit, str(len(passes[rule_id])), least))
    columns = (
        Column("Rule", 44),
        Column("What must hold", 116),
        Column("Limit", 40),
        Column("Held", 16, "right"),
        Column("Least margin", 30, "right"),
    )
    return table(columns, rows, width, "Checks that hold") if rows else ()


def front_leaves(job: Job) -> tuple[Leaf, ...]:
    """What to read before the first cut: where the work can hurt, what the checks found, what is still open."""
    blocks = (*_cautions(job), gap(4.0), *findings_blocks(job, width_of(job)), gap(4.0), *_opens(job), *_limits(job))
    return listed(job, "Cautions", "Cautions, findings, values to confirm", blocks)


def _cautions(job: Job) -> tuple[Block, ...]:
    """Where the work can hurt."""
    width = width_of(job)
    columns = (Column("Caution", 34), Column("", 150), Column("Source", 66))
    rows = [(c.subject, c.text, c.source) for c in cautions(job)]
    return (heading("Cautions", width, 5.0), prose(DISCLAIMER, width, bold=True), *table(columns, rows, width))


def _opens(job: Job) -> tuple[Block, ...]:
    """What somebody must confirm before cutting."""
    columns = (Column("Value", 74), Column("Here", 88), Column("Why", 88))
    rows = [(o.subject, o.value, o.why) for o in values_to_confirm(job)]
    return table(columns, rows, width_of(job), "Values to confirm before cutting")


def _limits(job: Job) -> tuple[Block, ...]:
    """Limits that bear on this room and that no published text stands behind."""
    units = job.room.choices.paper_units
    columns = (
        Column("Rule", 46),
        Column("Limit here", 40),
        Column("What must hold", 92),
        Column("Where it comes from", 72),
    )
    rows = [
        (r.id, limit_text(r, units), r.statement, _whence(r.origin.confidence, r.origin.source))
        for r in open_limits(job)
    ]
    return table(columns, rows, width_of(job), "Limits that this room is judged by, without a published source")


def _whence(confidence: str, source: str) -> str:
    """What kind of knowledge it is and, after a colon, the source; the source alone where it says as much."""
    words = dict(CONFIDENCE)[confidence]  # type: ignore[index]
    if not source or any(part in source for part in _SAID):
        return source or words
    return f"{words}: {source}"


_SAID = ("no source", "from memory", "invented")
"""How a source says by itself that no text stands behind the limit."""


def width_of(job: Job) -> float:
    """mm: of a list that has a sheet to itself."""
    left, _, right, _ = area(job)
    return right - left


def listed(job: Job, kind: str, title: str, blocks: Iterable[Block]) -> tuple[Leaf, ...]:
    """Sheets of a list alone."""
    first, *rest = flow(tuple(blocks), repeat(area(job)))
    return (*pages_of(kind, title, (first,), 1), *pages_of(kind, f"{title}{CONTINUED}", tuple(rest), 1))
