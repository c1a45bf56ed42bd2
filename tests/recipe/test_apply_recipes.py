"""Recipes over a profile: order, circles, hard limits, statuses, one row for each pair of rule and setting."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import permutations
from typing import Any, get_args

import pytest

import profilesmith.recipe.apply_recipes as applying
from profilesmith.facts.facts import Fact
from profilesmith.foundation.place import Place
from profilesmith.ledger import Status
from profilesmith.ledger.ledger import TOOL
from profilesmith.profile.profile import Grid, profile_of
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.constants import hard_limits
from profilesmith.recipe.order import links, working_order
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

ReadRecipe = Callable[..., Any]
F = Fraction


def rule(setting: str, *lines: str) -> str:
    return f'[[rule]]\nsetting = "{setting}"\n' + "".join(f"{line}\n" for line in lines)


def apply(recipes: list[Any], values: dict[str, tuple[Any, ...]], facts: dict[str, Any] | None = None) -> Any:
    known = {name: Fact(value, Place("facts.toml", 3)) for name, value in (facts or {}).items()}
    return apply_recipes(profile_of(values), recipes, known, {}, load_vocabulary())


def rows(ledger: Any) -> list[tuple[str, str]]:
    return [(row.setting, row.status) for row in ledger.rows]


def test_what_a_value_depends_on_comes_before_it(read_recipe: ReadRecipe) -> None:
    texts = [
        rule("top.layers", 'hold = "thickness"'),
        rule("layer.height", 'cap = { of = "first_layer.height", times = 0.5 }'),
        rule("outer_wall.speed", 'cap = { flow = "3 mm3/s" }'),
        rule("outer_wall.bead_width", 'raise_to = { of = "layer.height", times = 2 }'),
    ]
    for order in permutations(texts):
        recipe, _ = read_recipe("".join(order))
        names, circle = working_order(links(profile_of({})), [recipe])
        assert circle == []
        for later, earlier in (
            ("top.layers", "layer.height"),
            ("layer.height", "first_layer.height"),
            ("outer_wall.speed", "outer_wall.bead_width"),
            ("outer_wall.bead_width", "layer.height"),
        ):
            assert names.index(earlier) < names.index(later)


@pytest.mark.parametrize(
    "text",
    [
        rule("outer_wall.speed", 'cap = { of = "infill.speed" }')
        + rule("infill.speed", 'raise_to = { of = "outer_wall.speed" }'),
        rule("outer_wall.speed", 'cap = { of = "outer_wall.speed", times = 2 }'),
        rule("layer.height", 'cap = { of = "bead.width" }')
        + rule("bead.width", 'cap = { of = "first_layer.height" }')
        + rule("first_layer.height", 'cap = { of = "layer.height" }'),
    ],
)
def test_a_circle_is_a_conflict_and_changes_nothing(text: str, read_recipe: ReadRecipe) -> None:
    recipe, problems = read_recipe(text)
    assert problems == []
    values = {
        name: (F(1),)
        for name in ("outer_wall.speed", "infill.speed", "layer.height", "bead.width", "first_layer.height")
    }
    ledger = apply([recipe], values)
    assert [(problem.code, problem.severity) for problem in ledger.problems] == [("circle", 3)]
    assert ledger.derived.entries == ledger.base.entries


def test_every_pair_of_rule_and_setting_has_a_row(read_recipe: ReadRecipe) -> None:
    recipe, _ = read_recipe(
        rule("printing speeds", 'cap = "40 mm/s"')
        + rule("outer_wall.speed", 'cap = "30 mm/s"')
        + rule("raft.on", 'set = "on"')
        + rule("retraction.distance", 'cap = "2 mm"', 'when = { "machine.drive" = "direct" }')
        + rule("brim.width", 'raise_to = "5 mm"', 'when = { "machine.liner" = "PTFE" }')
    )
    ledger = apply(
        [recipe],
        {"outer_wall.speed": (F(80),), "infill.speed": (F(20),), "retraction.distance": (F(6),), "brim.width": (F(1),)},
        {"machine.liner": "all-metal"},
    )
    pairs = {(number + 1, setting) for number, item in enumerate(recipe.rules) for setting in item.settings}
    assert {(row.cause.rule, row.setting) for row in ledger.rows} == pairs
    assert len(ledger.rows) == len(pairs)
    statuses = {(row.cause.rule, row.setting): row.status for row in ledger.rows}
    assert statuses[1, "outer_wall.speed"] == "overruled"
    assert statuses[2, "outer_wall.speed"] == "changed"
    assert statuses[1, "infill.speed"] == "kept"
    assert statuses[1, "bridge.speed"] == "by hand"
    assert statuses[3, "raft.on"] == "by hand"
    assert statuses[4, "retraction.distance"] == "unanswered"
    assert statuses[5, "brim.width"] == "does not apply"
    assert set(statuses.values()) <= set(get_args(Status))


@pytest.mark.parametrize("tools", [1, pytest.param(3)])
def test_several_tools_make_no_more_rows(tools: int, read_recipe: ReadRecipe) -> None:
    recipe, _ = read_recipe(
        rule("outer_wall.speed", 'cap = "40 mm/s"') + rule("outer_wall.speed", 'raise_to = "50 mm/s"')
    )
    ledger = apply([recipe], {"outer_wall.speed": (F(80),) * tools})
    assert rows(ledger) == [("outer_wall.speed", "refused"), ("outer_wall.speed", "refused")]
    assert len(ledger.problems) == 1


@pytest.mark.parametrize("tools", [1, pytest.param(2)])
def test_a_choice_without_a_text_is_by_hand_once(tools: int, read_recipe: ReadRecipe) -> None:
    recipe, _ = read_recipe(rule("infill.pattern", 'set = "gyroid"'))
    base = profile_of({"infill.pattern": ("grid",) * tools})
    entry = base.entries["infill.pattern"]._replace(writable=("grid", "lines"))
    ledger = apply_recipes(base._replace(entries={"infill.pattern": entry}), [recipe], {}, {}, load_vocabulary())
    assert rows(ledger) == [("infill.pattern", "by hand")]
    assert ledger.derived.values("infill.pattern") == ("grid",) * tools


def test_limits_never_move_what_no_rule_speaks_of(read_recipe: ReadRecipe) -> None:
    recipe, _ = read_recipe(rule("outer_wall.speed", 'cap = "40 mm/s"'))
    ledger = apply(
        [recipe],
        {"nozzle.temperature": (F(290),), "outer_wall.speed": (F(30),)},
        {"machine.maximum_nozzle_temperature": F(245)},
    )
    assert ledger.derived.number("nozzle.temperature") == 290
    assert ledger.problems == ()


@pytest.mark.parametrize(
    ("operation", "limit", "value", "codes"),
    [
        ('aim = "250 °C"', 245, 245, []),
        ('raise_to = "250 °C"', 245, 230, ["hard-limit"]),
        ('set = "250 °C"', 245, 230, ["hard-limit"]),
        ('window = ["240 °C", "260 °C"]', 245, 240, []),
        ('set = "245 °C"', 245, 245, []),
        ('cap = "250 °C"', 245, 230, []),
        ('raise_to = "600 °C"', None, 230, ["hard-limit"]),
        ('shift = "30 °C"', 245, 245, []),
    ],
)
def test_machine_limits(
    operation: str, limit: int | None, value: int, codes: list[str], read_recipe: ReadRecipe
) -> None:
    recipe, _ = read_recipe(rule("nozzle.temperature", operation))
    facts = {"machine.maximum_nozzle_temperature": F(limit)} if limit else {}
    ledger = apply([recipe], {"nozzle.temperature": (F(230),)}, facts)
    assert [problem.code for problem in ledger.problems] == codes
    assert ledger.derived.number("nozzle.temperature") == value
    for problem in ledger.problems:
        assert "test 1.0.0, rule 1" in problem.message
        assert ("machine limit" if limit else "vocabulary") in problem.message


@pytest.mark.parametrize(
    ("setting", "fact"),
    [
        ("nozzle.temperature", "maximum_nozzle_temperature"),
        ("first_layer.nozzle_temperature", "maximum_nozzle_temperature"),
        ("bed.temperature", "maximum_bed_temperature"),
        ("first_layer.bed_temperature", "maximum_bed_temperature"),
    ],
)
def test_which_settings_a_machine_limits(setting: str, fact: str) -> None:
    which = load_vocabulary().settings[setting]
    limits = hard_limits(which, {f"machine.{fact}": Fact(F(90), Place("f.toml", 2))})
    assert [limit.demand.high for limit in limits] == [which.high, 90]
    assert limits[1].cause.place == "f.toml:2"
    assert [limit.demand.low for limit in limits] == [which.low, None]


def test_a_switch_has_no_limits() -> None:
    assert hard_limits(load_vocabulary().settings["raft.on"], {}) == []


def test_every_number_of_the_vocabulary_is_held_in_its_range() -> None:
    for setting in load_vocabulary().settings.values():
        if setting.is_number:
            assert hard_limits(setting, {})[0].demand[:2] == (setting.low, setting.high)


def test_recipes_of_bounds_commute(read_recipe: ReadRecipe) -> None:
    texts = [
        rule("printing speeds", 'cap = "40 mm/s"'),
        rule("outer_wall.speed", 'raise_to = "35 mm/s"'),
        rule("printing speeds", 'window = ["10 mm/s", "50 mm/s"]'),
        rule("infill.speed", 'set = "38 mm/s"'),
    ]
    recipes = [read_recipe(text, f"r{number}")[0] for number, text in enumerate(texts)]
    values = {"outer_wall.speed": (F(20),), "infill.speed": (F(90),), "bridge.speed": (F(5),)}
    results = {
        tuple(sorted((name, entry.values) for name, entry in apply(list(order), values).derived.entries.items()))
        for order in permutations(recipes)
    }
    assert len(results) == 1


def test_the_later_aim_wins_and_the_ledger_says_so(read_recipe: ReadRecipe) -> None:
    first, _ = read_recipe(rule("nozzle.temperature", 'aim = "210 °C"'), "first")
    second, _ = read_recipe(rule("nozzle.temperature", 'aim = "220 °C"'), "second")
    for recipes, value in (([first, second], 220), ([second, first], 210)):
        ledger = apply(recipes, {"nozzle.temperature": (F(200),)})
        assert ledger.derived.number("nozzle.temperature") == value
        assert [row.status for row in ledger.rows] == ["overruled", "changed"]
        assert [(note.code, note.by.recipe) for note in ledger.rows[0].notes] == [("later aim", recipes[1].name)]


@pytest.mark.parametrize("speeds", [(60, 45), (45, 60)])
def test_of_several_tools_the_strongest_verdict_is_the_rows(speeds: tuple[int, int], read_recipe: ReadRecipe) -> None:
    """A looser cap that one tool meets and another is past, where a stricter one decides: it did not simply hold."""
    recipe, _ = read_recipe(rule("outer_wall.speed", 'cap = "50 mm/s"') + rule("outer_wall.speed", 'cap = "40 mm/s"'))
    ledger = apply([recipe], {"outer_wall.speed": tuple(map(F, speeds))})
    assert rows(ledger) == [("outer_wall.speed", "overruled"), ("outer_wall.speed", "changed")]
    assert ledger.derived.values("outer_wall.speed") == (40, 40)


@pytest.mark.parametrize("speeds", [(60, 30), (30, 60)])
def test_a_rule_that_moves_one_tool_moves(speeds: tuple[int, int], read_recipe: ReadRecipe) -> None:
    recipe, _ = read_recipe(rule("outer_wall.speed", 'cap = "50 mm/s"'))
    ledger = apply([recipe], {"outer_wall.speed": tuple(map(F, speeds))})
    assert rows(ledger) == [("outer_wall.speed", "changed")]


@pytest.mark.parametrize(
    ("may_add", "text", "rows"),
    [
        (True, 'raise_to = "3"', [("by hand", (), ["no binding", "no value said"])]),
        (True, 'set = "3"', [("added", (F(3),), [])]),
        (True, 'aim = "3"', [("added", (F(3),), [])]),
        (False, 'raise_to = "3"', [("by hand", (), ["no binding"])]),
        (False, 'set = "3"', [("by hand", (F(3),), ["no binding"])]),
    ],
)
def test_what_is_said_of_a_setting_without_a_key(
    may_add: bool, text: str, rows: list[tuple[str, tuple[Fraction, ...], list[str]]], read_recipe: ReadRecipe
) -> None:
    """A bound alone makes no number: who is to type one in must hear that, and not that the map forbids it."""
    recipe, _ = read_recipe(rule("raft.layers", text))
    base = profile_of({})._replace(addable={"raft.layers": Grid(F(1), whole=True)} if may_add else {})
    ledger = apply_recipes(base, [recipe], {}, {}, load_vocabulary())
    assert [(row.status, row.derived, [note.code for note in row.notes]) for row in ledger.rows] == rows
    assert ("raft.layers" in ledger.derived.entries) is (rows[0][0] == "added")


def test_what_no_text_can_hold_is_left_to_the_person(read_recipe: ReadRecipe) -> None:
    """Between bounds that are closer than six decimals more lies no number that the text could write."""
    text = rule("outer_wall.speed", 'raise_to = "40.00000001 mm/s"', 'cap = "40.00000002 mm/s"')
    recipe, _ = read_recipe(text + rule("outer_wall.speed", 'cap = "100 mm/s"'))
    base = profile_of({"outer_wall.speed": (F(60),)})
    entry = base.entries["outer_wall.speed"]._replace(grids=(Grid(F(1)),))
    ledger = apply_recipes(base._replace(entries={"outer_wall.speed": entry}), [recipe], {}, {}, load_vocabulary())
    assert [(row.status, [note.code for note in row.notes]) for row in ledger.rows] == [
        ("by hand", ["cannot be held"]),
        ("by hand", ["cannot be held"]),
    ]
    assert ledger.rows[0].derived == (F("40.00000002"),)
    assert ledger.derived.values("outer_wall.speed") == (F(60),)
    gone = base._replace(entries={}, addable={"outer_wall.speed": Grid(F(1))})
    recipe, _ = read_recipe(text.replace("[[rule]]", '[[rule]]\naim = "40 mm/s"'))
    ledger = apply_recipes(gone, [recipe], {}, {}, load_vocabulary())
    assert [(row.status, [note.code for note in row.notes]) for row in ledger.rows] == [("by hand", ["cannot be held"])]
    assert ledger.derived.entries == {}


@pytest.mark.parametrize(("tool", "right"), [(1, (40, 60)), (2, (60, 40))])
def test_the_tool_that_carries_the_spool_alone_is_moved(
    tool: int, right: tuple[int, int], read_recipe: ReadRecipe
) -> None:
    recipe, _ = read_recipe(rule("outer_wall.speed", 'cap = "40 mm/s"'))
    values = {"outer_wall.speed": (F(60), F(60)), "infill.speed": (F(60),)}
    ledger = apply([recipe], values, {TOOL: F(tool)})
    assert ledger.derived.values("outer_wall.speed") == right
    both, _ = read_recipe(rule("infill.speed", 'cap = "40 mm/s"'))
    assert apply([both], values, {TOOL: F(tool)}).derived.values("infill.speed") == (40,)  # one value for all tools


def test_a_number_to_be_typed_in_is_as_fine_as_its_setting(read_recipe: ReadRecipe) -> None:
    """Nobody types in thirds of a millimetre a second."""
    recipe, _ = read_recipe(rule("outer_wall.speed", 'aim = { of = "infill.speed", times = 0.3333333 }'))
    (row,) = apply([recipe], {"infill.speed": (F(100),)}).rows
    step = load_vocabulary().settings["outer_wall.speed"].step
    assert step is not None
    assert (row.status, row.derived[0] % step) == ("by hand", 0)
    assert abs(row.derived[0] - F(100, 3)) <= step


def test_what_no_rule_and_no_other_setting_can_move_is_not_worked_out(
    read_recipe: ReadRecipe, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A profile has a hundred settings and a recipe a dozen: a batch's time hangs on it."""
    worked: list[str] = []
    work = applying.SettingWork

    def noted(setting: Any, *more: Any) -> Any:
        worked.append(setting.id)
        return work(setting, *more)

    monkeypatch.setattr(applying, "SettingWork", noted)
    recipe, _ = read_recipe(rule("outer_wall.speed", 'cap = "40 mm/s"', 'why = "test"'))
    values = {"outer_wall.speed": (F(60),), "travel.speed": (F(90),), "layer.height": (F(1, 5),)}
    ledger = apply([recipe], values)
    assert ledger.derived.values("outer_wall.speed") == (40,)
    assert worked == ["outer_wall.speed"]
