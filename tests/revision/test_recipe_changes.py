"""Two versions of a recipe: the folders of ``cases/compare_recipes``, order, size, and what is done to profiles."""

from __future__ import annotations

import random
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.reports.recipe_changes import compared_text
from profilesmith.revision.recipe_changes import recipe_changes
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.recipe_compare import compare_recipes
from profilesmith.workflows.request import Request

CASES = Path(__file__).parents[1] / "cases" / "compare_recipes"
HERE = Request(bases=(), key_map="")
Program = Callable[..., Any]


@pytest.mark.parametrize("folder", sorted(CASES.iterdir()), ids=lambda path: path.name)
def test_case(folder: Path) -> None:
    expect = tomllib.loads((folder / "expect.toml").read_text(encoding="utf-8"))
    compared = compare_recipes(str(folder / "old.toml"), str(folder / "new.toml"), HERE)
    text, differ = compared_text(compared), compared.changes.any
    assert differ is expect["differ"]
    for words in expect["says"]:
        assert words in text
    for words in expect["silent_on"]:
        assert words not in text


@pytest.mark.parametrize("folder", sorted(CASES.iterdir()), ids=lambda path: path.name)
def test_a_version_does_not_differ_from_itself(folder: Path) -> None:
    compared = compare_recipes(str(folder / "new.toml"), str(folder / "new.toml"), HERE)
    text, differ = compared_text(compared), compared.changes.any
    assert not differ
    assert text.count("\n") == 1


def many(order: list[int]) -> Recipe:
    """As many rules as a recipe may have, of which several speak of one setting."""
    settings = ("outer_wall.speed", "inner_wall.speed", "top.speed", "infill.speed", "travel.speed")
    rules = [
        f'[[rule]]\nsetting = "{settings[number % 5]}"\ncap = "{40 + number} mm/s"\nwhy = "Reason {number}."\n'
        for number in order
    ]
    raw = 'format = 1\n[recipe]\nname = "many"\nversion = "1.0.0"\n' + "".join(rules)
    recipe = load_recipe(raw.encode(), "many.toml", load_vocabulary())[0]
    assert recipe is not None
    return recipe


def test_five_hundred_rules_in_another_order_are_no_difference() -> None:
    order = list(range(500))
    shuffled = random.Random(11).sample(order, 500)
    changes = recipe_changes(many(order), many(shuffled))
    assert changes.moved
    assert not changes.any
    assert not changes.does


def test_one_changed_rule_is_found_among_five_hundred_in_another_order() -> None:
    old, new = list(range(500)), random.Random(12).sample(range(500), 500)
    recipe = many(new)
    changed = recipe.rules[77]._replace(why="Another reason.")
    rules = (*recipe.rules[:77], changed, *recipe.rules[78:])
    changes = recipe_changes(many(old), recipe._replace(rules=rules))
    assert [(change.new, change.parts) for change in changes.changed] == [(changed, {"why"})]
    assert not changes.came
    assert not changes.went


BASE = "rim = 80\nfly = 150\n"
MAP = (
    'format = 1\n[keymap]\nname = "k"\n[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n'
    '[[binding]]\nsetting = "travel.speed"\nkey = "fly"\n'
)


@pytest.fixture
def profile(tmp_path: Path) -> Request:
    (tmp_path / "base.cfg").write_text(BASE)
    (tmp_path / "map.toml").write_text(MAP)
    return Request(bases=(), key_map=str(tmp_path / "map.toml"))


def test_on_a_profile_values_before_and_after_are_shown(profile: Request, tmp_path: Path) -> None:
    case = CASES / "tighter"
    text = compared_text(
        compare_recipes(str(case / "old.toml"), str(case / "new.toml"), profile, [str(tmp_path / "base.cfg")])
    )
    assert "- outer_wall.speed: 35 mm/s; was 40 mm/s (the profile itself has 80 mm/s)" in text
    assert "- 1 setting as before" in text
    assert "travel.speed" not in text


def test_a_version_that_stops_says_why(profile: Request, tmp_path: Path) -> None:
    new = (CASES / "tighter" / "new.toml").read_text(encoding="utf-8")
    rule = '[[rule]]\nsetting = "outer_wall.speed"\nraise_to = "60 mm/s"\nwhy = "Case."\n'
    (tmp_path / "new.toml").write_text(new + rule, encoding="utf-8")
    old = str(CASES / "tighter" / "old.toml")
    text = compared_text(compare_recipes(old, str(tmp_path / "new.toml"), profile, [str(tmp_path / "base.cfg")]))
    assert "the new version stops, the old one did not: outer_wall.speed" in text
    assert "cannot both hold" in text


def test_the_library_that_ships_is_tried_by_its_names(program: Program) -> None:
    case = CASES / "tighter"
    done = program(
        "recipe", "compare", str(case / "old.toml"), str(case / "new.toml"), "--on", "library", "--exit-code"
    )
    assert done.code == 1
    shop = done.out.partition("\nOn plain-shop\n")[2].partition("\nOn ")[0]
    assert "- outer_wall.speed: 35 mm/s; was 40 mm/s (the profile itself has 45 mm/s)\n" in shop
    refused = program("recipe", "compare", str(case / "old.toml"), str(case / "new.toml"), "--on", "plain-shopp")
    assert refused.code == 2
    assert "is no file and no reference profile" in refused.err
    assert "plain-shop" in refused.err


def test_a_text_without_a_map_is_refused(program: Program, tmp_path: Path) -> None:
    (tmp_path / "base.cfg").write_text(BASE)
    case = CASES / "tighter"
    base = str(tmp_path / "base.cfg")
    done = program("recipe", "compare", str(case / "old.toml"), str(case / "new.toml"), "--on", base)
    assert done.code == 2
    assert "--keymap" in done.err
