"""Forty runs of the simulation ``tests.benchmarks.coupon``, eight of each model of judges, six prints each."""

from statistics import fmean

from tests.benchmarks.coupon import EYES, Run, holds, run
from tests.benchmarks.screens import best_possible, screen

PRINTS = 6


def test_forty_runs() -> None:
    """What the benchmark measures over many runs holds for these too: no bound here is sharper than what it found."""
    runs: dict[str, list[Run]] = {
        name: [run(eye, seed, prints=PRINTS) for seed in range(8)] for name, eye in EYES.items()
    }
    every = [item for items in runs.values() for item in items]
    assert len(every) == 40
    assert fmean(float(holds(item.steps[-1])) for item in every) >= 0.8
    assert fmean(item.steps[-1].share for item in every) >= 0.9
    sharp = [item.steps[-1] for item in runs["matched"]]
    assert fmean(abs(step.middle) for step in sharp) < 0.15
    blurry = [item.steps[-1] for item in runs["blurry"]]
    assert fmean(step.high - step.low for step in blurry) > fmean(step.high - step.low for step in sharp)


def test_twelve_prints_rank_what_matters() -> None:
    assert fmean(float(screen(seed, 2.0)) for seed in range(100)) >= 0.8


def test_small_effects_are_ranked_about_as_well_as_anybody_could() -> None:
    """Effects of 1 either way: not even a ranking that knows all sizes finds both in 85 of 100."""
    ours, best = (sum(finds(seed, 1.0) for seed in range(100)) for finds in (screen, best_possible))
    assert best < 85
    assert ours > best - 10
