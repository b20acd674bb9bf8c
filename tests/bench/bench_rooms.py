"""How generated rooms fare: `python -m tests.bench.bench_rooms [from] [to]` says tried, refused, slowest."""

from __future__ import annotations

import sys
import time
from collections import Counter
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.properties.pipeline import Outcome, kinds_of_refusal, try_room


def main(first: int, last: int) -> None:
    outcomes: list[Outcome] = []
    seconds: dict[int, float] = {}
    with TemporaryDirectory() as folder:
        for seed in range(first, last):
            began = time.perf_counter()
            outcomes.append(try_room(seed, Path(folder)))
            seconds[seed] = time.perf_counter() - began
    _print(outcomes, seconds)


def _print(outcomes: list[Outcome], seconds: dict[int, float]) -> None:
    refused = [o for o in outcomes if o.refused]
    wrong = [o for o in outcomes if o.violations]
    print(f"rooms tried {len(outcomes)}, planned {len(outcomes) - len(refused)}, refused {len(refused)}")
    for reason, count in kinds_of_refusal(outcomes).most_common():
        print(f"  {count:4d}  {reason}")
    print(f"planned with a violation that no finding admits: {len(wrong)}")
    for outcome in wrong:
        print(f"  room {outcome.seed}: {outcome.violations[0].code}: {outcome.violations[0].message}")
    print("verdicts (as found / as planned):")
    for verdict, count in Counter(o.verdict for o in outcomes if o.verdict).most_common():
        print(f"  {count:4d}  {verdict}")
    slowest = sorted(seconds, key=lambda seed: -seconds[seed])[:5]
    print(
        f"seconds in all {sum(seconds.values()):.1f}; slowest " + ", ".join(f"{s}: {seconds[s]:.2f}" for s in slowest)
    )


if __name__ == "__main__":
    numbers = [int(text) for text in sys.argv[1:3]]
    main(*(numbers if len(numbers) == 2 else (0, 200)))
