"""Coupons in simulation: ``python -m tests.benchmarks.coupon [RUNS]``. Prints a table; RUNS a model of judges, 300 if
not said.

Truths: thresholds drawn evenly in the logarithm from 12 to 90 mm/s; the recipe's value is off by a factor drawn with
0.4 in the logarithm. Five models of judges, none of which is a point of the grid that the search works with. ``run`` is
one coupon; ``tests/coupon/test_replayed.py`` replays forty of them.
"""

from __future__ import annotations

import math
import random
import sys
import time
from collections.abc import Sequence
from fractions import Fraction
from statistics import NormalDist, fmean, median, stdev
from typing import NamedTuple

from profilesmith.coupon.judge_model import USUAL
from profilesmith.coupon.safe_value import safe_u
from profilesmith.coupon.scale import Scale
from profilesmith.coupon.search import Goal, begin, next_u, standing
from profilesmith.coupon.threshold import Belief, after
from tests.benchmarks.screens import screens

LOW, HIGH, MOST = 12, 90, 24
FIRST = 9000  # of the seeds; the numbers of the rule and of the ranking were chosen on seeds below
SHOWN = (7, 12, 24)  # prints, after which the share of good prints at the rule is told
EXPECTED = "as the belief expects"
SCALE = Scale(Fraction(LOW), Fraction(HIGH), Fraction(1, 10), True, True)
GOAL = Goal(SCALE.half_width(Fraction(1, 10)), 0.9, MOST)
NEAR = math.log(1.1)
NORMAL = NormalDist()
EULER = 0.5772156649015329  # mean of the standard Gumbel distribution; its spread is pi / sqrt(6)
GUMBEL = math.pi / math.sqrt(6)


class Eye(NamedTuple):
    """A judge: spread of prints and of the eye, gap from good to fair to poor, slips, how far a day (four prints)
    shifts all.
    """

    spread: float = 0.06
    gap: float = 0.15
    slip: float = 0.02
    day: float = 0.0
    skewed: bool = False


EYES = {
    "matched": Eye(),
    "skewed": Eye(skewed=True),
    "shifted by the day": Eye(day=0.05),
    "slipping": Eye(slip=0.10),
    "blurry": Eye(spread=0.15),
}


class Judge:
    """Grades prints."""

    def __init__(self, eye: Eye, threshold: float, drawn: random.Random) -> None:
        self.eye, self.drawn, self.prints, self.shift = eye, drawn, 0, 0.0
        self.middle = threshold + self._quantile((0.9 - eye.slip / 3) / (1 - eye.slip))

    def _quantile(self, share: float) -> float:
        if self.eye.skewed:
            return self.eye.spread * (-math.log(-math.log(share)) - EULER) / GUMBEL
        return math.hypot(self.eye.spread, self.eye.day) * NORMAL.inv_cdf(share)

    def good(self, u: float) -> float:
        """The share of prints at u that are good: graded so, where the judge makes no slip."""
        x = self.middle - u
        if self.eye.skewed:
            return math.exp(-math.exp(-(x / self.eye.spread * GUMBEL + EULER)))
        return NORMAL.cdf(x / math.hypot(self.eye.spread, self.eye.day))

    def grade(self, u: float) -> int:
        if self.prints % 4 == 0:
            self.shift = self.drawn.gauss(0, self.eye.day) if self.eye.day else 0.0
        self.prints += 1
        if self.drawn.random() < self.eye.slip:
            return self.drawn.randrange(3)
        noise = self._quantile(self.drawn.random()) if self.eye.skewed else self.drawn.gauss(0, self.eye.spread)
        seen = u + noise + self.shift - self.middle
        return 0 if seen < 0 else 1 if seen < self.eye.gap else 2


class Step(NamedTuple):
    """After a print: the range's ends and middle less the truth, the share of good prints at the rule (slips
    aside), the rule less the truth, whether it would stop.
    """

    low: float
    middle: float
    high: float
    share: float
    rule: float
    stops: str


class Run(NamedTuple):
    """truth: the threshold's logarithm. steps: one a print, up to MOST. foretold: (after 8 prints, for 16 more) half
    width.
    """

    truth: float
    steps: tuple[Step, ...]
    foretold: float

    @property
    def stop(self) -> int:
        """How many prints it took at its own stop; MOST where it never came near enough."""
        return next((number for number, step in enumerate(self.steps, 1) if step.stops == "within"), MOST)

    @property
    def at_stop(self) -> Step:
        return self.steps[self.stop - 1]

    @property
    def gave_up(self) -> bool:
        """Whether it said beforehand that it would not get there, and was right to stop there."""
        first = next((step.stops for step in self.steps if step.stops != "go on"), "most")
        return first == "hopeless"


def run(eye: Eye, seed: int, off: float | None = None, prints: int = MOST) -> Run:
    """One coupon. off: by which factor the recipe is wrong, up or down; None to draw it."""
    drawn = random.Random(seed)
    truth = drawn.uniform(*SCALE.ends)
    around = drawn.gauss(truth, 0.4) if off is None else truth + drawn.choice((-1, 1)) * math.log(off)
    if off is None:
        around = min(max(around, SCALE.ends[0]), SCALE.ends[1])
    judge, belief, steps, foretold = Judge(eye, truth, drawn), begin(SCALE, around), [], 0.0
    wanted = next_u(belief, SCALE.ends)
    for number in range(1, prints + 1):
        u = SCALE.u(SCALE.value(wanted))
        belief = after(belief, u, judge.grade(u))
        stand = standing(belief, number, GOAL, SCALE.ends)
        wanted = stand.next_u
        if number == 8:
            foretold = stand.expected
        ends = stand.low - truth, stand.middle - truth, stand.high - truth
        rule = _rule(belief, number) if number in (*SHOWN, prints) else math.nan
        steps.append(Step(*ends, judge.good(rule), rule - truth, stand.state))
    return Run(truth, tuple(steps), foretold)


def _rule(belief: Belief, prints: int) -> float:
    """The u of the rule that would be written."""
    return SCALE.u(max(SCALE.safer(safe_u(belief, prints)), Fraction(1, 10)))


def expected_eye(seed: int) -> Eye:
    """A judge drawn as the belief expects them before the first print."""
    (eye,) = random.Random(f"eye {seed}").choices(USUAL.eyes, USUAL.weights)
    return Eye(eye.spread, eye.gap, eye.slip)


def moves(runs: Sequence[Run], first: int, last: int) -> tuple[float, float]:
    """How much the share at the rule moves between two numbers of prints, and half of its 95 % interval (in pairs)."""
    moved = [item.steps[last - 1].share - item.steps[first - 1].share for item in runs]
    return fmean(moved), 1.96 * stdev(moved) / math.sqrt(len(moved)) if len(moved) > 1 else math.inf


def holds(step: Step) -> bool:
    return step.low <= 0 <= step.high


def row(name: str, runs: Sequence[Run]) -> str:
    """One line of the table."""
    stops = sorted(item.stop for item in runs)
    near = fmean(float(abs(item.at_stop.middle) <= NEAR) for item in runs)
    held = fmean(float(holds(item.at_stop)) for item in runs)
    by_truth = sorted(runs, key=lambda item: item.truth)
    fifths = [
        fmean(float(holds(item.at_stop)) for item in by_truth[part * len(runs) // 5 : (part + 1) * len(runs) // 5])
        for part in range(5)
    ]
    width = math.exp(fmean(item.at_stop.high - item.at_stop.low for item in runs) / 2) - 1
    shares = " ".join(f"{fmean(item.steps[number - 1].share for item in runs):.3f}" for number in SHOWN)
    moved = " ".join(
        f"{move:+.3f}±{half:.3f}" for move, half in (moves(runs, *pair) for pair in (SHOWN[:2], SHOWN[1:], SHOWN[::2]))
    )
    rules = " ".join(f"{math.exp(median(item.steps[number - 1].rule for item in runs)):.2f}" for number in SHOWN)
    came = fmean((item.steps[-1].high - item.steps[-1].low) / 2 for item in runs)
    told = fmean(item.foretold for item in runs)
    return (
        f"{name:<22} {fmean(stops):5.1f} {stops[len(stops) // 2]:3d} {near:6.3f}  {held:6.3f} "
        f"{min(fifths):5.2f} ±{width:4.0%}  "
        f"{shares}  {moved}  {rules}  {fmean(float(item.gave_up) for item in runs):5.2f}  {told:.3f} {came:.3f}"
    )


def _one(task: tuple[str, int, float | None]) -> Run:
    name, seed, off = task
    return run(expected_eye(seed) if name == EXPECTED else EYES[name], seed, off)


def main(runs: int, jobs: int) -> None:
    from concurrent.futures import ProcessPoolExecutor

    begun = time.perf_counter()
    print(f"{runs} runs a model; prints at its own stop (±10 %, 90 %), at most {MOST}")
    print("good: true share of good prints at the written rule, slips of the judge aside; moves in pairs, with 95 %")
    print(
        "                        mean med  near   holds  worst  width  good after              moved                   "
        "                  rule/threshold  gave   half width at 24:"
    )
    print(
        "                                  enough        fifth         7     12    24     7 to 12      12 to 24     "
        "7 to 24       7    12   24    up     foretold came"
    )
    with ProcessPoolExecutor(jobs) as pool:
        for name in (*EYES, EXPECTED):
            print(
                row(name, list(pool.map(_one, [(name, FIRST + seed, None) for seed in range(runs)], chunksize=5))),
                flush=True,
            )
        wrong = list(pool.map(_one, [("matched", FIRST + seed, 2.5) for seed in range(runs)], chunksize=5))
        print(row("recipe off by 2.5", wrong), flush=True)
    screens(10 * runs)
    print(f"{time.perf_counter() - begun:.0f} s")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 300, int(sys.argv[2]) if len(sys.argv) > 2 else 2)
