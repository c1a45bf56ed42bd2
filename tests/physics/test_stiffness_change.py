"""New stiffness over old. Check values worked out apart from the project."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from profilesmith.physics.answer import Bracket
from profilesmith.physics.section import (
    BarSection,
    bending_bracket,
    bending_ratio,
    mass_ratio,
    ordered_cores_bracket,
    same_pattern_bracket,
    shared_core_bracket,
    solid_thickness_ratio,
)
from tests.physics.ranges import law

BAR = BarSection(20, 6, 0.9, 0.8, 0.8)
walls = st.floats(0.1, 2)
bars = st.builds(BarSection, st.just(20.0), st.just(6.0), walls, walls, walls)
densities = st.floats(0.03, 1.0)


def test_thirty_to_five_per_cent() -> None:
    change = same_pattern_bracket(BAR, 0.30, BAR, 0.05)
    assert (change.low, change.high) == pytest.approx((0.880180, 0.953370), abs=1e-6)
    assert change.holds(0.923062)  # stiffest isotropic core
    assert change.holds(0.948779)  # gyroid
    assert mass_ratio(BAR, 0.05) / mass_ratio(BAR, 0.30) == pytest.approx(1 - 0.31, abs=0.005)


@law
@given(bars, densities, bars, densities, st.floats(1, 2))
def test_every_law_lies_in_the_bracket(old: BarSection, before: float, new: BarSection, after: float, n: float) -> None:
    change = same_pattern_bracket(old, before, new, after)
    ratio = bending_ratio(new, after**n) / bending_ratio(old, before**n)
    assert change.low * (1 - 1e-4) <= ratio <= change.high * (1 + 1e-4)


@law
@given(bars, densities, bars, densities)
def test_unrelated_patterns_are_less_certain(old: BarSection, before: float, new: BarSection, after: float) -> None:
    apart = bending_bracket(new, Bracket(after**2, after)).over(bending_bracket(old, Bracket(before**2, before)))
    same = same_pattern_bracket(old, before, new, after)
    assert apart.low <= same.low * (1 + 1e-9)
    assert same.high <= apart.high * (1 + 1e-9)


@law
@given(bars, densities)
def test_no_change_is_no_change(bar: BarSection, density: float) -> None:
    change = same_pattern_bracket(bar, density, bar, density)
    assert (change.low, change.high) == pytest.approx((1.0, 1.0))


def test_another_plastic() -> None:
    """Sheets that bend alike: 2 mm of 3.6 MPa like 1.03 mm of 26.6 MPa, as E t^3 is 28.8 N mm of both."""
    ratio = solid_thickness_ratio(Bracket(3.6, 3.6), Bracket(26.6, 26.6))
    assert 26.6 * (2 * ratio.low) ** 3 == pytest.approx(3.6 * 8)
    assert ratio.low == ratio.high


@law
@given(bars, bars, st.floats(0, 0.5), st.floats(0, 0.5), st.floats(0, 1))
@example(BarSection(20, 6, 0.5, 0.5, 0.25), BarSection(20, 6, 0.5, 0.25, 1.0), 0.0, 0.5, 0.25)  # was missed by 1 %
def test_one_core_in_both_lies_in_the_bracket(
    old: BarSection, new: BarSection, one: float, other: float, part: float
) -> None:
    core = Bracket(min(one, other), max(one, other))
    shared = shared_core_bracket(old, new, core)
    assert isinstance(shared, Bracket)
    at = core.low + part * (core.high - core.low)
    ratio = bending_ratio(new, at) / bending_ratio(old, at)
    assert shared.low * (1 - 1e-3) <= ratio <= shared.high * (1 + 1e-3)
    assert shared_core_bracket(old, old, core) == Bracket(1.0, 1.0)


@law
@given(bars, bars, densities, densities, st.floats(1, 6), st.floats(1, 6))
def test_the_denser_core_is_the_stiffer_one(
    old: BarSection, new: BarSection, before: float, after: float, power: float, other: float
) -> None:
    """Any two cores of one pattern between nothing and the stiffest, of which the denser is not the softer."""
    bounds = ordered_cores_bracket(old, Bracket(0.0, before), new, Bracket(0.0, after))
    assert isinstance(bounds, Bracket)
    cores = sorted((before**power, after**other), reverse=before > after)
    if cores[0] > before or cores[1] > after:
        return
    ratio = bending_ratio(new, cores[1]) / bending_ratio(old, cores[0])
    assert bounds.low * (1 - 5e-3) <= ratio <= bounds.high * (1 + 5e-3)
