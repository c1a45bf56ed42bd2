"""How numbers are written, and what of it another number cannot show. The texts are our own."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.foundation.number import read_number
from profilesmith.translation.written_number import PLAIN, number_text, spell, style_lost, style_of, ungrouped
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


@pytest.mark.parametrize(
    ("number", "habit", "text"),
    [
        ("1/1000", 0, "0.001"),
        ("1/1000", 5, "0.00100"),
        ("1e-15", 0, "0.000000000000001"),  # finer than any habit, and still exact
        ("1e-19", 0, "0.0000000000000000001"),
        ("1e-20", 0, "0"),  # no text needs that
        ("1/3", 0, "0.333333333333"),
        ("2/3", 2, "0.666666666667"),
        ("5", 40, "5.000000000000"),
        ("40", 0, "40"),
    ],
)
def test_as_many_decimals_as_it_takes(number: str, habit: int, text: str) -> None:
    assert number_text(Fraction(number), habit, ".") == text
    assert number_text(Fraction(number), habit, ",") == text.replace(".", ",")


def test_the_style_of_a_text_without_a_number_is_plain() -> None:
    for number, text in ((Fraction(5), "5"), (Fraction(1, 2), "0.5"), (Fraction(-3), "-3"), (Fraction(12000), "12000")):
        assert spell(number, PLAIN, ".") == text
    assert spell(Fraction(12000), PLAIN, ".", ",") == "12,000"
    assert PLAIN.is_plain


@pytest.mark.parametrize(
    ("text", "plain"),
    [("60", True), ("060", False), (".5", False), ("5.", False), ("+5", False), ("1e3", False), ("0", True)],
)
def test_what_another_number_may_be_unable_to_show(text: str, plain: bool) -> None:
    assert style_of(text, ".").is_plain is plain


def test_decimals_end_where_no_text_needs_more() -> None:
    assert style_of("0." + "1" * 12, ".").decimals == 12
    assert style_of("0." + "1" * 13, ".").decimals == 12
    assert style_of("0." + "1" * 11, ".").decimals == 11


@pytest.mark.parametrize(
    ("number", "text"),
    [
        ("2000", "2e3"),
        ("1/1024", "0.0009765625e0"),
        ("1/1073741824", "0.000000000931"),  # 2 to the minus 30 has more decimals than a text is given
    ],
)
def test_an_exponent_stays_where_the_number_can_be_shown_with_it(number: str, text: str) -> None:
    style = style_of("1e3" if number == "2000" else "1e0", ".")
    assert spell(Fraction(number), style, ".") == text


@pytest.mark.parametrize(
    ("old", "number", "new"),
    [
        ("007", "5", "005"),  # zeros that fill up three places are no groups
        ("12,000", "900", "900"),
        ("12,000", "1234567", "1,234,567"),
        ("12000", "1234567", "1234567"),  # this text groups nothing
        ("900", "12000", "12,000"),
        ("-12,000.5", "-1234.25", "-1,234.25"),
    ],
)
def test_digits_are_grouped_where_the_text_does_it(old: str, number: str, new: str) -> None:
    assert spell(Fraction(number), style_of(old, ".", ","), ".", ",") == new
