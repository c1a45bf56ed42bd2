"""``python -m tests.benchmarks.simulations [--jobs 2]``: all simulations of what comes after a print, in one run.

Coupons with six models of judges and with a wrong recipe, screens, and advice in both invented workshops. It tells wall
time, processor time and load; 20 minutes are what it may take on two idle cores.
"""

from __future__ import annotations

import argparse
import os
import resource
import time
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from typing import NamedTuple

from profilesmith.evidence.interval import exact_interval
from tests.benchmarks import coupon
from tests.benchmarks.second_workshop.workshop import Workshop as SecondWorkshop
from tests.benchmarks.workshop.__main__ import ADVISORS, SHOWN
from tests.benchmarks.workshop.trial import Result, trial
from tests.benchmarks.workshop.workshop import Workshop

PRINTS, PART = 5, 50
WORLDS = {
    "first workshop": (Workshop, 1001),
    "second workshop": (SecondWorkshop, 5001),
}  # with the first of their seeds


class Part(NamedTuple):
    """Some workshops of one world, for one advisor."""

    world: str
    advisor: str
    first: int
    count: int


def tried(part: Part) -> Result:
    """What came of it."""
    return trial(ADVISORS[part.advisor], part.count, PRINTS, part.first, WORLDS[part.world][0])


def table(world: str, workshops: int, pool: ProcessPoolExecutor) -> None:
    """A row for each advisor, with exact 95 % intervals."""
    print(f"{world}: {workshops} workshops; share that prints well after so many pieces of advice", flush=True)
    first = WORLDS[world][1]
    for name in ADVISORS:
        parts = [Part(world, name, first + at, min(PART, workshops - at)) for at in range(0, workshops, PART)]
        print(f"  {name:<12} {row(list(pool.map(tried, parts)))}", flush=True)


def row(results: Sequence[Result]) -> str:
    """The cells of several parts together."""
    total, cells = sum(item.workshops for item in results), []
    for count in SHOWN:
        good = sum(item.good[count - 1] for item in results)
        low, high, _ = exact_interval(good, total)
        cells.append(f"{count}: {good / total:.1%} ({low:.1%} to {high:.1%})")
    broken, gave_up = (sum(item[place] for item in results) for place in (2, 3))
    return f"{'   '.join(cells)}   bounds broken: {broken}, gave up: {gave_up}"


def main() -> None:
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--runs", type=int, default=150, help="coupons for each model of judges")
    words.add_argument("--workshops", type=int, default=1000)
    words.add_argument("--jobs", type=int, default=2)
    call = words.parse_args()
    begun = time.perf_counter()
    coupon.main(call.runs, call.jobs)
    with ProcessPoolExecutor(call.jobs) as pool:
        for world in WORLDS:
            table(world, call.workshops, pool)
    used = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    processor = sum(item.ru_utime + item.ru_stime for item in used)
    load = ", ".join(f"{item:.1f}" for item in os.getloadavg())
    print(f"{(time.perf_counter() - begun) / 60:.1f} min; {processor / 60:.1f} min of processor time; load {load}")


if __name__ == "__main__":
    main()
