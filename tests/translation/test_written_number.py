"""How numbers are written, and what of it another number cannot show. The texts are our own."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.foundation.number import read_number
from profilesmith.translation.written_number import spell, style_lost, style_of, ungrouped
from tests.laws.running import law


@pytest.mark.parametrize(
    ("old", "number", "new", "back"),
    [
        ("0700", "900", "0900", "0700"),
        ("0700", "1200", "1200", "700"),
        ("-05", "7", "07", "-05"),
        ("007.5", "12.5", "012.5", "007.5"),
        (".5", "0.25", ".25", ".50"),
        (".5", "0.7", ".7", ".5"),
        (".5", "1.5", "1.5", "0.5"),
        ("5.", "7", "7.", "5."),
        ("+5", "7", "+7", "+5"),
        ("+5", "-7", "-7", "5"),
        ("1.5e3", "2000", "2.0e3", "1.5e3"),
        ("15E-2", "0.2", "20E-2", "15E-2"),
        ("60", "40", "40", "60"),
        ("0", "0.5", "0.5", "0.0"),
        (
            "1.5e99",
            "7",
            "7.0",
            "1500000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000.0",
        ),
    ],
)
def test_a_number_in_the_style_of_another(old: str, number: str, new: str, back: str) -> None:
    assert spell(Fraction(number), style_of(old, "."), ".") == new
    assert spell(Fraction(old), style_of(new, "."), ".") == back


@pytest.mark.parametrize(
    ("old", "new", "lost"),
    [
        ("0700", "1200", "zeros"),
        ("0700", "0900", ""),
        (".5", "1.5", "bare"),
        ("5.", "7.5", "open"),
        ("+5", "-7", "plus"),
        ("60", "40.5", ""),
        ("12000", "900", "ungrouped"),
        ("12,000", "900", ""),
        ("900", "12,000", ""),
    ],
)
def test_what_a_number_cannot_show(old: str, new: str, lost: str) -> None:
    assert style_lost(old, new, ".", ",") == ((old, new, lost) if lost else ())


@law(300)
@given(
    st.sampled_from(
        ("0700", "12", "0.50", ".25", "5.", "+5", "1.5e3", "25E-1", "-3", "00.5", "12,000", "1,234,567.5", "900")
    ),
    st.fractions(-5000, 5000, max_denominator=1000),
)
def test_written_reads_as_meant_and_comes_back(old: str, number: Fraction) -> None:
    """Whatever the style, the number is the one meant; and set back, the text is the old one unless it is said."""
    number = Fraction(round(number * 1000), 1000)
    new = spell(number, style_of(old, ".", ","), ".", ",")
    assert read_number(ungrouped(new, ",")) == number
    short = style_of(new, ".", ",").decimals <= style_of(old, ".", ",").decimals
    before = read_number(ungrouped(old, ","))
    assert before is not None
    if short and not style_lost(old, new, ".", ","):
        assert spell(before, style_of(new, ".", ","), ".", ",") == old


@pytest.mark.parametrize(
    ("text", "mark", "plain"),
    [
        ("12,000", ",", "12000"),
        ("12,000.5 mm/min", ",", "12000.5 mm/min"),
        ("1.234.567,5", ".", "1234567,5"),
        ("12\u202f000 mm/min", "\u202f", "12000 mm/min"),
        ("1,2,3", ",", "1,2,3"),
        ("1,2345", ",", "1,2345"),
        ("12,000,00", ",", "12,000,00"),
        ("12,000", "", "12,000"),
        ("0,5", ",", "0,5"),
    ],
)
def test_groups_of_three(text: str, mark: str, plain: str) -> None:
    assert ungrouped(text, mark) == plain
