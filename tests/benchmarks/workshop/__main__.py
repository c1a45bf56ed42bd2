"""``python -m tests.benchmarks.workshop``: the table of shares, for each advisor that is known."""

from __future__ import annotations

import argparse

from profilesmith.evidence.interval import exact_interval
from tests.benchmarks.second_workshop.workshop import Workshop as SecondWorkshop
from tests.benchmarks.workshop.advice import advised
from tests.benchmarks.workshop.habits import at_random, by_hand
from tests.benchmarks.workshop.trial import Make, trial
from tests.benchmarks.workshop.workshop import Workshop

ADVISORS: dict[str, Make] = {"advised": advised, "by hand": by_hand, "at random": at_random}
SHOWN = (1, 2, 3, 5)


def main() -> None:
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--workshops", type=int, default=1000)
    words.add_argument("--prints", type=int, default=5)
    words.add_argument("--seed", type=int, default=1)
    words.add_argument("--second", action="store_true", help="the world of tests/benchmarks/second_workshop")
    call = words.parse_args()
    world = SecondWorkshop if call.second else Workshop
    print(f"{call.workshops} workshops; share that prints well after so many pieces of advice (exact 95 % interval)")
    for name, make in ADVISORS.items():
        result = trial(make, call.workshops, call.prints, call.seed, world)
        cells = []
        for count in SHOWN:
            if count <= call.prints:
                good = result.good[count - 1]
                low, high, _ = exact_interval(good, result.workshops)
                cells.append(f"{count}: {good / result.workshops:.1%} ({low:.1%} to {high:.1%})")
        print(f"  {name:<12} {'   '.join(cells)}   bounds broken: {result.broken}, gave up: {result.gave_up}")


if __name__ == "__main__":
    main()
