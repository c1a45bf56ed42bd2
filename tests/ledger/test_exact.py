"""Numbers of a ledger: no digit is lost, and what a stranger wrote is bounded from both sides."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from profilesmith.facts.facts import Hardness
from profilesmith.ledger.exact import (
    LONGEST_FRACTION,
    MOST_FIGURES,
    fact_json,
    fact_of,
    fact_text,
    number_json,
    number_of,
    number_text,
    suits,
    values_json,
    values_of,
    values_text,
)
from profilesmith.ledger.plain_forms import encode
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

F = Fraction
TEN_15 = 10**15


def fraction(text: str) -> dict[str, Any]:
    return {"exact": text, "about": 1.0}


def test_whole_numbers_are_written_as_such_while_a_reader_can_take_them() -> None:
    for sign in (1, -1):
        assert type(number_json(F(sign * (MOST_FIGURES - 1)))) is int
        assert type(number_json(F(sign * MOST_FIGURES))) is not int
    for number in (
        F(40),
        F(1, 5),
        F(50, 3),
        F(MOST_FIGURES - 1),
        F(MOST_FIGURES),
        F(-MOST_FIGURES),
        F(1 - MOST_FIGURES),
    ):
        assert number_text(number) == encode(number_json(number))
    assert (number_json(F(1, 5)), number_json(F(50, 3))) == (0.2, {"exact": "50/3", "about": 50 / 3})


def test_fractions_are_bounded_from_both_sides() -> None:
    longest = "1/" + "9" * (LONGEST_FRACTION - 2)
    assert number_of(fraction(longest)).numerator == 1
    for text in (longest + "9", "1/0", "1/", "x", "1/2/3", "1.5", "", " 1"):
        with pytest.raises(ValueError, match="no fraction"):
            number_of(fraction(text))
    assert number_of(fraction(f"-{TEN_15}")) == -TEN_15
    for text in (f"{TEN_15 + 1}", f"-{TEN_15 + 1}"):
        with pytest.raises(ValueError, match="too large"):
            number_of(fraction(text))


@pytest.mark.parametrize("item", [True, False, 0.5, "1", None, []])
def test_what_is_no_number_is_refused(item: Any) -> None:
    with pytest.raises(TypeError):
        number_of(item)


@pytest.mark.parametrize("values", [(), (F(1),), (F(1), F(50, 3)), (True,), (False, True), ("grid",)])
def test_values_of_tools_come_back(values: tuple[Any, ...]) -> None:
    data = values_json(values)
    assert values_text(values) == encode(data)
    assert values_of(data) == values
    assert isinstance(data, list) is (len(values) > 1)


@pytest.mark.parametrize("fact", [F(50, 3), "direct", (F(210), F(641, 3)), Hardness(F(95), "A"), Hardness(F(60), "D")])
def test_facts_come_back(fact: Any) -> None:
    assert fact_of(fact_json(fact)) == fact
    assert fact_text(fact) == encode(fact_json(fact))


def test_a_hardness_has_one_of_two_scales() -> None:
    with pytest.raises(ValueError, match="C"):
        fact_of({"number": 60, "shore": "C"})


def test_a_switch_takes_no_number_and_a_number_no_switch() -> None:
    settings = load_vocabulary().settings
    kinds = {"layer.height": F(1, 5), "raft.on": True, "infill.pattern": "grid"}
    for name in kinds:
        assert [other for other, value in kinds.items() if suits((value, value), settings[name])] == [name]
    assert not suits((F(1), True), settings["layer.height"])  # one of several tools is enough
