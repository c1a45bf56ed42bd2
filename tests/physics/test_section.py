"""A walled bar. Check values worked out apart from the project; meshes are run in the outside checks."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.physics.answer import Bracket
from profilesmith.physics.section import (
    BarSection,
    bending_bracket,
    bending_ratio,
    mass_ratio,
    solid_second_moment_mm4,
    stretching_ratio,
    tip_stiffness_n_per_mm,
)
from tests.physics.ranges import law

BAR = BarSection(20, 6, 0.9, 0.8, 0.8)
sizes = st.floats(0.5, 30)
skins = st.floats(0, 4)
ratios = st.floats(0, 1)
bars = st.builds(BarSection, sizes, sizes, skins, skins, skins)


@pytest.mark.parametrize(
    ("density", "voigt", "foam"), [(0.05, 0.659067, 0.642020), (0.15, 0.694955, 0.649198), (0.30, 0.748786, 0.673422)]
)
def test_bending(density: float, voigt: float, foam: float) -> None:
    assert [bending_ratio(BAR, core) for core in (density, density**2)] == pytest.approx([voigt, foam], abs=3e-6)


@pytest.mark.parametrize(
    ("density", "voigt", "foam"), [(0.05, 0.366033, 0.334335), (0.15, 0.432767, 0.347682), (0.30, 0.532867, 0.392727)]
)
def test_stretching_and_mass(density: float, voigt: float, foam: float) -> None:
    assert [stretching_ratio(BAR, core) for core in (density, density**2)] == pytest.approx([voigt, foam], abs=1e-6)
    assert mass_ratio(BAR, density) == pytest.approx(voigt, abs=1e-6)


def test_skins_matter_more_than_infill() -> None:
    thick = bending_bracket(BarSection(20, 6, 1.35, 1.2, 1.2), Bracket(0.05**2, 0.05))
    thin = bending_bracket(BarSection(20, 6, 0.45, 0.4, 0.4), Bracket(0.05**2, 0.05))
    assert (thick.low, thick.high) == pytest.approx((0.8136, 0.8225), abs=5e-5)
    assert (thin.low, thin.high) == pytest.approx((0.3799, 0.4094), abs=5e-5)


def test_second_moments_of_the_meshed_bar() -> None:
    """237.2640533 ... by sectionproperties, recorded; run anew in the outside checks."""
    found = [bending_ratio(BAR, core) * solid_second_moment_mm4(BAR) for core in (0.05, 0.0025, 0.30, 0.09)]
    assert found == pytest.approx([237.2640533, 231.127256, 269.562987, 242.431883], rel=1e-8)


def test_second_moments_with_unequal_skins() -> None:
    """Skins of 0.4 and 1.2 mm, by sectionproperties, recorded; run anew in the outside checks."""
    uneven = BarSection(20, 6, 0.9, 0.4, 1.2)
    found = [bending_ratio(uneven, core) * solid_second_moment_mm4(uneven) for core in (0.05, 0.0025, 0.30, 0.09)]
    assert found == pytest.approx([204.0098, 192.8998, 252.7315, 212.7429], rel=3e-7)


def test_tip_stiffness() -> None:
    """k = 3 E I / L^3 of 20 x 1.8 mm, 26 MPa, 50 mm free: 0.006065280 N/mm (worked apart from the project)."""
    assert tip_stiffness_n_per_mm(26, 9.72, 50) == pytest.approx(0.006065280, rel=1e-9)


@law
@given(bars)
def test_a_solid_core_is_a_solid_bar(bar: BarSection) -> None:
    assert bending_ratio(bar, 1.0) == pytest.approx(1.0)
    assert stretching_ratio(bar, 1.0) == pytest.approx(1.0)
    assert mass_ratio(bar, 1.0) == pytest.approx(1.0)


@law
@given(bars, ratios, ratios)
def test_stiffer_cores_make_stiffer_bars(bar: BarSection, one: float, other: float) -> None:
    soft, stiff = sorted((one, other))
    assert 0 <= bending_ratio(bar, soft) <= bending_ratio(bar, stiff) + 1e-9
    assert stretching_ratio(bar, soft) <= stretching_ratio(bar, stiff) + 1e-12
    assert bending_ratio(bar, stiff) <= 1 + 1e-9


@law
@given(bars, ratios)
def test_unequal_skins_are_softer_than_the_same_plastic_in_equal_ones(bar: BarSection, core: float) -> None:
    mean = (bar.bottom_skin_mm + bar.top_skin_mm) / 2
    even = BarSection(bar.width_mm, bar.height_mm, bar.side_wall_mm, mean, mean)
    assert bending_ratio(bar, core) <= bending_ratio(even, core) + 1e-9
    turned = BarSection(bar.width_mm, bar.height_mm, bar.side_wall_mm, bar.top_skin_mm, bar.bottom_skin_mm)
    assert bending_ratio(turned, core) == pytest.approx(bending_ratio(bar, core), abs=1e-12)


def test_walls_that_meet_leave_no_core() -> None:
    assert bending_ratio(BarSection(2, 6, 1.2, 0.8, 0.8), 0.0) == 1
    assert bending_ratio(BarSection(20, 1.5, 0.9, 0.8, 0.8), 0.0) == 1
    assert bending_ratio(BarSection(20, 6, 0, 0, 0), 0.0) == 0
    assert bending_ratio(BarSection(20, 6, 0, 0, 0), 0.3) == pytest.approx(0.3)


def test_what_is_no_bar_is_refused() -> None:
    with pytest.raises(ValueError, match="width_mm"):
        BarSection(0, 6, 0.9, 0.8, 0.8)
    with pytest.raises(ValueError, match="top_skin_mm"):
        BarSection(20, 6, 0.9, 0.8, -0.8)
    with pytest.raises(ValueError, match="core_ratio"):
        bending_ratio(BAR, 5)
