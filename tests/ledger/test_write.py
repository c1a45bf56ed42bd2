"""The ledger as data: against its published schema, its patch against jsonpatch, one line a row for people.

Outside checks: jsonschema (draft 2020-12), jsonpatch (RFC 6902).
"""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import jsonpatch
import jsonschema
import pytest

from profilesmith.ledger.file import ledger_schema
from profilesmith.ledger.judgement import VERDICTS
from profilesmith.review.cause_reasons import STATUS_MEANING
from profilesmith.review.render import render

Derived = Callable[..., Any]
Text = Callable[..., str]
SCHEMA = ledger_schema()


def test_the_schema_is_a_schema_with_a_version_and_no_host() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert SCHEMA["$id"] == "urn:profilesmith:ledger:2"
    assert SCHEMA["properties"]["format"]["const"] == 2


def objects(schema: Any) -> list[dict[str, Any]]:
    """All object schemas, wherever they stand."""
    if isinstance(schema, list):
        return [item for part in schema for item in objects(part)]
    if not isinstance(schema, dict):
        return []
    mine = [schema] if schema.get("type") == "object" else []
    return mine + [item for part in schema.values() for item in objects(part)]


def test_every_object_of_the_schema_is_closed() -> None:
    found = objects(SCHEMA)
    assert len(found) > 8
    assert [item for item in found if "additionalProperties" not in item] == []


def test_the_schema_knows_every_status_and_verdict() -> None:
    assert SCHEMA["$defs"]["Row"]["properties"]["status"]["enum"] == list(STATUS_MEANING)
    assert set(SCHEMA["$defs"]["Finding"]["properties"]["verdict"]["enum"]) == set(VERDICTS)


@pytest.fixture
def data(derived: Derived, bind: Text, rule: Text) -> dict[str, Any]:
    bindings = "".join(
        [
            bind("outer_wall.speed", "rim", "tools = true"),
            bind("raft.on", "pad", "add = true"),
            bind("infill.pattern", "weave"),
            bind("brim.on", "hem"),
            bind("layer.height", "ply"),
            bind("bead.width", "w"),
            bind("retraction.distance", "yank"),
            bind("nozzle.temperature", "tip"),
        ]
    )
    rules = (
        '[inputs.melt]\nkind = "flow"\nask = "How much?"\ndefault = "3 mm3/s"\n'
        + rule("outer_wall.speed", 'cap = { flow = { input = "melt" } }')
        + rule("raft.on", 'set = "on"')
        + rule("infill.pattern", 'set = "gyroid"')
        + rule("brim.on", 'set = "on"')
        + rule("retraction.distance", 'cap = "2 mm"', 'when = { "machine.drive" = "direct" }')
        + rule("nozzle.temperature", 'shift = "10 °C"')
    )
    base = "rim = 80,30\nweave = grid\nply = 0.2\nw = 0.45\nyank = 6\ntip = 205\nhue = red\nblock = M104 S205\n"
    return json.loads(render(derived(base, bindings, rules, facts='[spool]\nmaterial = "soft"\n').review, "json"))


def test_it_fits_its_schema(data: dict[str, Any]) -> None:
    jsonschema.validate(data, SCHEMA, cls=jsonschema.Draft202012Validator)
    assert {row["status"] for row in data["rows"]} >= {"changed", "added", "by hand", "unanswered"}
    assert data["base"]["outer_wall.speed"] == [80, 30]
    assert data["recipes"][0]["once"] is True
    assert data["recipes"][0]["answers"] == {"melt": {"said": "", "value": 3, "origin": "default", "unit_kind": "flow"}}
    assert [line["key"] for line in data["unmapped"]] == ["hue", "block"]
    assert len(data["literals"]) == 1


def test_its_patch_turns_base_into_derived(data: dict[str, Any]) -> None:
    assert jsonpatch.apply_patch(data["base"], data["patch"]) == data["derived"]
    assert {item["path"] for item in data["patch"]} == {
        "/outer_wall.speed",
        "/raft.on",
        "/infill.pattern",
        "/nozzle.temperature",
    }


@pytest.mark.parametrize(
    "spoil",
    [
        lambda data: data.update(more=1),
        lambda data: data.pop("patch"),
        lambda data: data.update(format=1),
        lambda data: data["rows"][0].update(status="done"),
        lambda data: data["rows"][0].update(line=-1),
        lambda data: data["rows"][0].pop("cause"),
        lambda data: data["patch"].append({"op": "move", "path": "/a.b"}),
        lambda data: data["files"][0].update(sha256="x"),
        lambda data: data["derived"].update({"a.b": None}),
        lambda data: data["derived"].update({"a": 1}),
        lambda data: data["facts"].update(other="x"),
        lambda data: data["recipes"][0].update(version="one"),
        lambda data: data.update(findings=[{"check": "x"}]),
    ],
)
def test_the_schema_refuses_what_is_none(spoil: Callable[[dict[str, Any]], object], data: dict[str, Any]) -> None:
    spoil(data)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(data, SCHEMA, cls=jsonschema.Draft202012Validator)


def test_a_conflict_is_data_too(derived: Derived, bind: Text, rule: Text) -> None:
    made = derived(
        "rim = 80\n",
        bind("outer_wall.speed", "rim"),
        rule("outer_wall.speed", 'cap = "40 mm/s"') + rule("outer_wall.speed", 'raise_to = "50 mm/s"'),
    )
    data = json.loads(render(made.review, "json"))
    jsonschema.validate(data, SCHEMA, cls=jsonschema.Draft202012Validator)
    assert [item["code"] for item in data["conflicts"]] == ["conflict"]
    assert data["patch"] == []
