"""A generated room through the whole plan: what came of it, in words that a count can be made of."""

from __future__ import annotations

import json
import re
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from generator.errors import CannotPlanError, InputError
from tests.properties.rooms import room_text
from tests.verifier.plain import Violation
from tests.verifier.plans import plan_bytes
from tests.verifier.run import unexplained


@dataclass(frozen=True, slots=True)
class Outcome:
    """`refused`: why there is no plan, "" when there is one; `verdict`: the worst of the plan's findings."""

    seed: int
    refused: str
    verdict: str
    violations: tuple[Violation, ...]


def try_room(seed: int, folder: Path) -> Outcome:
    """Room file to verified plan.json; only the refusals that are meant for people are caught."""
    file = folder / f"room-{seed}.yaml"
    file.write_text(room_text(seed), "utf-8")
    try:
        plan = json.loads(plan_bytes(file))
    except InputError as error:
        return Outcome(seed, f"input: {' / '.join(p.message for p in error.problems)}", "", ())
    except CannotPlanError as error:
        return Outcome(seed, f"plan: {error}" if str(error) else "", "", ())
    verdicts = plan["verdicts"]
    return Outcome(seed, "", f"{verdicts['as_found']} / {verdicts['as_planned']}", tuple(unexplained(plan)))


def kinds_of_refusal(outcomes: list[Outcome]) -> Counter[str]:
    """How often each reason was given, numbers and names left out."""
    return Counter(re.sub(r"[\d./\"'-]+|\bw\d\b", "#", o.refused)[:90] for o in outcomes if o.refused)
