"""The grid over thresholds and judges, against other people's programs and published data."""

from fractions import Fraction
from itertools import pairwise
from math import exp, log

import numpy as np
import pytest
import questplus
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize
from scipy.stats import gumbel_r, norm

from profilesmith.coupon.judge_model import GOOD_AT_THRESHOLD, USUAL, Eye, chances, good_offset, weigh
from profilesmith.coupon.safe_value import expected_good, promised, safe_u
from profilesmith.coupon.scale import Scale
from profilesmith.coupon.search import Goal, begin, learn, next_u, outlook, several, standing
from profilesmith.coupon.threshold import (
    after,
    chance_of,
    chance_within,
    informations,
    quantile,
    start,
)

LOW, HIGH = log(12), log(90)
# Hamada, Mang and Hoff, Quality Engineering (2019), doi 10.1080/08982112.2018.1551547, Table 1: 25 drops up and down.
# A go lowers the next drop, a no-go raises it, so the outcomes follow from the heights; the last was a go.
DROPS = (
    "25.4 28.5 25.4 28.5 32.0 35.9 32.0 35.9 40.3 35.9 32.0 28.5 32.0 28.5 32.0 28.5 32.0 35.9 "
    "40.3 35.9 32.0 35.9 40.3 35.9 40.3"
)
HEIGHTS = [float(text) for text in DROPS.split()]
GOES = [later < height for height, later in pairwise(HEIGHTS)] + [True]
B0, B1 = -20.77376, 13.56263  # the probit fit that the paper's data give; H50 = 34.01661


@pytest.mark.parametrize("seed", range(3))
def test_same_next_value_and_belief_as_questplus(seed: int) -> None:
    """questplus 2023.1 (A. B. Watson's QUEST+): binary answers, spread and slips fixed, the least expected entropy."""
    spread, slip = 0.08, 0.04
    judges = weigh([(spread, 1)], [(0.1, 1)], [(slip, 1)])
    belief = start(LOW, HIGH, log(40), judges, grades=2, points=60)
    values = [t for t in belief.thresholds if LOW <= t <= HIGH]
    middle = good_offset(slip, 2) * spread
    theirs = questplus.QuestPlus(
        stim_domain={"intensity": values},
        param_domain={
            "mean": [t + middle for t in belief.thresholds],
            "sd": [spread],
            "lower_asymptote": [slip / 2],
            "lapse_rate": [slip / 2],
        },
        outcome_domain={"response": ["Yes", "No"]},
        prior={"mean": list(belief.shares)},
        func="norm_cdf",
        stim_scale="linear",
        stim_selection_method="min_entropy",
        param_estimation_method="mean",
    )
    drawn = np.random.default_rng(seed)
    for _ in range(8):
        known = informations(belief, values)
        ours = values[known.index(max(known))]
        u = float(theirs.next_stim["intensity"])
        assert informations(belief, [u])[0] == pytest.approx(max(known), abs=1e-9)
        assert u == pytest.approx(ours, abs=1e-9)
        bad = bool(drawn.random() < 0.5)
        theirs.update(stim={"intensity": u}, outcome={"response": "Yes" if bad else "No"})
        belief = after(belief, u, 1 if bad else 0)
        assert np.abs(np.asarray(theirs.posterior).ravel() - np.array(belief.shares)).max() < 1e-9


def test_drops_are_as_likely_as_scipy_says() -> None:
    """The likelihood of the published drops, without slips, is SciPy's at the published fit, which is SciPy's
    best too.
    """
    signs = np.where(GOES, 1.0, -1.0)

    def loss(b: "np.ndarray[tuple[int], np.dtype[np.float64]]") -> float:
        return -float(norm.logcdf(signs * (b[0] + b[1] * np.log10(HEIGHTS))).sum())

    best = minimize(loss, np.array([-20.0, 13.0]), method="Nelder-Mead", options={"xatol": 1e-9, "fatol": 1e-12}).x
    assert best == pytest.approx([B0, B1], rel=1e-5)
    spread = log(10) / B1
    eye = Eye(spread, 1.0, 0.0)
    t = -B0 / B1 * log(10) - good_offset(0.0, 2) * spread
    ours = sum(log(chances(log(height), t, eye, 2)[1 if go else 0]) for height, go in zip(HEIGHTS, GOES, strict=True))
    assert ours == pytest.approx(-loss(np.array([B0, B1])), abs=1e-9)


def test_published_middle_on_a_coarse_grid() -> None:
    """The likeliest H50 on a grid of half units is 34.0; the published fit says 34.01661."""
    spread = log(10) / B1
    shift = good_offset(0.0, 2) * spread
    eye = Eye(spread, 1.0, 0.0)
    grid = [30 + number / 2 for number in range(17)]

    def likelihood(h50: float) -> float:
        at = log(h50) - shift
        return sum(log(chances(log(h), at, eye, 2)[1 if go else 0]) for h, go in zip(HEIGHTS, GOES, strict=True))

    assert max(grid, key=likelihood) == 34.0
    assert exp(-B0 / B1 * log(10)) == pytest.approx(34.01661, rel=1e-5)


@given(
    spread=st.floats(0.02, 0.5),
    gap=st.floats(0.01, 1),
    slip=st.floats(0, 0.14),
    grades=st.sampled_from((2, 3)),
    t=st.floats(-3, 3),
)
def test_nine_of_ten_are_good_at_the_threshold(spread: float, gap: float, slip: float, grades: int, t: float) -> None:
    eye = Eye(spread, gap, slip)
    at = chances(t, t, eye, grades)
    assert at[0] == pytest.approx(GOOD_AT_THRESHOLD)
    assert sum(at) == pytest.approx(1)
    goods = [chances(t + step / 10, t, eye, grades)[0] for step in range(-20, 21)]
    assert goods == sorted(goods, reverse=True)  # worse further up, never better


@settings(max_examples=12)
@given(st.lists(st.tuples(st.floats(LOW, HIGH), st.integers(0, 2)), max_size=4))
def test_a_belief_stays_one(graded: list[tuple[float, int]]) -> None:
    scale = Scale(Fraction(12), Fraction(90), Fraction(1, 10), True, True)
    belief = learn(begin(scale, log(40)), graded)
    assert sum(belief.shares) == pytest.approx(1)
    assert quantile(belief, 0.05) <= quantile(belief, 0.5) <= quantile(belief, 0.95)
    u = next_u(belief, scale.ends)
    assert LOW - 1e-9 <= u <= HIGH + 1e-9
    assert 0 <= informations(belief, [u])[0] <= log(3)
    assert sum(chance_of(belief, u, grade) for grade in range(3)) == pytest.approx(1)


def test_order_of_prints_does_not_matter() -> None:
    scale = Scale(Fraction(12), Fraction(90), Fraction(1, 10), True, True)
    graded = [(log(40), 0), (log(60), 2), (log(50), 1), (log(48), 0)]
    one, other = (learn(begin(scale, None), items) for items in (graded, graded[::-1]))
    assert one.shares == pytest.approx(other.shares)


def test_good_prints_move_it_up_and_poor_ones_down() -> None:
    scale = Scale(Fraction(12), Fraction(90), Fraction(1, 10), True, True)
    belief = begin(scale, log(40))
    middle = quantile(belief, 0.5)
    assert quantile(after(belief, log(45), 0), 0.5) > middle
    assert quantile(after(belief, log(45), 2), 0.5) < quantile(after(belief, log(45), 1), 0.5) < middle


def test_at_the_rule_so_many_prints_are_expected_to_be_good() -> None:
    """By direct counting: judges and thresholds drawn from the belief itself, SciPy's distributions."""
    scale = Scale(Fraction(12), Fraction(90), Fraction(1, 10), True, True)
    belief = learn(begin(scale, log(40)), [(log(40), 0), (log(60), 2), (log(50), 1)])
    u = safe_u(belief, 3)
    shares = np.array(belief.joint).ravel()

    def at(eye: Eye) -> float:
        """The share of good prints at the threshold, slips aside."""
        return (0.9 - eye.slip / 3) / (1 - eye.slip)

    cells = [(t, eye) for t in belief.thresholds for eye in belief.judges.eyes]
    drawn = np.random.default_rng(1).choice(len(cells), 4_000, p=shares / shares.sum())
    goods = [
        (
            norm.cdf(norm.ppf(at(eye)) - (u - t) / eye.spread)
            + gumbel_r.cdf(gumbel_r.ppf(at(eye)) - (u - t) / eye.spread * gumbel_r.std())
        )
        / 2
        for t, eye in (cells[number] for number in drawn)
    ]
    assert np.mean(goods) == pytest.approx(promised(3), abs=0.006)
    assert expected_good(belief, u) == pytest.approx(promised(3), abs=1e-4)
    better = after(belief, u, 0)
    assert safe_u(better, 3) > u
    assert [promised(prints) for prints in range(60)] == sorted(promised(prints) for prints in range(60))
    assert safe_u(after(belief, u, 2), 3) < u


def test_several_values_for_a_plate_differ() -> None:
    scale = Scale(Fraction(12), Fraction(90), Fraction(1, 10), True, True)
    values = several(begin(scale, log(40)), scale.ends, 5)
    assert values[0] == next_u(begin(scale, log(40)), scale.ends)
    assert len({round(value, 6) for value in values}) >= 4


def test_when_it_stops() -> None:
    """With a judge who cannot decide it gives up before the last print; with one who can it stops when it is near
    enough.
    """
    scale = Scale(Fraction(12), Fraction(90), Fraction(1, 10), True, True)
    goal = Goal(scale.half_width(Fraction(1, 10)), 0.9, 24)
    unsure = learn(begin(scale, None), [(log(20 + 6 * number), number % 3) for number in range(9)])
    stand = standing(unsure, 9, goal, scale.ends)
    assert stand.state == "hopeless"
    assert stand.expected > goal.half
    assert outlook(unsure, 0.1, 0, 0.9) > outlook(unsure, 0.1, 15, 0.9)
    sure = learn(
        begin(scale, log(50)), [(log(v), 0 if v < 50 else 2) for v in (30, 60, 45, 55, 48, 52, 47, 51, 46, 49)]
    )
    goal = goal._replace(sure=0.8)
    stand = standing(sure, 10, goal, scale.ends)
    assert stand.state == "within"
    assert chance_within(sure, stand.middle, goal.half) == stand.chance >= 0.8
    assert standing(unsure, 24, goal, scale.ends).state == "most"
    assert standing(sure, 3, goal, scale.ends).state == "go on"


def test_scales() -> None:
    speeds = Scale(Fraction(12), Fraction(90), Fraction(1, 10), True, True)
    assert speeds.value(speeds.u(Fraction(40))) == 40
    assert speeds.half_width(Fraction(1, 10)) == pytest.approx(log(1.1))
    assert speeds.spread_of(log(1.1)) == pytest.approx(0.1)
    assert speeds.safer(log(39.97)) == Fraction(399, 10)
    assert speeds.value(10.0) == 90  # never past the planned range
    heat = Scale(Fraction(200), Fraction(220), Fraction(1), False, False)  # too cold is worse
    assert heat.u(Fraction(220)) < heat.u(Fraction(200))
    assert heat.value(heat.u(Fraction(213))) == 213
    assert heat.safer(heat.u(Fraction(2131, 10))) == 214
    assert heat.spread_of(heat.half_width(Fraction(2))) == pytest.approx(2)
    assert sum(USUAL.weights) == pytest.approx(1)
