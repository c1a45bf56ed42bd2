"""What a ledger from a stranger may hold: each bound from both sides, since one that is off by one is no bound."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from profilesmith.ledger.bounds import DEEPEST, LONGEST_NUMBER, exact, hold, load, whole


def nested(lists: int) -> list[Any]:
    inner: list[Any] = []
    for _ in range(lists - 1):
        inner = [inner]
    return inner


def test_numbers_are_as_long_as_can_be_worked_with() -> None:
    assert whole("9" * LONGEST_NUMBER) == 10**LONGEST_NUMBER - 1
    assert exact("0." + "3" * (LONGEST_NUMBER - 2)).denominator == 10 ** (LONGEST_NUMBER - 2)
    for read, text in ((whole, "9" * (LONGEST_NUMBER + 1)), (exact, "0." + "3" * (LONGEST_NUMBER - 1))):
        with pytest.raises(ValueError, match="too long"):
            read(text)


@pytest.mark.parametrize("sign", ["", "-"])
def test_numbers_are_as_large_as_can_be_worked_with(sign: str) -> None:
    assert abs(exact(f"{sign}1e15")) == 10**15
    for text in ("1000000000000001.0", "1e16", "1e999"):
        with pytest.raises(ValueError, match="too large"):
            exact(sign + text)


@pytest.mark.parametrize("text", ["1e9999", "1E+99999", "1e-9999"])
def test_an_exponent_that_would_fill_the_memory_is_never_worked_out(text: str) -> None:
    with pytest.raises(ValueError, match="too long"):
        exact(text)


def test_a_text_is_read_without_losing_a_digit() -> None:
    assert load('{"a": 0.1, "b": [40, true]}') == {"a": Fraction(1, 10), "b": [40, True]}
    for word in ("NaN", "Infinity", "-Infinity"):
        with pytest.raises(ValueError, match=word):
            load(f'{{"a": {word}}}')


def test_as_deep_as_a_ledger_goes_and_no_deeper() -> None:
    hold({"a": nested(DEEPEST - 1)})  # the ledger itself is the first
    hold({"a": {"b": nested(DEEPEST - 2)}})
    for deeper in ({"a": nested(DEEPEST)}, {"a": {"b": nested(DEEPEST - 1)}}, {"a": [1, nested(DEEPEST - 1)]}):
        with pytest.raises(ValueError, match="nested"):
            hold(deeper)


@pytest.mark.parametrize("name", ["", ".", "..", "a/b", "../a", "a\\b", "a\0b"])
def test_an_output_stands_beside_its_ledger(name: str) -> None:
    hold({"outputs": [{"name": "a.cfg"}, {"name": "..a"}, {"name": "ü [1]"}]})
    with pytest.raises(ValueError, match="elsewhere"):
        hold({"outputs": [{"name": "a.cfg"}, {"name": name}]})
