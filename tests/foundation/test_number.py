"""Exact numbers from texts and back. Outside check: Python's decimal module, which shares no code with us."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest

from profilesmith.foundation.number import decimal_text, plain_text, read_number, written_decimals

NUMBERS = [
    "0",
    "7",
    "-3",
    "+12",
    "0.2",
    ".5",
    "5.",
    "-0.15",
    "1e3",
    "2.5E-2",
    "0007",
    "123456789012",
    "0.123456789012345678",
]


@pytest.mark.parametrize("text", NUMBERS)
def test_a_number_is_read_exactly(text: str) -> None:
    assert read_number(text) == Fraction(Decimal(text))


@pytest.mark.parametrize(
    "text",
    [
        "",
        " 1",
        "1 ",
        "1,5",
        "1.2.3",
        "e5",
        ".",
        "+",
        "--1",
        "0x10",
        "1_000",
        "NaN",
        "inf",
        "-Infinity",
        "1e999",
        "1e",
        "9" * 13,
        "1" * 41,
        "½",
        "１２",
        "٣",
    ],
)
def test_what_is_no_number_or_too_large_is_none(text: str) -> None:
    assert read_number(text) is None


def test_a_million_digits_are_not_even_looked_at(monkeypatch: pytest.MonkeyPatch) -> None:
    import profilesmith.foundation.number as module

    for name in ("Fraction", "_WITH_EXPONENT"):
        monkeypatch.setattr(module, name, None)  # any use would fail
    assert read_number("9" * 1_000_000) is None


@pytest.mark.parametrize(("text", "value"), [("0,2", "0.2"), ("-1,50", "-1.5"), ("12", "12"), (",5", "0.5")])
def test_a_decimal_comma(text: str, value: str) -> None:
    assert read_number(text, ",") == Fraction(value)


@pytest.mark.parametrize("text", ["0.2", "1,2,3", "1.234,5"])
def test_with_a_decimal_comma_a_point_is_no_number(text: str) -> None:
    assert read_number(text, ",") is None


@pytest.mark.parametrize(
    ("text", "mark", "places"),
    [("12", ".", 0), ("12.50", ".", 2), ("1,250", ",", 3), ("1.5e3", ".", 1), ("5.", ".", 0)],
)
def test_decimals_as_written(text: str, mark: str, places: int) -> None:
    assert written_decimals(text, mark) == places


@pytest.mark.parametrize("value", ["0", "0.005", "-0.005", "2.675", "-2.675", "1/3", "199/1000", "99.995", "1e11"])
@pytest.mark.parametrize("places", [0, 1, 2, 5])
def test_rounding_is_half_away_from_zero_as_decimal_does_it(value: str, places: int) -> None:
    exact = Fraction(value)
    wide = Decimal(exact.numerator) / Decimal(exact.denominator)
    rounded = wide.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)
    assert Fraction(decimal_text(exact, places)) == Fraction(rounded)


@pytest.mark.parametrize(
    ("value", "places", "at_least", "text"),
    [
        ("40", 2, 0, "40"),
        ("40", 2, 1, "40.0"),
        ("40", 2, 5, "40.00"),
        ("0.2", 3, 0, "0.2"),
        ("-0.001", 2, 0, "0"),
        ("-1.5", 1, 0, "-1.5"),
        ("0.05", 2, 0, "0.05"),
        ("1000", 0, 0, "1000"),
    ],
)
def test_idle_zeros_are_dropped_down_to_the_habit(value: str, places: int, at_least: int, text: str) -> None:
    assert decimal_text(Fraction(value), places, at_least) == text


def test_for_people_four_decimals_are_enough() -> None:
    assert plain_text(Fraction(1, 3)) == "0.3333"
