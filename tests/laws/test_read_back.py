"""Read-back: reading the exported bytes gives exactly the derived profile, every written value inside every bound."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given

from profilesmith.foundation.problem import Refused
from profilesmith.workflows.read import read
from profilesmith.workflows.request import Request
from tests.laws.running import law, plain, put, read_again, run
from tests.laws.spellings import NUMBERS
from tests.laws.strategies import Scenario, scenarios


@law(80)
@given(scenarios())
def test_two_readers_find_the_derived_profile(scenario: Scenario) -> None:
    outcome = run(scenario)
    if outcome.problems:
        return
    derived = {name: entry.values for name, entry in outcome.derivation.ledger.derived.entries.items()}
    assert read_again(outcome) == derived
    independent = outcome.values(after=True)
    assert {name: derived[name] for name in independent} == independent
    assert set(derived) - set(independent) <= set(scenario.addable)


@law(80)
@given(scenarios())
def test_every_written_value_is_inside_every_bound(scenario: Scenario) -> None:
    outcome = run(scenario)
    if outcome.problems:
        return
    before, after = outcome.values(after=False), outcome.values(after=True)
    after |= {name: values for name, values in read_again(outcome).items() if name in scenario.addable}
    for setting, values in after.items():
        bounds = scenario.book.bounds(setting, before, after) if setting in NUMBERS else None
        for value in values if bounds else ():
            assert isinstance(value, Fraction)
            assert bounds.holds(value), f"{setting}: {value} is past {bounds}"
            assert NUMBERS[setting].kind != "count" or value.denominator == 1


RINGS = '[[binding]]\nsetting = "wall.count"\nkey = "rings"\n[[binding]]\nsetting = "bottom.layers"\nkey = "sole"\n'
HALF = '{ of = "bottom.layers", times = '


@pytest.mark.parametrize(
    "rules",
    [
        f'[[rule]]\nsetting = "wall.count"\nset = {HALF}0.5 }}\n',
        f'[[rule]]\nsetting = "wall.count"\ncap = {HALF}0.56 }}\nraise_to = {HALF}0.44 }}\n',
    ],
    ids=["exactly two and a half", "between 2.2 and 2.8"],
)
def test_a_count_stays_whole_or_is_refused(rules: str) -> None:
    """Half of five layers is no count: a conflict that writes nothing, never ``rings = 2.5``."""
    try:
        derivation = plain("rings = 7\nsole = 5\n", RINGS, rules)
    except Refused:
        return
    if derivation.problems:
        assert not derivation.outputs
    else:
        assert derivation.outputs[0].split()[2].isdigit(), derivation.outputs


def test_an_exact_value_is_never_rounded_past_a_bound() -> None:
    """0.2 mm is 0.00787... in: the text holds 0.0078 or 0.0079, and only the first is under the cap of 0.2 mm."""
    binding = '[[binding]]\nsetting = "layer.height"\nkey = "ply"\nunit = "in"\n'
    rules = '[[rule]]\nsetting = "layer.height"\nset = "0.2 mm"\n[[rule]]\nsetting = "layer.height"\ncap = "0.2 mm"\n'
    derivation = plain("ply = 0.012\n", binding, rules)
    for raw in derivation.outputs:
        assert Fraction(raw.split()[2].decode()) * Fraction("25.4") <= Fraction("0.2")


def test_a_value_that_follows_stays_readable() -> None:
    """A fifth of 2 mm/s is below any plausible speed: refuse, rather than write a text that nobody can read again."""
    bindings = (
        '[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n'
        '[[binding]]\nsetting = "first_layer.speed"\nkey = "sole"\nunit = "%"\nrelative_to = "outer_wall.speed"\n'
    )
    derivation = plain("rim = 50\nsole = 20\n", bindings, '[[rule]]\nsetting = "outer_wall.speed"\ncap = "2 mm/s"\n')
    if derivation.outputs:
        key_map = put("plain-map.toml", f'format = 1\n[keymap]\nname = "plain"\n{bindings}')
        read(Request(bases=(put("again.cfg", derivation.outputs[0]),), key_map=key_map))  # raises Refused today
    else:
        assert derivation.problems
