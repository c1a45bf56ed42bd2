"""Units. Outside checks: pint, a unit library that shares no code with us; the exact factors of NIST Special
Publication 811 (2008), appendix B: inch 25.4 mm (B.8), t/°C = (t/°F - 32)/1.8 (B.8), T/K = t/°C + 273.15 (SI brochure).
"""

from __future__ import annotations

import re
from fractions import Fraction

import pint
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from profilesmith.foundation.quantity import (
    CANONICAL,
    UNITS,
    find_unit,
    read_quantity,
    show_quantity,
    split_quantity,
    unit_before_words,
    unit_names,
)

PINT = {
    "um": "micrometer",
    "in": "inch",
    "mil": "milliinch",
    "1/10 mm": "decimillimeter",
    "1/100 mm": "centimillimeter",
    "‰": "permille",
    "cm/min": "cm/minute",
    "mm/min": "mm/minute",
    "m/min": "m/minute",
    "in/s": "inch/s",
    "in/min": "inch/minute",
    "mm/s2": "mm/s**2",
    "m/s2": "m/s**2",
    "in/s2": "inch/s**2",
    "cm/s2": "cm/s**2",
    "%": "percent",
    "fraction": "dimensionless",
    "°": "degree",
    "min": "minute",
    "h": "hour",
    "mm3/s": "mm**3/s",
    "cm3/h": "cm**3/hour",
    "mm3/min": "mm**3/minute",
    "cm3/min": "cm**3/minute",
    "in3/min": "inch**3/minute",
    "g/cm3": "g/cm**3",
    "kg/m3": "kg/m**3",
    "mm2": "mm**2",
    "°C": "degC",
    "°F": "degF",
    "K": "kelvin",
    "rad": "radian",
}
REGISTRY: pint.UnitRegistry = pint.UnitRegistry(autoconvert_offset_to_baseunit=False)
REGISTRY.define("decimillimeter = 0.1 mm")
REGISTRY.define("centimillimeter = 0.01 mm")
CANONICAL_PINT = {kind: PINT.get(unit, unit) for kind, unit in CANONICAL.items()}
KNOWN_TO_PINT = [name for name in UNITS if name != "0-255"]


@pytest.mark.parametrize("name", KNOWN_TO_PINT)
@pytest.mark.parametrize("number", [0, 1, -40, 12.5])
def test_every_unit_agrees_with_pint(name: str, number: float) -> None:
    unit = UNITS[name]
    theirs = REGISTRY.Quantity(number, PINT.get(name, name)).to(CANONICAL_PINT[unit.kind]).magnitude
    assert float(unit.to_canonical(Fraction(number))) == pytest.approx(theirs, rel=1e-12, abs=1e-10)


@pytest.mark.parametrize("name", UNITS)
def test_there_and_back_is_exact(name: str) -> None:
    for number in (Fraction(0), Fraction(1), Fraction("36.84783"), Fraction(-40)):
        assert UNITS[name].from_canonical(UNITS[name].to_canonical(number)) == number


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("1 in", "length", "25.4"),
        ("446 °F", "temperature", "230"),
        ("32 F", "temperature", "0"),
        ("-40 °F", "temperature", "-40"),
        ("0 K", "temperature", "-273.15"),
        ("3600 mm/min", "speed", "60"),
        ("0.4 in/s", "speed", "10.16"),
        ("2400 mm/min", "speed", "40"),
        ("5 mm3/s", "flow", "5"),
        ("18 cm³/h", "flow", "5"),
        ("1240 kg/m³", "density", "1.24"),
        ("6 h", "duration", "21600"),
        ("0.3 fraction", "ratio", "30"),
        ("51 0-255", "ratio", "20"),
        ("200 µm", "length", "0.2"),
        ("90 deg", "angle", "90"),
        ("1 m/s²", "acceleration", "1000"),
        ("1 mm/s^2", "acceleration", "1"),
        ("7", "count", "7"),
        ("3 GPa", "pressure", "3000"),
    ],
)
def test_exact_values(text: str, kind: str, value: str) -> None:
    """NIST SP 811 appendix B for inch and °F; the rest are powers of ten and the minute."""
    assert read_quantity(text, kind) == Fraction(value)


def test_a_temperature_difference_has_no_zero_point() -> None:
    """NIST SP 811 appendix B.8: an interval of 1 °F is 5/9 of one of 1 °C. Pint: 10 delta_degC are 18 delta_degF."""
    assert read_quantity("18 °F", "temperature", difference=True) == 10
    assert REGISTRY.Quantity(10, "delta_degC").to("delta_degF").magnitude == pytest.approx(18)


@pytest.mark.parametrize(
    ("text", "kind", "word"),
    [
        ("40 mm", "speed", "'mm'"),
        ("40", "speed", "no unit"),
        ("fast", "speed", "not a number"),
        ("", "speed", "not a number"),
        ("7 mm", "count", "not a count"),
        ("40 mm/s", "length", "'mm/s'"),
        ("1e999 mm", "length", "no"),
        ("210-220 °C", "temperature", "°C"),
        ("50 %", "length", "'%'"),
    ],
)
def test_what_is_no_quantity_says_why(text: str, kind: str, word: str) -> None:
    found = read_quantity(text, kind)
    assert isinstance(found, str)
    assert word in found


@pytest.mark.parametrize("text", ["1e999", "9" * 60, "1.2.3"])
def test_no_part_of_a_number_is_taken_for_the_whole(text: str) -> None:
    assert split_quantity(text)[0] is None


@pytest.mark.parametrize(
    ("text", "decimal", "parts"),
    [
        ("60mm/s", ".", ("60", "mm/s")),
        (" 2,5 mm ", ",", ("2.5", "mm")),
        ("1e2 %", ".", ("100", "%")),
        ("45°", ".", ("45", "°")),
        ("5.mm", ".", ("5", "mm")),
    ],
)
def test_number_and_unit_are_told_apart(text: str, decimal: str, parts: tuple[str, str]) -> None:
    assert split_quantity(text, decimal) == (Fraction(parts[0]), parts[1])


@pytest.mark.parametrize(
    ("spelling", "name"),
    [
        ("C", "°C"),
        ("℃", "°C"),
        ("degF", "°F"),
        ("μm", "um"),
        ("µm", "um"),
        ("inch", "in"),
        ("deg", "°"),
        ("MM/S", "mm/s"),
        ("mm**3/s", "mm3/s"),
        ("percent", "%"),
        ("byte", "0-255"),
        (" mm ", "mm"),
        ("mm/s²", "mm/s2"),
        ("ips", "in/s"),
        ("mm per second", "mm/s"),
        ("mm/mn", "mm/min"),
        ("degrees C", "°C"),
        ("Prozent", "%"),
        ("pouces", "in"),
    ],
)
def test_other_spellings(spelling: str, name: str) -> None:
    unit = find_unit(spelling)
    assert unit is not None
    assert unit.name == name


@pytest.mark.parametrize("spelling", ["", "furlong", "mm / s", "c", "m m", "1"])
def test_unknown_units(spelling: str) -> None:
    assert find_unit(spelling) is None


def test_the_units_that_maps_may_name_are_all_there() -> None:
    """The list of the key map's description."""
    listed = (
        "mm um cm in mil m mm/s mm/min cm/s cm/min m/min in/s in/min mm/s2 C F K % fraction 0-255 deg rad s "
        "ms min mm3/s g/cm3 kg/m3"
    )
    assert [name for name in listed.split() if find_unit(name) is None] == []
    assert set(unit_names("speed")) >= {"mm/s", "mm/min", "cm/s", "m/min", "in/s", "in/min"}


@pytest.mark.parametrize(
    ("value", "kind", "text"),
    [
        ("40", "speed", "40 mm/s"),
        ("65", "angle", "65°"),
        ("7", "count", "7"),
        ("1/3", "length", "0.3333 mm"),
        ("1000", "acceleration", "1000 mm/s²"),
        ("4", "flow", "4 mm³/s"),
    ],
)
def test_shown_for_a_person(value: str, kind: str, text: str) -> None:
    assert show_quantity(Fraction(value), kind) == text


@pytest.mark.parametrize(
    ("suffix", "unit", "words"),
    [
        ("% of inner", "%", "of inner"),
        ("% von K04", "%", "von K04"),
        ("deg off plumb", "°", "off plumb"),
        ("deg C", "°C", ""),
        ("of rate.core", "fraction", "of rate.core"),
        ("von Rate 2", "fraction", "von Rate 2"),
        ("x core pace", "fraction", "x core pace"),
        ("of 3", None, ""),
        ("offset", None, "offset"),
        ("layers", None, "layers"),
        ("couches contre la pièce", None, "couches contre la pièce"),
        ("mm x 5", None, ""),
        ("in all", None, "in all"),
        ("mm/s or 50", None, ""),
        ("", None, ""),
    ],
)
def test_words_behind_a_unit(suffix: str, unit: str | None, words: str) -> None:
    found, rest = unit_before_words(suffix)
    assert (found.name if found else None, rest) == (unit, words)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("mm per second", "mm/s"),
        ("mm per second squared", "mm/s2"),
        ("mm a second a second", "mm/s2"),
        ("mm/s per second", "mm/s2"),
        ("millimetres a minute", "mm/min"),
        ("inches per minute", "in/min"),
        ("Millimeter pro Minute", "mm/min"),
        ("mm je s", "mm/s"),
        ("mètres par minute", "m/min"),
        ("cubic mm a second", "mm3/s"),
        ("mm3 per second", "mm3/s"),
        ("in^3/min", "in3/min"),
        ("a second", ""),
        ("layers", ""),
        ("mm in all", ""),
    ],
)
def test_units_in_words(text: str, name: str) -> None:
    unit = find_unit(text)
    assert (unit.name if unit else "") == name


def test_the_longest_words_that_are_a_unit_are_read() -> None:
    unit, words = unit_before_words("mm per second squared of the frame")
    assert unit is not None
    assert (unit.name, words) == ("mm/s2", "of the frame")


NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)(?:[eE][+-]?[0-9]+)?")


def split_as_described(text: str, decimal: str) -> tuple[Fraction | None, str]:
    """The number that a text begins with, by one pattern: as long as it goes, and none where more of it follows."""
    text = text.strip()
    number = NUMBER.match(text)
    if not number or text[number.end() : number.end() + 1] in tuple(".,0123456789"):
        return None, text
    written, exponent = number.group(), number.group().lower().partition("e")[2].lstrip("+-")
    other = "," if decimal == "." else "."
    if other in written or len(exponent) > 2:
        return None, text
    value = Fraction(written.replace(decimal, "."))
    return (value, text[number.end() :].strip()) if abs(value) <= 10**12 else (None, text)


@given(st.text("0123456789.,+-eE mm²٣", max_size=12), st.sampled_from(".,"))
@example("5e", ".")
@example("1.2.3 mm", ".")
@example(",5 mm", ",")
@example("1e3mm", ".")
@example("12-13", ".")
def test_a_quantity_is_split_as_one_pattern_would(text: str, decimal: str) -> None:
    """Most are split without a pattern, which nobody may notice."""
    assert split_quantity(text, decimal) == split_as_described(text, decimal)
