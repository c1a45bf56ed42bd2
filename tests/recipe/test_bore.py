"""The nozzle's bore: what a text says answers for the facts, where it says one thing."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from profilesmith.facts.facts import Fact
from profilesmith.foundation.place import Place
from profilesmith.profile.profile import profile_of
from profilesmith.recipe.bore import BORE, FITTED, with_bore

F = Fraction


@pytest.mark.parametrize(
    ("values", "bore"),
    [
        ((F("0.4"),), F("0.4")),
        ((F("0.4"), F("0.4")), F("0.4")),  # both tools have it
        ((F("0.4"), F("0.6")), None),  # which of them prints, nobody said
        ((F(0),), None),  # a text that does not know it
        ((F(-1),), None),
        (("0.4",), None),
        ((True,), None),
        ((), None),
    ],
)
def test_the_text_answers_where_it_names_one_bore(values: tuple[Any, ...], bore: Fraction | None) -> None:
    facts = with_bore(profile_of({BORE: values} if values else {}), {})
    assert (facts[FITTED].value if facts else None) == bore


def test_the_facts_file_goes_first() -> None:
    facts = {FITTED: Fact(F("0.6"), Place("facts.toml", 1))}
    assert with_bore(profile_of({BORE: (F("0.4"),)}), facts) is facts
