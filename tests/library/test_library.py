"""Finding recipes, maps and facts by name; the recipes' own examples."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.facts.load_facts import load_facts
from profilesmith.library.find import find, names, shipped
from profilesmith.library.run_examples import run_examples
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

ReadRecipe = Callable[..., Any]
RECIPES = dict(names("recipe", None))
WANTED = {"flexible-pla", "tpu-95a", "tpu-85a", "long-tube", "fine-finish", "part-soft", "part-sandable"}


def test_the_recipes_that_ship_are_there() -> None:
    assert RECIPES.keys() >= WANTED
    assert len(dict(names("key map", None))) >= 3
    assert len(dict(names("facts", None))) >= 6


@pytest.mark.parametrize("name", sorted(RECIPES))
def test_a_shipped_recipe_is_complete_and_its_examples_pass(name: str) -> None:
    recipe, problems = load_recipe(RECIPES[name].read_bytes(), name, load_vocabulary())
    assert problems == []
    assert recipe.name == name
    assert all(rule.why and rule.source for rule in recipe.rules)
    assert len(recipe.examples) >= 1
    assert [fault for result in run_examples(recipe, load_vocabulary()) for fault in result.faults] == []
    assert (recipe.title, recipe.licence, recipe.cautions, recipe.authors) != ("", "", (), ())


@pytest.mark.parametrize("name", sorted(dict(names("key map", None))))
def test_a_shipped_map_is_read(name: str) -> None:
    key_map, problems = load_key_map(dict(names("key map", None))[name].read_bytes(), name, load_vocabulary())
    assert problems == []
    assert len(key_map.bindings) > 10


@pytest.mark.parametrize("name", sorted(dict(names("facts", None))))
def test_shipped_facts_are_read(name: str) -> None:
    facts, problems = load_facts([(dict(names("facts", None))[name].read_bytes(), name)])
    assert problems == []
    assert len(facts) >= 3


def test_names_paths_and_nearer_libraries(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("PROFILESMITH_LIBRARY", raising=False)
    (tmp_path / "recipes").mkdir()
    (tmp_path / "recipes" / "part-soft.toml").write_text("format = 1\n")
    (tmp_path / "mine.toml").write_text("format = 1\n")
    assert find("part-soft", "recipe", None)[0] == shipped() / "part-soft.toml"
    assert find("part-soft", "recipe", tmp_path)[0] == tmp_path / "recipes" / "part-soft.toml"
    assert find("mine", "recipe", tmp_path)[0] == tmp_path / "mine.toml"
    assert find("flexible-pla", "recipe", tmp_path)[0] == shipped() / "flexible-pla.toml"
    assert find("./part-soft.toml", "recipe", None)[0] == Path("part-soft.toml")
    monkeypatch.setenv("PROFILESMITH_LIBRARY", str(tmp_path))
    assert find("part-soft", "recipe", None)[0] == tmp_path / "recipes" / "part-soft.toml"


@pytest.mark.parametrize(
    ("word", "kind", "near"),
    [
        ("flexible-pl", "recipe", "flexible-pla"),
        ("plain-shp", "key map", "plain-shop"),
        ("xyzzy", "recipe", "flexible-pla"),
    ],
)
def test_a_name_that_is_not_there(word: str, kind: str, near: str) -> None:
    path, problem = find(word, kind, None)
    assert path is None
    assert problem.code == "not-found"
    assert near in problem.hint


def test_a_name_that_is_too_long() -> None:
    assert find("x" * 300, "recipe", None)[1].code == "not-found"


RULE = (
    '[[rule]]\nsetting = "outer_wall.speed"\ncap = "40 mm/s"\n[[rule]]\nsetting = "raft.on"\n'
    'set = "on"\n[[rule]]\nsetting = "retraction.distance"\ncap = "2 mm"\n'
    'when = { "machine.drive" = "direct" }\n'
)


@pytest.mark.parametrize(
    ("given", "facts", "expect", "word"),
    [
        ('"outer_wall.speed" = "80 mm/s"', "", '"outer_wall.speed" = "40 mm/s"', ""),
        ('"outer_wall.speed" = "80 mm/s"', "", '"outer_wall.speed" = "41 mm/s"', "should be 41 mm/s but is 40 mm/s"),
        ('"outer_wall.speed" = "30 mm/s"', "", '"outer_wall.speed" = "30 mm/s"', ""),
        ('"outer_wall.speed" = "80 mm/s", "layer.height" = "0.2 mm"', "", '"outer_wall.speed" = "40 mm/s"', ""),
        (
            '"outer_wall.speed" = "80 mm/s", "infill.speed" = "80 mm/s"',
            "",
            '"outer_wall.speed" = "40 mm/s", "infill.speed" = "40 mm/s"',
            "infill.speed should be 40 mm/s but is 80 mm/s",
        ),
        ('"outer_wall.speed" = "80 mm/s"', "", '"raft.on" = "on"', "outer_wall.speed should be 80 mm/s"),
        ('"layer.height" = "0.2 mm"', "", '"raft.on" = "on"', ""),
        ('"layer.height" = "0.2 mm"', "", '"raft.on" = "off"', "raft.on should be off but is on"),
        ('"retraction.distance" = "6 mm"', '"machine.drive" = "direct"', '"retraction.distance" = "2 mm"', ""),
        ('"retraction.distance" = "6 mm"', "", '"retraction.distance" = "2 mm"', "should be 2 mm but is 6 mm"),
        (
            '"retraction.distance" = "6 mm"',
            '"machine.drive" = "sideways"',
            '"retraction.distance" = "6 mm"',
            "cannot be read",
        ),
        ('"outer_wall.speed" = "80 mm"', "", '"raft.on" = "on"', "'mm'"),
    ],
)
def test_examples_tell_right_from_wrong(
    given: str, facts: str, expect: str, word: str, read_recipe: ReadRecipe
) -> None:
    """What an example does not expect stays as it was given."""
    recipe, problems = read_recipe(
        RULE + f"[[example]]\ngiven = {{ {given} }}\nfacts = {{ {facts} }}\nexpect = {{ {expect} }}\n"
    )
    assert problems == []
    faults = run_examples(recipe, load_vocabulary())[0].faults
    assert bool(faults) is bool(word)
    assert not word or any(word in fault for fault in faults), faults


@pytest.mark.parametrize("there", ["nothing", "a file", "an empty folder"])
@pytest.mark.parametrize("said", ["--library", "PROFILESMITH_LIBRARY"])
@pytest.mark.parametrize(
    "call",
    [
        ("derive", "base.cfg", "--keymap", "plain-shop", "--recipe", "part-soft", "-o", "out.cfg"),
        ("check", "base.cfg", "--keymap", "map.toml"),
        ("recipe", "list"),
        ("recipe", "show", "part-soft"),
        ("recipe", "check", "part-soft"),
        ("evidence", "list", "part-soft"),
    ],
    ids=lambda call: call[0] + " " + call[1],
)
def test_a_library_that_is_none_is_an_error_everywhere(
    call: tuple[str, ...], said: str, there: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, program: Any
) -> None:
    """A recipe of the same name that ships is not what was meant."""
    monkeypatch.chdir(tmp_path)
    Path("base.cfg").write_text("rim = 60\n")
    Path("map.toml").write_text('format = 1\n[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n')
    if there == "a file":
        Path("clubb").write_text("")
    elif there == "an empty folder":
        Path("clubb").mkdir()
    if said == "--library":
        call = (*call, "--library", "clubb")
    else:
        monkeypatch.setenv(said, "clubb")
    ran = program(*call)
    assert (ran.code, ran.codes) == (2, ("no-library",)), ran.err
    assert "'clubb'" in ran.err
    assert said in ran.err
    assert not Path("out.cfg").exists()
