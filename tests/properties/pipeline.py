"""A generated room through the whole plan: what came of it, in words that a count can be made of."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from generator.errors import CannotPlanError, InputError
from tests.properties.kinds import kind_text
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
    kind: str = "as drawn"
    failing: frozenset[str] = frozenset()
    """Rules that the plan breaks for all that it adds."""

    @property
    def wrong(self) -> list[str]:
        """What the verifier says that no finding of the plan admits."""
        return [f"{self.kind} {self.seed}: {v.code}: {v.message}" for v in self.violations]


def try_room(seed: int, folder: Path, kind: str = "") -> Outcome:
    """Room file to verified plan.json; only the refusals that are meant for people are caught.

    Without a kind the bare rooms of `rooms.py`, else those of `kinds.py`.
    """
    file = folder / f"{kind or 'room'}-{seed}.yaml"
    file.write_text(kind_text(kind, seed) if kind else room_text(seed), "utf-8")
    kind = kind or "as drawn"
    try:
        plan = json.loads(plan_bytes(file))
    except InputError as error:
        return Outcome(seed, f"input: {' / '.join(p.message for p in error.problems)}", "", (), kind)
    except CannotPlanError as error:
        return Outcome(seed, f"plan: {error}" if str(error) else "", "", (), kind)
    verdicts = plan["verdicts"]
    failing = frozenset(f["rule"] for f in plan["findings"] if f["verdict"] == "fail" and f["phase"] != "found")
    verdict = f"{verdicts['as_found']} / {verdicts['as_planned']}"
    return Outcome(seed, "", verdict, tuple(unexplained(plan)), kind, failing)


def kinds_of_refusal(outcomes: Iterable[Outcome]) -> Counter[str]:
    """How often each reason was given, numbers and names left out."""
    return Counter(re.sub(r"[\d./\"'-]+|\bw\d\b", "#", o.refused)[:90] for o in outcomes if o.refused)
