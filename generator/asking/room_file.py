"""Answers as the text of a room file: in the order of the schema, commented, every length as it was entered."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from typing import Any

from generator.asking.entries import Answers, Entry, answered, closed_up, entries, is_asked, tree
from generator.asking.questions import Form, Question
from generator.asking.schema_walk import in_order, meaning

_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ./_+()-]*")
_COMMENT_AT = 34
"""Column of comments, and the length of line from which they stand above it."""
_FLOW = re.compile(
    r"(place|floor|job|tile|walls\.\d+\.(boards|plumb|diagonals|partition|supports\.(plates|masonry))|base\.(gaps|returns))"
)
"""Groups that are written on one line in braces, as the example rooms do."""
_HEADS = {
    "base": "What stands on the floor.",
    "walls": "Left to right, as seen from inside the room. Widths between bare framing, heights from the floor.",
    "fittings": "across: from the end `from` of the wall to the middle; up: from the floor or the deck.",
    "corners": "Straight across between a mark on each wall; corners that are not listed are taken as 90 degrees.",
    "mounts": "Bars, seats, glass and doors, which blocking is planned for.",
    "niches": "Clear sizes between the boards.",
    "windows": "The openings in the framing.",
    "soffits": "Framed below the ceiling, before the walls are boarded.",
    "tile": "Over the boards.",
}
_ENDING = """
# The wall along the base is boarded first.
# Sheets that may be bought, with prices and what is in the van; profiles/defaults.yaml holds what is used now:
# choices:
#   sheets:
#     - {board: foam-1-2, size: 36x60, price: 41, have: 2}
#   allowances: {fit: 3/16}          # limits of this room, by the id of the rule; `boardwright explain fit`
"""


def room_text(form: Form, answers: Answers) -> str:
    """The room file. What was measured twice stands in its comments, with the boxes of the form."""
    found = entries(form, answers)
    writer = _Writer({entry.key: entry for entry in found}, _remarks(form, answers))
    head = [f"# A {form.title}, measured with the form `{form.kind}`; letters in brackets are its boxes."]
    head += [f"# {line}" for line in writer.remarks.get("", ())]
    body = writer.mapping(in_order(tree(found)), "", "")
    return "\n".join([*head, *body]) + "\n" + _ENDING


class _Writer:
    """Lines of YAML from a tree, with what is to be said of each key."""

    def __init__(self, by_key: Mapping[str, Entry], remarks: Mapping[str, tuple[str, ...]]) -> None:
        self.by_key = by_key
        self.remarks = remarks

    def mapping(self, data: Mapping[str, Any], path: str, indent: str) -> Iterator[str]:
        for key, value in data.items():
            here = f"{path}.{key}" if path else key
            if not path and key in _HEADS:
                yield from ("", f"# {_HEADS[key]}")
            if isinstance(value, dict) and not _FLOW.fullmatch(here):
                yield f"{indent}{key}:"
                yield from self.mapping(value, here, f"{indent}  ")
            elif isinstance(value, list) and value and isinstance(value[0], dict):
                yield f"{indent}{key}:"
                yield from self._items(value, here, f"{indent}  ")
            else:
                yield from self._lines(f"{key}: {_flow(value)}", here, value, indent)

    def _items(self, items: list[dict[str, Any]], path: str, indent: str) -> Iterator[str]:
        """Items of a list: short ones in braces, walls with a line for each key."""
        for i, item in enumerate(items):
            here = f"{path}.{i}"
            yield from (f"{indent}# {line}" for line in self.remarks.get(here, ()))
            if path == "walls":
                lines = list(self.mapping(item, here, f"{indent}  "))
                yield f"{indent}- {lines[0].strip()}"
                yield from lines[1:]
            else:
                yield from self._lines(f"- {_flow(item)}", here, item, indent)

    def _lines(self, text: str, path: str, value: Any, indent: str) -> Iterator[str]:
        """A line with its comment: what it means, and the boxes that it comes from; a long one says it above."""
        said, line = self._said(path, value), f"{indent}{text}"
        if said and len(line) > _COMMENT_AT:
            yield from (f"{indent}# {said}", line)
        else:
            yield f"{line:<{_COMMENT_AT}} # {said}" if said else line

    def _said(self, path: str, value: Any) -> str:
        entry = self.by_key.get(path)
        below = [entry] if entry else [one for key, one in self.by_key.items() if key.startswith(f"{path}.")]
        boxes = {question.box for one in below for question, _ in one.readings}
        listed = f"[{', '.join(sorted(boxes, key=_box_order))}]" if boxes else ""
        words = ["" if path.endswith(".name") else meaning(path), listed]
        if entry and len(entry.readings) > 1 and not isinstance(value, list):
            used = "smallest" if entry.readings[0][0].pick == "least" else "greatest"
            words.append(f"measured {', '.join(text for _, text in entry.readings)}; the {used} is used")
        return " ".join(word for word in words if word)


def _box_order(box: str) -> tuple[str, int]:
    return box[0], int(box[1:])


def _remarks(form: Form, answers: Answers) -> dict[str, tuple[str, ...]]:
    """What was answered and fills no key, by the part of the file that it belongs to."""
    found: dict[str, list[str]] = {}
    used = closed_up(tuple(q.about for q in form.questions if q.about and _counts(form, q, answers)))
    for question in form.questions:
        if not question.keys and _counts(form, question, answers):
            text = answered(question, answers)
            said = f"{text}, agrees" if text and question.twice else text or "not measured"
            found.setdefault(used.get(question.about, ""), []).append(f"[{question.box}] {question.prompt}: {said}")
    return {about: tuple(lines) for about, lines in found.items()}


def _counts(form: Form, question: Question, answers: Answers) -> bool:
    """A question that was put."""
    return question.box in answers and is_asked(form, question, answers)


def _flow(value: Any) -> str:
    """A value on one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_flow(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return f"[{', '.join(_flow(item) for item in value)}]"
    text = str(value)
    return text if _PLAIN.fullmatch(text) and text not in ("null", "~") else json.dumps(text, ensure_ascii=False)
