"""How generated rooms fare: tried, refused, slowest, by kind.

`python -m tests.bench.bench_rooms [light] [from] [to] [kind ...]`: rooms of those seeds; kinds are those of
`tests/properties/kinds.py`, `all` stands for each of them; without one, bare rooms as `rooms.py` draws them.
`light` leaves out the search for the cheapest sheets, which takes four fifths of the time.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from contextlib import nullcontext
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.properties.kinds import KINDS
from tests.properties.light import lightly
from tests.properties.pipeline import Outcome, kinds_of_refusal, try_room
from tests.verifier.plain import Violation

Timed = list[tuple[Outcome, float]]


def main(first: int, last: int, kinds: tuple[str, ...]) -> None:
    timed: Timed = []
    with TemporaryDirectory() as folder:
        for seed in range(first, last):
            for kind in kinds:
                began = time.process_time()
                outcome = _tried(seed, Path(folder), kind)
                timed.append((outcome, time.process_time() - began))
                _tell(outcome)
    _print(timed)


def _tried(seed: int, folder: Path, kind: str) -> Outcome:
    """A crash is the worst of violations, and no reason to leave the rest of the rooms untried."""
    try:
        return try_room(seed, folder, kind)
    except Exception as error:
        return Outcome(seed, "", "", (Violation("crash", repr(error)),), kind or "as drawn")


def _tell(outcome: Outcome) -> None:
    """A run of thousands takes an hour: what goes wrong is told as it comes."""
    if outcome.violations:
        print(f"{outcome.kind} {outcome.seed}: {outcome.wrong[0]}", file=sys.stderr, flush=True)


def _print(timed: Timed) -> None:
    outcomes = [outcome for outcome, _ in timed]
    refused = [o for o in outcomes if o.refused]
    wrong = [o for o in outcomes if o.violations]
    print(f"rooms tried {len(outcomes)}, planned {len(outcomes) - len(refused)}, refused {len(refused)}")
    for reason, count in kinds_of_refusal(outcomes).most_common():
        print(f"  {count:4d}  {reason}")
    print(f"planned with a violation that no finding admits: {len(wrong)}")
    for outcome in wrong:
        print(f"  {outcome.wrong[0]}")
    print("verdicts (as found / as planned):")
    for verdict, count in Counter(o.verdict for o in outcomes if o.verdict).most_common():
        print(f"  {count:4d}  {verdict}")
    print("rules broken as planned (rooms, kinds):")
    for rule, count in Counter(rule for o in outcomes for rule in sorted(o.failing)).most_common():
        print(f"  {count:4d}  {rule:22} {' '.join(sorted({o.kind for o in outcomes if rule in o.failing}))}")
    _print_kinds(timed)


def _print_kinds(timed: Timed) -> None:
    print("kinds (tried, refused, wrong, slowest in seconds of one processor):")
    for kind in sorted({o.kind for o, _ in timed}):
        own = [(o, seconds) for o, seconds in timed if o.kind == kind]
        counts = len(own), sum(bool(o.refused) for o, _ in own), sum(bool(o.violations) for o, _ in own)
        print(f"  {kind:20} {counts[0]:4d} {counts[1]:4d} {counts[2]:4d} {max(s for _, s in own):7.1f}")
    slowest = sorted(timed, key=lambda one: (-one[1], one[0].kind, one[0].seed))[:5]
    said = ", ".join(f"{o.kind} {o.seed}: {seconds:.2f}" for o, seconds in slowest)
    print(f"seconds in all {sum(s for _, s in timed):.1f}; slowest {said}")


if __name__ == "__main__":
    words = sys.argv[1:]
    numbers, named = [int(a) for a in words if a.isdigit()], [a for a in words if not a.isdigit() and a != "light"]
    wanted = tuple(KINDS) if named == ["all"] else tuple(named) or ("",)
    first, last = numbers if len(numbers) == 2 else (0, 200)
    with lightly() if "light" in words else nullcontext():
        main(first, last, wanted)
