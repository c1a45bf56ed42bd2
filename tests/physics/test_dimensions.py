"""Units, through pint: every function is a law of nature only if it does not care in which units lengths, times and
masses are counted. The unit of a number is read off its name, its dimensions come from pint.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import cache
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.physics import bead, drying, infill, section
from profilesmith.physics.answer import Bracket, NotValid
from tests.physics.ranges import law
from tests.physics.samples import EXEMPT, SAMPLES, functions

u = pint.UnitRegistry()
# Endings of names, the longest first.
ENDINGS = {
    "mm_per_mm": "",
    "w_m_k": "W/m/K",
    "j_kg_k": "J/kg/K",
    "g_cm3": "g/cm^3",
    "mm3_s": "mm^3/s",
    "mm2_s": "mm^2/s",
    "m2_s": "m^2/s",
    "mm_s2": "mm/s^2",
    "mm_s": "mm/s",
    "n_per_mm": "N/mm",
    "n_mm": "N*mm",
    "mm4": "mm^4",
    "mm2": "mm^2",
    "pa_s": "Pa*s",
    "per_s": "1/s",
    "mpa": "MPa",
    "deg": "",
    "rad": "",
    "mm": "mm",
    "m": "m",
    "s": "s",
    "h": "hour",
    "n": "N",
    "g": "g",
}
# Functions whose answer is a bare number, though their name says a topic or a count.
BARE_ANSWERS = {
    "bending.coating_strain_bracket",
    "drying.moisture_left_after",
    "infill.core_modulus_bracket",
    "infill.cell_count",
    "surface.beads_for_thickness",
    "section.bending_bracket",
    "section.ordered_cores_bracket",
    "section.same_pattern_bracket",
    "section.shared_core_bracket",
    "moves.time_factor_bracket",
}
BARE = {
    "share",
    "ratio",
    "ratios",
    "factor",
    "friction",
    "fourier",
    "poisson",
    "directions",
    "beads",
    "power",
    "shares",
    "factors",
}


def unit_of(name: str) -> str:
    """The unit that a name ends in; "" for a bare number. Fails for a name that says neither."""
    for ending, unit in ENDINGS.items():
        if name == ending or name.endswith(f"_{ending}"):
            return unit
    assert name.rpartition("_")[2] in BARE, f"{name} names no unit"
    return ""


@cache
def powers(unit: str) -> dict[str, float]:
    """Powers of the base dimensions, by pint."""
    return {base: float(power) for base, power in u.Unit(unit).dimensionality.items()}


def scaled(value: Any, unit: str, scale: Mapping[str, float]) -> Any:
    """The same quantity, counted in other base units."""
    if isinstance(value, section.BarSection):
        parts = {name: scaled(part, unit_of(name), scale) for name, part in value._asdict().items()}
        return section.BarSection(**parts)
    if isinstance(value, list | tuple) and not isinstance(value, Bracket):
        return [scaled(part, unit, scale) for part in value]
    factor = math.prod(scale[base] ** power for base, power in powers(unit).items())
    return Bracket(value.low * factor, value.high * factor) if isinstance(value, Bracket) else value * factor


def parameter_unit(name: str, given: Mapping[str, Any]) -> str:
    return "" if name in ("section", "old", "new", "core", "stiffness") else unit_of(name)


def numbers(answer: Any) -> list[float]:
    assert not isinstance(answer, NotValid), answer
    return [*map(float, answer)] if isinstance(answer, Bracket | list) else [float(answer)]


def test_every_function_is_sampled_or_says_why_not() -> None:
    assert set(functions()) == set(SAMPLES) | set(EXEMPT)
    assert not set(SAMPLES) & set(EXEMPT)
    assert all(EXEMPT.values())


@pytest.mark.parametrize("name", sorted(SAMPLES))
@law
@given(st.floats(0.2, 5), st.floats(0.2, 5), st.floats(0.2, 5), st.floats(0.2, 5))
def test_units_do_not_matter(name: str, length: float, time: float, mass: float, warmth: float) -> None:
    scale = {"[length]": length, "[time]": time, "[mass]": mass, "[temperature]": warmth}
    function, given = functions()[name], SAMPLES[name]
    recounted = {key: scaled(value, parameter_unit(key, given), scale) for key, value in given.items()}
    unit = "" if name in BARE_ANSWERS else unit_of(name.partition(".")[2])
    expected = [scaled(number, unit, scale) for number in numbers(function(**given))]
    assert numbers(function(**recounted)) == pytest.approx(expected, rel=1e-9)


def test_a_wrong_formula_would_be_found() -> None:
    """The check can fail: a length that is taken for an area."""
    assert scaled(2.0, unit_of("bead_area_mm2"), {"[length]": 3.0}) == pytest.approx(18.0)
    assert scaled(2.0, unit_of("width_mm"), {"[length]": 3.0}) == pytest.approx(6.0)
    with pytest.raises(AssertionError, match="names no unit"):
        unit_of("bead_thing")


q = u.Quantity
AREA = math.pi * q(1.75, "mm") ** 2 / 4
WITH_PINT = {
    # what we get, the formula in quantities, the unit of our name
    "filament": (bead.filament_length_m(1000, 1.75, 1.24), q(1, "kg") / (q(1240, "kg/m^3") * AREA), "m"),
    "tip": (
        section.tip_stiffness_n_per_mm(26, 9.72, 50),
        3 * q(0.026, "GPa") * q(9.72e-12, "m^4") / q(5, "cm") ** 3,
        "N/mm",
    ),
    "plate": (
        infill.plate_stiffness_n_mm(13, 0.8, 0.5),
        q(13, "MPa") * q(0.8, "mm") ** 3 / (12 * 0.75),
        "N*mm",
    ),
    "drying": (
        drying.drying_time_h(0.1, 1.75, 2e-12),
        0.3344132 * q(0.875, "mm") ** 2 / q(2e-12, "m^2/s"),
        "hour",
    ),
}


@pytest.mark.parametrize(("ours", "theirs", "unit"), WITH_PINT.values(), ids=WITH_PINT)
def test_factors_between_units(ours: float, theirs: Any, unit: str) -> None:
    assert ours == pytest.approx(float(theirs.to(unit).magnitude), rel=1e-6)


def test_warming_in_kelvin() -> None:
    """Arrhenius' law with pint's own gas constant and its own step from degC to kelvin."""
    cold, warm = (u.Quantity(degrees, "degC").to("kelvin") for degrees in (20, 60))
    exponent = u.Quantity(40, "kJ/mol") / u.molar_gas_constant * (1 / cold - 1 / warm)
    assert drying.warming_speedup_ratio(40, 20, 60) == pytest.approx(math.exp(exponent.to("").magnitude), rel=1e-8)
