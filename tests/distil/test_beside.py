"""Values near one another are a window with an aim; a first layer that is always hotter is told so, with its bound."""

from __future__ import annotations

from fractions import Fraction

import pytest

from profilesmith.distil.distil import distil
from profilesmith.distil.finding import Distilled
from profilesmith.distil.replay import Replay, replay, windows_of
from profilesmith.distil.sample import Sample, world_of
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.recipe import Recipe
from profilesmith.reports.distil_report import report_json
from profilesmith.review.distilled.as_rule import rules_of
from profilesmith.review.distilled.reasons import evidence_text
from profilesmith.review.distilled.remarks import meaning
from tests.distil.hidden import recipe_of
from tests.distil.small import VOCABULARY, find, laws, only, pair, profile

NOZZLE, FIRST = "nozzle.temperature", "first_layer.nozzle_temperature"
Change = tuple[float, float, float, float]


def tuned(*changes: Change, material: str = "") -> list[Sample]:
    """Pairs of whole degrees: nozzle before and after, first layer before and after, each of a machine of its own."""
    facts = {"spool.material": material} if material else None
    return [
        pair({NOZZLE: base, FIRST: first}, {NOZZLE: soft, FIRST: soft_first}, f"m{number}", facts, written="1")
        for number, (base, soft, first, soft_first) in enumerate(changes)
    ]


def recipe(found: Distilled) -> Recipe:
    made = rules_of(found.findings, len(found.samples), VOCABULARY)
    return recipe_of("distilled", tuple(rule for rule, _, _ in made))


def replayed(samples: list[Sample], found: Distilled) -> Replay:
    seen = [item for items in world_of(samples, VOCABULARY).seen.values() for item in items]
    return replay(samples, [[recipe(found)]] * len(samples), seen, VOCABULARY, windows_of(found.findings))


def derived(found: Distilled, nozzle: float, first: float) -> tuple[Fraction, Fraction]:
    ledger = apply_recipes(profile({NOZZLE: nozzle, FIRST: first}), [recipe(found)], {}, {}, VOCABULARY)
    assert not ledger.problems
    return ledger.derived.values(NOZZLE)[0], ledger.derived.values(FIRST)[0]  # type: ignore[return-value]


def test_225_226_227_are_an_aim_with_a_window_and_said_so() -> None:
    samples = tuned((205, 225, 215, 215), (210, 226, 215, 215), (200, 227, 215, 215))
    found = find(samples)
    assert laws(found) == [(NOZZLE, 'aim = "226 °C", window = ["225 °C", "227 °C"]')]
    assert found.tweaks == ()
    told = meaning(only(found), found.samples, VOCABULARY)[0]
    assert told.startswith("The pairs lie near one another, from 225 °C to 227 °C; 226 °C is one in the middle")
    assert "each to a place of its own inside" in evidence_text(only(found))
    result = replayed(samples, found)
    assert (result.exact, result.inside, result.misses) == (4, 2, ())
    assert derived(found, 190, 215) == derived(found, 250, 215) == (226, 215)


def test_a_base_inside_that_was_left_alone_speaks_for_a_window_alone() -> None:
    changes = ((205, 225), (210, 226), (200, 227), (226, 226), (225, 225))
    found = find(tuned(*((base, soft, 215, 215) for base, soft in changes)))
    assert laws(found) == [(NOZZLE, 'window = ["225 °C", "227 °C"]')]
    assert derived(found, 226, 215) == (226, 215)
    assert derived(found, 200, 215) == (225, 215)


@pytest.mark.parametrize(
    "changes", [((205, 225), (210, 233), (200, 241)), ((205, 225), (210, 226)), ((205, 225), (210, 226), (200, 200))]
)
def test_values_far_apart_or_of_two_pairs_are_no_window(changes: tuple[tuple[float, float], ...]) -> None:
    found = find(tuned(*((base, soft, 215, 215) for base, soft in changes)))
    assert not any(item.law.spread for item in found.findings)


def test_no_value_that_nobody_wrote_is_a_rounding_of_two_that_were_written() -> None:
    assert laws(find(tuned((205, 225, 215, 215), (210, 226, 215, 215)))) == []


ABOVE = 'aim = {of = "nozzle.temperature", plus = "20 °C"}, cap = "230 °C"'


def test_a_first_layer_always_20_above_has_a_bound_and_heats_no_base_of_230_to_250() -> None:
    samples = tuned((205, 205, 205, 225), (210, 210, 210, 230), (200, 200, 200, 220))
    found = find(samples)
    assert laws(found) == [(FIRST, ABOVE)]
    assert meaning(only(found), found.samples, VOCABULARY) == [
        "Always 20 °C above nozzle.temperature, but at most 230 °C: no pair went farther."
    ]
    assert {law.operation for law in only(found).rivals} == {"shift"}, "what the pairs cannot tell apart is named"
    assert replayed(samples, found).passed
    assert derived(found, 190, 190) == (190, 210)
    assert derived(found, 230, 230) == (230, 230)


def test_it_follows_a_nozzle_that_each_pair_moved_in_its_own_way() -> None:
    samples = tuned((205, 225, 205, 245), (210, 226, 210, 246), (200, 227, 200, 247))
    found = find(samples)
    assert laws(found)[0] == (FIRST, ABOVE.replace("230", "247"))
    result = replayed(samples, found)
    assert (result.inside, result.misses) == (4, ())


def test_one_temperature_for_all_is_no_step() -> None:
    found = find(tuned((205, 215, 205, 235), (210, 215, 210, 235), (200, 215, 200, 235)))
    assert laws(found) == [(FIRST, 'raise_to = "235 °C"'), (NOZZLE, 'raise_to = "215 °C"')]


def test_a_step_of_a_temperature_ends_where_the_pairs_ended() -> None:
    samples = tuned((205, 215, 200, 200), (210, 220, 205, 205), (200, 210, 215, 215), material="flexible PLA")
    found = find(samples)
    assert laws(found) == [(NOZZLE, 'shift = "10 °C"')]
    assert [rule.demand() for rule in recipe(found).rules] == ["shift 10 °C", "cap 220 °C"]
    assert meaning(only(found), found.samples, VOCABULARY) == [
        "Always 10 °C above what the base has, but at most 220 °C: no pair went farther."
    ]
    data = report_json(found, replayed(samples, found), replayed(samples, found), (), VOCABULARY)
    assert [(rule["law"], rule["bound"]) for rule in data["rules"]] == [('shift = "10 °C"', 'cap = "220 °C"')]
    assert derived(found, 200, 200)[0] == 210
    assert derived(found, 215, 200)[0] == 220


def test_a_step_downwards_ends_below() -> None:
    found = distil(tuned((225, 215, 200, 200), (220, 210, 205, 205), (230, 220, 215, 215)), VOCABULARY)
    assert [rule.demand() for rule in recipe(found).rules] == ["shift -10 °C", "raise_to 210 °C"]
    assert (
        "Always 10 °C below what the base has, but at least 210 °C"
        in meaning(only(found), found.samples, VOCABULARY)[0]
    )


def test_pairs_hotter_than_their_material_is_printed_are_told() -> None:
    found = find(tuned((265, 275, 200, 200), (270, 280, 205, 205), (260, 270, 215, 215), material="PLA"))
    told = meaning(only(found), found.samples, VOCABULARY)
    assert told[1].startswith("That is hotter than PLA is printed as a rule (")
