"""Laws of sparse cores: bounds, order of the laws, the guard on cell size, and the numerical oracle's own checks."""

from __future__ import annotations

import pytest
from hypothesis import strategies as st

from profilesmith.physics import infill
from profilesmith.physics.answer import Bracket, NotValid
from profilesmith.physics.infill import line_spacing_mm

fitted = st.floats(0.10, 0.30)


@pytest.mark.parametrize(("density", "cell"), [(0.30, 4.637), (0.15, 9.275), (0.05, 27.82)])
def test_gyroid_cells_of_a_bead(density: float, cell: float) -> None:
    assert infill.gyroid_cell_mm(0.45, density) == pytest.approx(cell, rel=2e-4)


def test_area_of_the_gyroid_surface() -> None:
    """Another way to the 3.0915: the mean slope in a thin shell around the surface (coarea formula).

    73 points an edge: an odd number, so that none lie in line with the surface.
    """
    import numpy as np

    at = 2 * np.pi * (np.arange(73) + 0.5) / 73
    x, y, z = np.meshgrid(at, at, at, indexing="ij")
    level = np.sin(x) * np.cos(y) + np.sin(y) * np.cos(z) + np.sin(z) * np.cos(x)
    slope_x = np.cos(x) * np.cos(y) - np.sin(z) * np.sin(x)
    slope_y = np.cos(y) * np.cos(z) - np.sin(x) * np.sin(y)
    slope_z = np.cos(z) * np.cos(x) - np.sin(y) * np.sin(z)
    slope = np.sqrt(slope_x**2 + slope_y**2 + slope_z**2)
    area = slope[np.abs(level) < 0.2].sum() / 0.4 * (2 * np.pi / 73) ** 3 / (2 * np.pi) ** 2
    assert area == pytest.approx(infill.GYROID_AREA, rel=0.01)


def test_no_average_of_less_than_three_cells() -> None:
    """A core of 4.4 mm at 5 %: a gyroid cell is 27.8 mm, a grid's 18 mm."""
    cell = infill.gyroid_cell_mm(0.45, 0.05)
    refused = infill.core_modulus_bracket(0.05, 4.4, cell)
    assert refused == NotValid("too-few-cells")
    assert infill.core_modulus_bracket(0.05, 3 * cell, cell) == Bracket(0.05**2, 0.05)
    assert isinstance(infill.core_modulus_bracket(0.30, 4.4, line_spacing_mm(0.45, 0.30, 2)), NotValid)
    assert isinstance(infill.core_modulus_bracket(0.05, 0, cell), NotValid)


def test_low_ends() -> None:
    across = infill.core_modulus_bracket(0.2, 100, 5, infill.HEXAGONS_ACROSS)
    assert isinstance(across, Bracket)
    assert (across.low, across.high) == pytest.approx((0.008, 0.2))
    assert across.holds(1.5 * 0.2**3)  # Gibson & Ashby 1997, 2.31 (t/l)^3
    assert infill.core_modulus_bracket(0.2, 100, 5, infill.NO_LAW) == Bracket(0.0, 0.2)


@pytest.mark.parametrize("power", [infill.CELLS_IN_SPACE, infill.HEXAGONS_ACROSS, infill.NO_LAW])
def test_full_is_solid_and_empty_is_nothing(power: float) -> None:
    assert infill.core_modulus_bracket(1.0, 0.1, 50, power) == Bracket(1, 1)
    assert infill.core_modulus_bracket(0.0, 0.1, 50, power) == Bracket(0, 0)


@pytest.mark.parametrize("wrong", [-0.1, 1.1, 15])
def test_what_is_no_share_is_refused(wrong: float) -> None:
    with pytest.raises(ValueError, match="is a share"):
        infill.core_modulus_bracket(wrong, 100, 5)


def test_the_oracle_finds_a_plate_of_layers_exactly() -> None:
    """Layers of solid and nothing, loaded along: density times E / (1 - nu^2), by plate theory."""
    import numpy as np

    from tests.physics.oracle_gyroid import POISSON, mean_stress

    plates = np.zeros((16, 16, 16), dtype=bool)
    plates[:, :, :8] = True
    assert mean_stress(plates)[0] == pytest.approx(0.5 / (1 - POISSON**2), rel=1e-9)


def test_the_oracle_finds_the_published_poisson_ratio() -> None:
    """Gyroid lattices: 0.34 +- 0.06, DeValk & Lakes 2021, phys. stat. sol. (b)."""
    from tests.physics.oracle_gyroid import gyroid_sheet, mean_stress

    stress = mean_stress(gyroid_sheet(24, 0.30))
    across = (stress[1] + stress[2]) / 2
    assert across / (stress[0] + across) == pytest.approx(0.34, abs=0.06)
