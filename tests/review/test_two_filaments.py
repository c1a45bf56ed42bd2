"""Two recipes that aim the nozzle at temperatures of their own: said, with what to do; silent where all is as meant."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.workflows.demo import run_demo
from tests.shipped import RECIPES

Program = Callable[..., Any]
BASE = ("derive", "base.settings", "--keymap", "keymap.toml")
COUNTS = "the later one counts"


@pytest.fixture(autouse=True)
def heron(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    run_demo(str(tmp_path / "heron"))
    monkeypatch.chdir(tmp_path / "heron")


def derived(program: Program, *recipes: str, more: tuple[str, ...] = ()) -> str:
    asked = [word for name in recipes for word in ("--recipe", name)]
    ran = program(*BASE, *asked, *more, "--dry-run")
    assert ran.code == 0, ran.err
    return " ".join(ran.out.split())


def test_two_recipes_for_filaments_are_named_with_what_to_do(program: Program) -> None:
    said = derived(program, "flexible-pla", "tpu-95a")
    assert f"flexible-pla aims nozzle.temperature at 215 °C, tpu-95a at 230 °C: {COUNTS}" in said
    assert "fix: where these are for two filaments, leave out the one that your spool is not" in said
    assert said.count(COUNTS) == 1, "once for nozzle and first layer"
    assert f"tpu-95a aims nozzle.temperature at 230 °C, flexible-pla at 215 °C: {COUNTS}" in derived(
        program, "tpu-95a", "flexible-pla"
    )


def test_the_stored_ledger_says_it_too(program: Program) -> None:
    program(*BASE, "--recipe", "flexible-pla", "--recipe", "tpu-95a", "-o", "both.settings", "-q")
    assert COUNTS in " ".join(program("review", "both.settings").out.split())


@pytest.mark.parametrize("material", ["flexible-pla", "tpu-95a", "tpu-85a"])
def test_recipes_that_go_together_are_not_named(material: str, program: Program) -> None:
    beside = tomllib.loads((RECIPES / f"{material}.toml").read_text(encoding="utf-8"))["recipe"]["goes_with"]
    assert len(beside) > 2
    for other in beside:
        assert COUNTS not in derived(program, material, other)


def test_a_value_that_a_person_gives_is_meant(program: Program) -> None:
    assert COUNTS not in derived(program, "flexible-pla", more=("--set", "nozzle.temperature=212 °C", "--why", "test"))
