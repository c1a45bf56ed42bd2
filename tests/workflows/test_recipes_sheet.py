"""Several recipes on one sheet: strictest bounds, the last aim, each question once, and a stop where they clash."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Program = Callable[..., Any]
HEAD = (
    'format = 1\n[recipe]\nname = "{name}"\nversion = "1.0.0"\ntitle = "Title of {name}"\n'
    'cautions = ["Mind the heat."]\n'
)
RULE = '[[rule]]\nsetting = "{setting}"\n{asks}\nwhy = "why of {name}"\n'


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def recipe(name: str, *rules: tuple[str, str], inputs: str = "") -> str:
    texts = [RULE.format(setting=setting, asks=asks, name=name) for setting, asks in rules]
    Path(f"{name}.toml").write_text(HEAD.format(name=name) + inputs + "".join(texts))
    return f"{name}.toml"


def shown(program: Program, *names: str, form: str = "checklist") -> str:
    ran = program("recipe", "show", *names, "--as", form)
    assert ran.code == 0, ran.err
    return str(ran.out)


def test_one_sheet_has_the_strictest_bound_and_both_reasons(program: Program) -> None:
    one = recipe("one", ("outer_wall.speed", 'cap = "40 mm/s"'), ("wall.count", 'cap = "2"'))
    two = recipe("two", ("outer_wall.speed", 'cap = "30 mm/s"'))
    text = shown(program, one, two)
    assert text.startswith("# Title of one + Title of two\n")
    assert "Outer wall speed: **at most 30 mm/s**" in text
    assert "40 mm/s" not in text
    assert "Wall count: **at most 2**" in text
    assert "why of one (one 1.0.0, rule 1)" in text
    assert "why of two (two 1.0.0, rule 1)" in text
    assert text.count("Mind the heat.") == 1


def test_the_last_aim_counts(program: Program) -> None:
    names = [
        recipe(name, ("nozzle.temperature", f'aim = "{aim}"')) for name, aim in (("one", "215 °C"), ("two", "225 °C"))
    ]
    for first, last, stays, goes in ((*names, "225 °C", "215 °C"), (*names[::-1], "215 °C", "225 °C")):
        text = shown(program, first, last)
        assert stays in text
        assert goes not in text


def test_bounds_that_no_value_meets_stop_the_typing(program: Program) -> None:
    one = recipe("one", ("outer_wall.speed", 'cap = "40 mm/s"'))
    two = recipe("two", ("outer_wall.speed", 'raise_to = "50 mm/s"'))
    text = shown(program, one, two)
    assert "## Stop: do not type this in yet" in text
    assert "Outer wall speed cannot be both at least 50 mm/s and at most 40 mm/s" in text
    assert "Stop" not in shown(program, one)


def test_two_states_of_a_switch_stop_it_too(program: Program) -> None:
    names = [recipe(name, ("raft.on", f'set = "{state}"')) for name, state in (("one", "on"), ("two", "off"))]
    assert "Raft cannot be both on and off" in shown(program, *names)
    assert "Stop" not in shown(program, names[0], recipe("three", ("raft.on", 'set = "on"')))


def test_inputs_of_one_name_are_two_questions_and_a_fact_is_one(program: Program) -> None:
    def asking(name: str, fact: str) -> str:
        more = f'fact = "{fact}"\n' if fact else ""
        inputs = f'[inputs.most]\nkind = "flow"\nask = "Flow of {name}?"\n{more}'
        return recipe(name, ("filament.maximum_flow", 'cap = { input = "most" }'), inputs=inputs)

    text = shown(program, asking("one", ""), asking("two", ""))
    assert "**A** Flow of one?" in text
    assert "**B** Flow of two?" in text
    text = shown(program, asking("one", "spool.maximum_flow"), asking("two", "spool.maximum_flow"))
    assert "**A** Flow of one?" in text
    assert "**B**" not in text


def test_several_on_the_terminal_are_a_sheet_too_and_a_page(program: Program) -> None:
    names = [recipe(name, ("outer_wall.speed", 'cap = "40 mm/s"')) for name in ("one", "two")]
    assert shown(program, *names, form="terminal") == shown(program, *names, form="sheet")
    assert shown(program, *names, form="checklist-page").startswith("<!doctype html>")
    assert "Rules" in shown(program, names[0], form="terminal")
