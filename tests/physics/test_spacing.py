"""Distances of infill and support lines. Check values by plane geometry, apart from the project."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.physics.infill import density_at_spacing_share, line_spacing_mm
from tests.physics.ranges import law, shares

directions_of_lines = st.integers(1, 3)


@pytest.mark.parametrize(
    ("density", "one", "two"),
    [(0.10, 4.5, 9.0), (0.15, 3.0, 6.0), (0.25, 1.8, 3.6), (0.30, 1.5, 3.0), (0.05, 9.0, 18.0)],
)
def test_spacing(density: float, one: float, two: float) -> None:
    assert line_spacing_mm(0.45, density) == pytest.approx(one)
    assert line_spacing_mm(0.45, density, directions=2) == pytest.approx(two)
    assert line_spacing_mm(0.45, density, directions=3) == pytest.approx(3 * one)


def test_lines_across_a_plate_cover_the_density() -> None:
    """shapely: the covered area of a plate of 900 mm with lines at that distance, in one and in two directions."""
    from shapely import box, unary_union

    for density, directions in ((0.15, 1), (0.25, 1), (0.10, 2)):
        starts = [line_spacing_mm(0.45, density, directions) * i for i in range(int(900 * density / 0.45 / directions))]
        lines = [box(at, 0, at + 0.45, 900) for at in starts]
        lines += [box(0, at, 900, at + 0.45) for at in starts] if directions == 2 else []
        crossings = 1 - density / 2 if directions == 2 else 1  # crossing lines cover each crossing once
        assert unary_union(lines).area / 900**2 == pytest.approx(density - (1 - crossings) * density / 2, rel=1e-9)


@law
@given(st.floats(0.1, 2), shares, directions_of_lines)
def test_density_and_spacing_are_inverse(width: float, density: float, directions: int) -> None:
    spacing = line_spacing_mm(width, density, directions)
    assert density_at_spacing_share(width, spacing, directions) == pytest.approx(density, rel=1e-12)
    assert line_spacing_mm(width, density * 0.9, directions) > spacing


@pytest.mark.parametrize(("density", "directions"), [(0, 1), (1.5, 1), (15, 1), (0.15, 0), (0.15, 4)])
def test_what_is_no_infill_is_refused(density: float, directions: int) -> None:
    with pytest.raises(ValueError, match=r"density_share|directions"):
        line_spacing_mm(0.45, density, directions)
