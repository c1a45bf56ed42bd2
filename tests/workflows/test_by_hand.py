"""What is set by hand: how it is read, what becomes of it in the ledger, where it is carried on."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.foundation.problem import Refused
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.by_hand import by_hand
from profilesmith.workflows.derived_file import load_ledger

DEMO = Path(__file__).resolve().parents[2] / "recipes" / "demo"
TIP = "nozzle.temperature=212 °C"
CALL = ("derive", "base.settings", "--keymap", "keymap.toml")
Program = Callable[..., Any]


@pytest.fixture(autouse=True)
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("base.settings", "keymap.toml"):
        shutil.copyfile(DEMO / name, tmp_path / name)
    monkeypatch.chdir(tmp_path)


def shown(name: str, setting: str) -> tuple[Any, ...]:
    return load_ledger(name).ledger.derived.entries[setting].values


def test_one_reason_goes_for_all_or_each_has_its_own() -> None:
    for whys in (["both"], ["one", "two"]):
        (source,) = by_hand([TIP, " wall.count = 4 "], whys)
        recipe, problems = load_recipe(source.raw, source.name, load_vocabulary())
        assert recipe is not None
        assert not problems
        assert [rule.why for rule in recipe.rules] == (whys * 2)[:2]
        assert [rule.settings for rule in recipe.rules] == [("nozzle.temperature",), ("wall.count",)]


@pytest.mark.parametrize(
    ("sets", "whys", "code"),
    [
        (["nozzle.temperature"], ["x"], "set-form"),
        (["nozzle.temperature="], ["x"], "set-form"),
        (["nozzle.temperatur=212 °C"], ["x"], "unknown-setting"),
        (["speeds=20 mm/s"], ["x"], "unknown-setting"),
        (["nozzle.temperature=212"], ["x"], "set-value"),
        (["nozzle.temperature=2120 °C"], ["x"], "set-range"),
        (["wall.count=2.5"], ["x"], "set-range"),
        (["support.on=maybe"], ["x"], "set-value"),
        (["support.pattern=swirls"], ["x"], "set-value"),
        ([TIP, TIP], ["x"], "set-twice"),
        ([TIP], [], "no-reason"),
        ([TIP], [" "], "no-reason"),
        ([TIP, "wall.count=4"], ["x", " "], "no-reason"),
        ([TIP], ["x", "y"], "no-reason"),
        ([], ["x"], "no-set"),
    ],
)
def test_what_cannot_be_read_is_said(sets: list[str], whys: list[str], code: str) -> None:
    with pytest.raises(Refused) as refused:
        by_hand(sets, whys)
    assert [problem.code for problem in refused.value.problems] == [code]
    assert refused.value.problems[0].hint


def test_a_reason_cannot_write_toml() -> None:
    (source,) = by_hand([TIP], ['x"\n[[rule]]\nsetting = "wall.count"'])
    recipe, problems = load_recipe(source.raw, source.name, load_vocabulary())
    assert recipe is not None
    assert not problems
    assert len(recipe.rules) == 1


def test_no_recipe_is_needed_and_only_that_line_changes(program: Program) -> None:
    ran = program(*CALL, "--set", TIP, "--why", "It strung at 215.", "-o", "new.settings", "--full")
    assert ran.code == 0
    assert "It strung at 215." in ran.out
    old, new = (Path(name).read_text("utf-8").splitlines() for name in ("base.settings", "new.settings"))
    assert [pair for pair in zip(old, new, strict=True) if pair[0] != pair[1]] == [("pair = 205/65", "pair = 212/65")]
    assert program(*CALL).codes == ("no-recipe",)


def test_it_is_in_the_ledger_with_its_reason_and_goes_on(program: Program) -> None:
    words = ("--recipe", "flexible-pla", "--set", TIP, "--why", "It strung at 215.", "-o", "new.settings")
    assert program(*CALL, *words).code == 0
    rows = json.loads(Path("new.settings.ledger.json").read_text("utf-8"))["rows"]
    mine = [row for row in rows if row["cause"].get("recipe") == "by-hand"]
    assert [(row["setting"], row["status"], row["cause"]["why"]) for row in mine] == [
        ("nozzle.temperature", "changed", "It strung at 215.")
    ]
    assert program("rederive", "new.settings", "-o", "again.settings").code == 0
    assert shown("again.settings", "nozzle.temperature") == shown("new.settings", "nozzle.temperature") == (212,)
    assert program("recipe", "from-ledger", "new.settings", "-o", "for-others.toml").code == 0
    recipe, problems = load_recipe(Path("for-others.toml").read_bytes(), "for-others.toml", load_vocabulary())
    assert recipe is not None
    assert not problems
    assert [(rule.settings, rule.why) for rule in recipe.rules] == [(("nozzle.temperature",), "It strung at 215.")]


@pytest.mark.parametrize("form", ["terminal", "md", "html", "checklist"])
def test_what_is_missed_stands_in_look_first(program: Program, form: str) -> None:
    misses = ("--set", "support.density=10 %", "--set", "wall.count=4")
    ran = program(*CALL, "--recipe", "flexible-pla", *misses, "--why", "x", "--as", form)
    text = " ".join(ran.out.replace("\\", "").split())
    assert text.index("Look first") < text.index("support.density is 30 %, not 10 %")
    assert "wall.count is" not in text, "it came out as asked"


def test_what_a_mend_moved_on_is_no_miss(program: Program) -> None:
    for name in ("machine.toml", "spool.toml"):
        shutil.copyfile(DEMO / name, name)
    words = ("--recipe", "flexible-pla", "--facts", "machine.toml", "--facts", "spool.toml")
    hot = ("--set", "nozzle.temperature=218 °C", "--why", "It was matt.", "-o", "hot.settings")
    assert program(*CALL, *words, *hot).code == 0
    saw = ("--saw", "stringing=poor", "--look", "drops=yes", "--look", "hiss=no")
    assert program("mend", "hot.settings", *saw, "-o", "cooler.settings").code == 0
    assert shown("cooler.settings", "nozzle.temperature") < shown("hot.settings", "nozzle.temperature")
    assert "Set by hand:" not in program("review", "cooler.settings").out


def test_what_the_text_has_no_key_for_stands_there_too(program: Program) -> None:
    Path("thin.toml").write_text(
        'format = 1\n[keymap]\nname = "thin"\n[[binding]]\nsetting = "wall.count"\nkey = "rounds"\n', "utf-8"
    )
    Path("thin.cfg").write_text("rounds = 3\n", "utf-8")
    ran = program("derive", "thin.cfg", "--keymap", "thin.toml", "--set", TIP, "--why", "x")
    assert "not written: the map has no key for it; set 212 °C yourself" in " ".join(ran.out.split())
