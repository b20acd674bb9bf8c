"""What is different between two plans, and the table that says so."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from itertools import groupby

from generator.comparing.record import PLAN, Item, Items, Lengths, Record, Spot, Value, record_of
from generator.model.changes import DETAIL, Change
from generator.model.geometry import TOUCH
from generator.model.job import Job
from generator.units import Units, label, paper_step
from generator.writers.json import plan_json

NUMBERED = {"support": "kind", "sheet": "stock"}
"""Topics whose ids only count: one more in front renames all behind it, which is no change of them. Two of the same
number that differ in this are not one that changed, but one that went and another that came."""
SAME = "Nothing has changed."
_WHAT = 20


def changes(old: Record, new: Record) -> tuple[Change, ...]:
    """By topic, then by name; lengths in the units of the new plan. Differences below the touch tolerance are none."""
    told = tuple(one for topic in new.topics for one in _in_topic(topic, old, new))
    return (*told, *_details(old, new))


def _details(old: Record, new: Record) -> Iterator[Change]:
    """The parts of plan.json that are not the same, so that no difference goes unsaid."""
    names = sorted({*old.whole, *new.whole})
    differing = [name for name in names if old.whole.get(name) != new.whole.get(name)]
    if differing:
        yield Change(DETAIL, PLAN, "changed", f"differs in: {', '.join(differing)}")


def compared(job: Job, before: Record) -> Job:
    """The job of a build with what is different from an earlier one."""
    now = replace(record_of(json.loads(plan_json(job, (), {}))), units=job.room.choices.drawing_units)
    return replace(job, changes=changes(before, now))


def changes_table(found: tuple[Change, ...]) -> str:
    """The changes as text, a heading for each topic."""
    lines: list[str] = []
    for topic, group in groupby(found, key=lambda one: one.topic):
        lines += [topic.capitalize(), *(f"  {one.kind:<9}{one.name:<{_WHAT}}  {one.text}".rstrip() for one in group)]
    return "\n".join(lines or [SAME])


def _in_topic(topic: str, old: Record, new: Record) -> Iterator[Change]:
    before, after = old.topics[topic], new.topics[topic]
    if topic in NUMBERED:
        before, after = _without_same(before, after)
    for name in sorted({*before, *after}):
        gone, come = before.get(name), after.get(name)
        if gone and come and not _another(topic, gone, come):
            if text := _difference(gone, come, new.units):
                yield Change(topic, name, "changed", text)
            continue
        if gone:
            yield Change(topic, name, "removed", _said(gone, new.units))
        if come:
            yield Change(topic, name, "added", _said(come, new.units))


def _another(topic: str, gone: Item, come: Item) -> bool:
    key = NUMBERED.get(topic)
    return key is not None and gone[key] != come[key]


def _without_same(before: Items, after: Items) -> tuple[Items, Items]:
    """Each without the items that the other has too, whatever their id."""
    gone, come = dict(before), dict(after)
    for name, item in before.items():
        twin = next((other for other, one in come.items() if not _difference(item, one, "mm")), None)
        if twin is not None:
            del gone[name], come[twin]
    return gone, come


def _said(item: Item, units: Units) -> str:
    return "; ".join(f"{key} {_value(value, units)}" for key, value in item.items())


def _difference(before: Item, after: Item, units: Units) -> str:
    """Empty where they say the same."""
    parts = (_changed(key, before.get(key, ""), after.get(key, ""), units) for key in dict.fromkeys((*before, *after)))
    return "; ".join(part for part in parts if part)


def _changed(key: str, before: Value, after: Value, units: Units) -> str:
    if isinstance(before, Spot) and isinstance(after, Spot):
        return _moved(key, before, after, units)
    if isinstance(before, Lengths) and isinstance(after, Lengths) and _close(before, after):
        return ""
    return "" if before == after else f"{key} {_value(before, units)} -> {_value(after, units)}"


def _close(before: Lengths, after: Lengths) -> bool:
    return len(before.values) == len(after.values) and all(
        abs(a - b) <= TOUCH for a, b in zip(before.values, after.values, strict=True)
    )


def _moved(key: str, before: Spot, after: Spot, units: Units) -> str:
    """How far, as seen from inside the room."""
    across, up = after.at[0] - before.at[0], after.at[1] - before.at[1]
    steps = ((across, "right" if across > 0 else "left"), (up, "up" if up > 0 else "down"))
    words = " and ".join(f"{_length(abs(by), units)} {where}" for by, where in steps if abs(by) > TOUCH)
    return f"{key} moved {words}" if words else ""


def _value(value: Value, units: Units) -> str:
    if isinstance(value, Spot):
        return f"at {_length(value.at[0], units)}, {_length(value.at[1], units)} up"
    if isinstance(value, Lengths):
        return " x ".join(_length(one, units) for one in value.values)
    return value or "nothing"


def _length(mm: float, units: Units) -> str:
    """As paper says it; what paper would round to nothing, in full."""
    if 0 < abs(mm) < paper_step(units):
        return f"{mm:.2f} mm"
    return label(mm, units) if units == "in" else f"{label(mm, units)} mm"
