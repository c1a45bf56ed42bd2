"""Lengths to counts of beads and layers, and the nozzle's bore as a fact.

Outside check: walls of 0.45 x 0.2 mm beads are 0.45, 0.857, 1.264 and 1.671 mm thick (geometry, shapely in the outside
checks); seven layers of 0.12 mm make 0.84 mm, six 0.72 mm.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.facts.facts import Fact
from profilesmith.foundation.place import Place
from profilesmith.ledger import Ledger
from profilesmith.physics.bead import wall_thickness_mm
from profilesmith.profile.profile import profile_of
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.count import count_for, whole
from profilesmith.recipe.operations import BY_NAME
from profilesmith.recipe.outcomes import Outcomes
from profilesmith.recipe.recipe import Action, CountRef, Fixed, Recipe, Rule
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

F = Fraction
ReadRecipe = Callable[[str], tuple[Any, list[Any]]]
BASE = {
    "layer.height": F("0.2"),
    "bead.width": F("0.45"),
    "wall.count": F(2),
    "top.layers": F(4),
    "bottom.layers": F(4),
    "first_layer.height": F("0.3"),
    "outer_wall.speed": F(60),
    "nozzle.diameter": F("0.4"),
}


def derive(text: str, read_recipe: ReadRecipe, facts: dict[str, Any] | None = None, **changes: Fraction) -> Ledger:
    recipe, problems = read_recipe(text)
    assert problems == []
    values = {**BASE, **{name.replace("__", "."): value for name, value in changes.items()}}
    base = profile_of({name: (value,) for name, value in values.items()})
    known = {name: Fact(value, Place()) for name, value in (facts or {}).items()}
    return apply_recipes(base, [recipe], known, {}, load_vocabulary())


def rule(setting: str, asks: str, more: str = "") -> str:
    return f'[[rule]]\nsetting = "{setting}"\n{asks}\nwhy = "x"\n{more}'


@pytest.mark.parametrize(
    ("setting", "asks", "count"),
    [
        ("wall.count", 'raise_to = { beads_for = "1.2 mm" }', 3),
        ("wall.count", 'raise_to = { beads_for = "0.8570796 mm" }', 2),
        ("wall.count", 'set = { beads_for = "1.7 mm" }', 4),
        ("wall.count", 'cap = { beads_for = "0.6 mm" }', 1),
        ("wall.count", 'cap = { beads_for = "0.1 mm" }', 1),
        ("top.layers", 'raise_to = { layers_for = "0.9 mm" }', 5),
        ("top.layers", 'cap = { layers_for = "0.5 mm" }', 2),
        ("bottom.layers", 'cap = { layers_for = "0.1 mm" }', 1),  # exactly one layer less than the first
        ("bottom.layers", 'cap = { layers_for = "0 mm" }', 0),
        ("top.layers", 'aim = { layers_for = "0.4 mm" }', 2),
        ("top.layers", 'raise_to = { layers_for = "0.5 mm", plus = "0.6 mm" }', 6),
        ("bottom.layers", 'raise_to = { layers_for = "1.1 mm" }', 5),
        ("bottom.layers", 'raise_to = { layers_for = "1.11 mm" }', 6),
    ],
)
def test_counts_are_rounded_to_the_inside(setting: str, asks: str, count: int, read_recipe: ReadRecipe) -> None:
    assert derive(rule(setting, asks), read_recipe).derived.values(setting) == (count,)


def test_thinner_layers_of_the_same_recipe_count(read_recipe: ReadRecipe) -> None:
    thin = rule("layer.height", 'cap = "0.12 mm"') + rule("top.layers", 'raise_to = { layers_for = "0.8 mm" }')
    assert derive(thin, read_recipe).derived.values("top.layers") == (7,)


def test_what_is_missing_is_asked(read_recipe: ReadRecipe) -> None:
    text = rule("wall.count", 'raise_to = { beads_for = { fact = "part.minimum_wall" } }')
    row = derive(text, read_recipe).rows[0]
    assert (row.status, row.question.about, row.question.name) == ("unanswered", "fact", "part.minimum_wall")
    assert derive(text, read_recipe, {"part.minimum_wall": F(2)}).derived.values("wall.count") == (5,)


@pytest.mark.parametrize(
    ("count", "least", "most", "nearest"),
    [
        ("2", 2, 2, 2),
        ("2.4", 3, 2, 2),
        ("2.5", 3, 2, 3),
        ("2.6", 3, 2, 3),
        ("2.3", 3, 2, 2),
        ("0.2", 1, 1, 1),  # something is to be made
        ("0", 1, 1, 1),
        ("2.0000009", 2, 2, 2),  # a millionth of a bead is no bead
        ("2.0000011", 3, 2, 2),
        ("2.9999991", 3, 3, 3),
        ("2.9999989", 3, 2, 3),
    ],
)
def test_a_count_is_whole_and_on_the_side_of_its_bound(count: str, least: int, most: int, nearest: int) -> None:
    rounded = [whole(F(count), BY_NAME[name]) for name in ("raise_to", "cap", "set", "aim", "window")]
    assert rounded == [least, most, nearest, nearest, nearest]


@given(st.fractions(F("0.05"), F("0.4")), st.fractions(1, 4), st.fractions(F("0.1"), 12))
def test_a_least_is_met_and_one_less_is_not_enough(height: Fraction, squeeze: Fraction, length: Fraction) -> None:
    width = height * squeeze
    base = profile_of({"layer.height": (height,), "bead.width": (width,)})
    exact = count_for("beads_for", "wall.count", length, base, 0)
    assert isinstance(exact, Fraction)
    most, least = (int(whole(exact, BY_NAME[name])) for name in ("cap", "raise_to"))
    thick = [wall_thickness_mm(beads, float(width), float(height)) for beads in range(least + 1)]
    assert thick[least] >= float(length) * (1 - 1e-5)
    assert least == 1 or thick[least - 1] < float(length) * (1 + 1e-5)
    assert most <= least


@given(st.fractions(F("0.08"), F("0.4")), st.fractions(F("0.1"), 4), st.sampled_from(["cap", "raise_to", "aim", "set"]))
def test_deriving_again_changes_nothing(height: Fraction, length: Fraction, operation: str) -> None:
    """Bounds are met by what they made; the nearest count of an aim is its own nearest."""
    for setting, what in (("wall.count", "beads_for"), ("bottom.layers", "layers_for")):
        recipe = Recipe("x", "1.0.0", "", (_rule(setting, operation, what, length),), {})
        base = profile_of({name: (value,) for name, value in {**BASE, "layer.height": height}.items()})
        once = apply_recipes(base, [recipe], {}, {}, load_vocabulary()).derived
        again = apply_recipes(once, [recipe], {}, {}, load_vocabulary()).derived
        assert once.values(setting) == again.values(setting)
        assert once.values(setting)[0] >= 1


def _rule(setting: str, operation: str, what: str, length: Fraction) -> Rule:
    operand = CountRef(what, Fixed(f"{float(length):.4f} mm"))
    return Rule(1, (setting,), (setting,), (Action(operation, (operand,)),))


NOZZLE = 'when = { "machine.nozzle_diameter" = "<= 0.4 mm" }\n'


@pytest.mark.parametrize(("bore", "speed"), [("0.4", 40), ("0.6", 60)])
def test_the_bore_as_read_answers_for_the_nozzle(bore: str, speed: int, read_recipe: ReadRecipe) -> None:
    text = rule("outer_wall.speed", 'cap = "40 mm/s"', NOZZLE)
    assert derive(text, read_recipe, nozzle__diameter=F(bore)).derived.values("outer_wall.speed") == (speed,)


def test_what_is_remembered_of_one_bore_is_not_said_of_another(read_recipe: ReadRecipe) -> None:
    recipe, _ = read_recipe(rule("outer_wall.speed", 'cap = "40 mm/s"', NOZZLE))
    found, outcomes = [], Outcomes()
    for bore in ("0.4", "0.6", "0.4"):
        base = profile_of({name: (value,) for name, value in {**BASE, "nozzle.diameter": F(bore)}.items()})
        found += apply_recipes(base, [recipe], {}, {}, load_vocabulary(), outcomes).derived.values("outer_wall.speed")
    assert found == [40, 60, 40]


def test_two_bores_are_a_conflict_where_a_rule_asks(read_recipe: ReadRecipe) -> None:
    wide = {"machine.nozzle_diameter": F("0.6")}
    asking, deaf = rule("outer_wall.speed", 'cap = "40 mm/s"', NOZZLE), rule("outer_wall.speed", 'cap = "40 mm/s"')
    assert [problem.code for problem in derive(asking, read_recipe, wide).problems] == ["nozzle-differs"]
    assert derive(deaf, read_recipe, wide).problems == ()


LIMIT = (
    '[inputs.bore]\nkind = "length"\nfact = "machine.nozzle_diameter"\ndefault = "0.4 mm"\nask = "Bore?"\n'
    '[inputs.of]\nkind = "length"\nfact = "spool.maximum_flow_nozzle"\ndefault = "0.4 mm"\nask = "Found with?"\n'
)
SAME = 'when = { "input.bore" = { input = "of" } }\n'


@pytest.mark.parametrize(
    ("bore", "facts", "speed"),
    [
        ("0.4", {}, 40),
        ("0.8", {}, 60),
        ("0.8", {"spool.maximum_flow_nozzle": F("0.8")}, 40),
        ("0.4", {"spool.maximum_flow_nozzle": F("0.8")}, 60),
    ],
)
def test_an_answer_is_held_against_another(
    bore: str, facts: dict[str, Fraction], speed: int, read_recipe: ReadRecipe
) -> None:
    text = LIMIT + rule("outer_wall.speed", 'cap = "40 mm/s"', SAME)
    assert derive(text, read_recipe, facts, nozzle__diameter=F(bore)).derived.values("outer_wall.speed") == (speed,)


@pytest.mark.parametrize(
    "clause",
    [
        '"input.bore" = { input = "nobody" }',
        '"input.bore" = { fact = "machine.drive" }',
        '"input.bore" = { of = "layer.height" }',
        '"spool.nozzle_window" = { fact = "spool.bed_window" }',
    ],
)
def test_what_cannot_be_held_against_it_is_refused(clause: str, read_recipe: ReadRecipe) -> None:
    _, problems = read_recipe(LIMIT + rule("outer_wall.speed", 'cap = "40 mm/s"', f"when = {{ {clause} }}\n"))
    assert problems


@pytest.mark.parametrize(
    ("height", "width", "missing"),
    [
        (F("0.2"), F("0.45"), ""),
        (F("0.2"), F("0.2"), ""),  # as wide as high: a round bead, and still one
        (F("0.2"), F("0.19"), "bead.width"),
        (F(0), F("0.45"), "layer.height"),
        (F(-1), F("0.45"), "layer.height"),
    ],
)
def test_beads_that_cannot_lie_are_not_counted(height: Fraction, width: Fraction, missing: str) -> None:
    profile = profile_of({"layer.height": (height,), "bead.width": (width,)})
    count = count_for("beads_for", "wall.count", F(1), profile, 0)
    assert count == missing if missing else isinstance(count, Fraction)
