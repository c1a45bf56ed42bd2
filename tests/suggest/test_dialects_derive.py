"""For every dialect there is: suggest, then derive, in two calls and with nothing edited in between.

What is sure is changed where a rule asks, and the review names the rest.
"""

import json
import tomllib
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

DIALECTS = Path(__file__).resolve().parents[1] / "cases" / "dialects"
FOLDERS = sorted(path.parent for path in DIALECTS.glob("*/*/truth.toml"))
RECIPE = Path(__file__).resolve().parents[2] / "recipes" / "flexible-pla.toml"

Program = Callable[..., Any]


def bases_of(folder: Path) -> list[Path]:
    return sorted(folder.glob("base.*"))


def test_there_are_dialects_enough() -> None:
    assert len(FOLDERS) >= 40


NOT_YET = {"sealed_again/orrery": "its lines are divided otherwise than they are read, so that nothing of it is sure"}
"""Whole layouts that are not read yet; each must go from here when it is."""


@pytest.mark.parametrize(
    "half",
    [
        "sealed",
        "sealed_again",
        "sealed_third",
        "sealed_fourth",
        "sealed_fifth",
        "sealed_sixth",
        "sealed_seventh",
        "sealed_eighth",
    ],
)
def test_texts_that_were_measured_once_are_those_whose_hashes_were_committed_before(half: str) -> None:
    lines = (DIALECTS / half / "SHA256").read_text("utf-8").splitlines()
    committed = dict(reversed(line.split()) for line in lines if not line.startswith("#"))
    here = [path for path in (DIALECTS / half).glob("*/*") if path.is_file()]
    assert {path.relative_to(DIALECTS / half).as_posix(): sha256(path.read_bytes()).hexdigest() for path in here} == (
        committed
    )


def name_of(folder: Path) -> str:
    return f"{folder.parent.name}/{folder.name}"


def cases() -> list[Any]:
    """Every dialect; those that are not read yet are expected to fail, strictly."""
    failing = {name: [pytest.mark.xfail(reason=why, strict=True)] for name, why in NOT_YET.items()}
    return [pytest.param(one, id=name_of(one), marks=failing.get(name_of(one), ())) for one in FOLDERS]


@pytest.mark.parametrize("folder", cases())
def test_what_is_sure_derives_unedited_and_the_rest_is_named(program: Program, tmp_path: Path, folder: Path) -> None:
    bases, key_map, out = bases_of(folder), tmp_path / "map.toml", tmp_path / "out"
    assert program("keymap", "suggest", *bases, "-o", key_map).code == 0
    bound = {one["setting"] for one in tomllib.loads(key_map.read_text(encoding="utf-8"))["binding"]}
    review = program("derive", *bases, "--keymap", key_map, "--recipe", "flexible-pla", "-o", out, "--full")
    assert review.code == 0
    written = [out / path.name for path in bases] if len(bases) > 1 else [out]
    assert [path.read_bytes() for path in written] != [path.read_bytes() for path in bases]
    ledgers = sorted(tmp_path.rglob("*.ledger.json"))
    ledger = json.loads(ledgers[0].read_text(encoding="utf-8"))
    assert not ledger["conflicts"]
    changed = {row["setting"] for row in ledger["rows"] if row["status"] == "changed"}
    assert changed
    assert changed <= bound
    left = {row["setting"] for row in ledger["rows"] if row["status"] == "by hand"}
    assert wanted_of(RECIPE) <= bound | left
    assert [name for name in left if name not in review.out] == []


def wanted_of(path: Path) -> set[str]:
    """The single settings that a recipe's rules without a condition ask for."""
    recipe, problems = load_recipe(path.read_bytes(), str(path), load_vocabulary())
    assert isinstance(recipe, Recipe), problems
    return {name for rule in recipe.rules if not rule.when for name in rule.settings}
