"""``profilesmith schema``: what it prints is the schema, and survives any terminal."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from profilesmith.foundation.problem import Refused
from profilesmith.library.schemas.load_schema import SCHEMAS, load_schema
from profilesmith.reports.schema import schemas_list
from profilesmith.workflows.schema import schema_text

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize("name", SCHEMAS)
def test_the_printed_schema_is_the_schema(name: str) -> None:
    text = schema_text(name)
    assert text.isascii()
    assert json.loads(text) == load_schema(name)


def test_without_a_name_they_are_listed() -> None:
    text = schemas_list()
    for name in SCHEMAS:
        assert f"\n{name} " in f"\n{text}"


def test_a_name_that_is_not_known() -> None:
    with pytest.raises(Refused) as caught:
        schema_text("recipes")
    assert "'recipe'" in caught.value.problems[0].hint


def test_the_command(program: Any) -> None:
    ran = program("schema", "recipe")
    assert ran.code == 0
    check = Draft202012Validator(json.loads(ran.out))
    recipe = tomllib.loads((ROOT / "recipes" / "flexible-pla.toml").read_text(encoding="utf-8"))
    assert check.is_valid(recipe)
    recipe["rule"][0]["cap"] = "40 mm"
    assert not check.is_valid(recipe)
    assert program("schema", "recipe", "--quiet").out == ""
    assert program("schema", "reciep").code == 2


@pytest.mark.parametrize(
    ("change", "what"),
    [
        ({"setting": "outer_wall.sped"}, "a name that is not known"),
        ({"cap": "40 mm"}, "a unit of another kind"),
        ({"cap": "40"}, "no unit"),
        ({"cap": 40}, "no text"),
        ({"window": ["1 mm/s"]}, "one end"),
        ({"scale": "70 %"}, "two operations"),
        ({"when": {"machine.drive": "direkt"}}, "a word that never happens"),
        ({"cap": {"fact": "spool.nozzle_window"}}, "a fact of another kind"),
        ({"cap": {"of": "layer.height"}}, "a setting of another kind"),
        ({"because": "x"}, "an unknown key"),
    ],
)
def test_what_an_editor_is_told(change: dict[str, Any], what: str) -> None:
    rule: dict[str, Any] = {"setting": "outer_wall.speed", "cap": "40 mm/s"}
    content = {"format": 1, "recipe": {"name": "slow", "version": "1.0.0"}, "rule": [rule]}
    check = Draft202012Validator(load_schema("recipe"))
    assert check.is_valid(content)
    rule.update(change)
    assert not check.is_valid(content), what


def test_a_switch_may_be_aimed_at() -> None:
    """Once refused by the schema and accepted by the loader."""
    content: dict[str, Any] = {
        "format": 1,
        "recipe": {"name": "pad", "version": "1.0.0"},
        "rule": [{"setting": "raft.on", "aim": "on"}],
    }
    check = Draft202012Validator(load_schema("recipe"))
    assert check.is_valid(content)
    content["rule"][0]["aim"] = "3"
    assert not check.is_valid(content)
