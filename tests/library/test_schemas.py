"""The schemas are whole and sound, and every file that a loader accepts is valid by its schema."""

from __future__ import annotations

import json
import re
import time
import tomllib
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from profilesmith.facts.load_facts import load_facts
from profilesmith.foundation.package_data import package_text
from profilesmith.foundation.quantity import CANONICAL, SPELLINGS, UNITS, read_quantity
from profilesmith.library.library import load_library
from profilesmith.library.schemas import patterns
from profilesmith.library.schemas.load_schema import SCHEMAS, load_schema
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

ROOT = Path(__file__).resolve().parents[2]
VALIDATORS = {name: Draft202012Validator(load_schema(name)) for name in SCHEMAS}
FILES = sorted(
    path for folder in ("recipes", "tests/cases") for path in (ROOT / folder).rglob("*.toml") if not path.is_symlink()
)


def kind_of(path: Path) -> str:
    """What kind of file of ours it is, by its content."""
    try:
        content = tomllib.loads(path.read_text(encoding="utf-8"))
    except (ValueError, OSError, RecursionError):
        return ""
    keys = {
        "rule": "recipe",
        "binding": "keymap",
        "library": "library",
        "machine": "facts",
        "spool": "facts",
        "part": "facts",
    }
    return next((kind for key, kind in keys.items() if key in content and "format" in content), "")


KINDS = [(kind, path) for path in FILES if (kind := kind_of(path))]


def accepted(kind: str, path: Path) -> bool:
    vocabulary = load_vocabulary()
    if kind == "recipe":
        return load_recipe(path.read_bytes(), path.name, vocabulary)[0] is not None
    if kind == "keymap":
        return load_key_map(path.read_bytes(), path.name, vocabulary)[0] is not None
    if kind == "facts":
        return not load_facts([(path.read_bytes(), path.name)])[1]
    return path.name != "library.toml" or load_library(path.parent)[0] is not None


@pytest.mark.parametrize(("kind", "path"), KINDS, ids=[str(path.relative_to(ROOT)) for _, path in KINDS])
def test_what_a_loader_accepts_is_valid(kind: str, path: Path) -> None:
    if accepted(kind, path):
        assert [
            error.message for error in VALIDATORS[kind].iter_errors(tomllib.loads(path.read_text(encoding="utf-8")))
        ] == []


def test_enough_files_of_each_kind_are_looked_at() -> None:
    counts = {
        kind: sum(accepted(kind, path) for found, path in KINDS if found == kind)
        for kind in ("recipe", "keymap", "facts", "library")
    }
    assert counts["recipe"] > 30
    assert counts["keymap"] > 60
    assert counts["facts"] > 15
    assert counts["library"] >= 1


@pytest.mark.parametrize("name", SCHEMAS)
def test_a_schema_is_a_schema(name: str) -> None:
    schema = load_schema(name)
    Draft202012Validator.check_schema(schema)
    assert schema["$id"] == f"urn:profilesmith:{name}:{2 if name == 'ledger' else 1}"
    assert schema["title"].startswith("Profilesmith ")


def properties(node: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    """Every property that a schema declares, but for conditions, which only restrict."""
    if isinstance(node, dict):
        if node.get("additionalProperties") is not None:
            for key, item in node.get("properties", {}).items():
                yield f"{path}/{key}", item
        for key, item in node.items():
            if key not in ("allOf", "if", "then", "else", "not"):
                yield from properties(item, f"{path}/{key}")
    elif isinstance(node, list):
        for at, item in enumerate(node):
            yield from properties(item, f"{path}/{at}")


@pytest.mark.parametrize("name", SCHEMAS)
def test_every_property_is_described(name: str) -> None:
    schema = load_schema(name)
    found = list(properties(schema))
    assert len(found) > 5

    def described(item: Any) -> bool:
        target = (
            schema["$defs"][item["$ref"].removeprefix("#/$defs/")] if isinstance(item, dict) and "$ref" in item else {}
        )
        return isinstance(item, dict) and len(item.get("description", target.get("description", ""))) > 5

    assert [path for path, item in found if not described(item)] == []


@pytest.mark.parametrize("name", SCHEMAS)
def test_every_object_is_closed_or_free_by_intent(name: str) -> None:
    free = {
        "recipe": {"inputs", "answers"},
        "keymap": {"choices"},
        "library": {"accepted"},
        "ledger": {"facts", "base", "derived", "answers", "profile", "seen", "looks"},
        "troubles": {"when"},
        "evidence": {"together", "seen"},
    }

    def open_ones(node: Any, key: str = "") -> Iterator[str]:
        if isinstance(node, dict):
            if node.get("type") == "object" and node.get("additionalProperties") is not False:
                yield key
            for name, item in node.items():
                yield from open_ones(item, name)
        elif isinstance(node, list):
            for item in node:
                yield from open_ones(item, key)

    assert set(open_ones(load_schema(name))) <= free.get(name, set())


@pytest.mark.parametrize("name", SCHEMAS)
def test_references_lead_somewhere(name: str) -> None:
    schema = load_schema(name)
    text = json.dumps(schema)
    wanted = {part.split('"')[0] for part in text.split('"#/$defs/')[1:]}
    assert wanted <= schema.get("$defs", {}).keys()
    assert '"pattern": ""' not in text
    assert '"enum": []' not in text
    assert '"anyOf": []' not in text


@pytest.mark.parametrize("name", [name for name in SCHEMAS if name != "ledger"])  # stated by types, not as text
def test_nothing_is_defined_twice(name: str) -> None:
    """Of two members of one name JSON readers keep the last, and an editor of the first would wonder."""

    def once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        assert len({key for key, _ in pairs}) == len(pairs), pairs
        return dict(pairs)

    json.loads(package_text(f"knowledge/{name}.schema.json"), object_pairs_hook=once)


@pytest.mark.parametrize("kind", CANONICAL)
def test_patterns_of_quantities_read_what_the_reader_reads(kind: str) -> None:
    """Every unit in every spelling that is told, and texts that come near."""
    pattern = re.compile(patterns.quantity(kind))
    numbers = ("4", "+4.", "-.5", "4e2", "4e-2", "4,0", "4.5.6", "e4", "", "4 4", "1000", "4e")
    units = ["", "x", *UNITS, *SPELLINGS, "MM/S", "mm/s²", "mm^2", "mm³/s", "mm**3/s", "DEGC", "Percent", "k", "mpa"]
    for number in numbers:
        for unit in units:
            for text in (f"{number}{unit}", f" {number} {unit} "):
                assert bool(pattern.search(text)) == isinstance(read_quantity(text, kind), Fraction), text


def test_patterns_take_no_longer_than_their_texts() -> None:
    """Long hostile texts: time in proportion to length, so the longest is done in far less than a second."""
    hostile = [
        form(kind)
        for kind in ("speed", "temperature", "count")
        for form in (patterns.quantity, patterns.window, patterns.comparison)
    ]
    hostile += [patterns.number_comparison(), patterns.HARDNESS]
    start = time.process_time()
    for text in (
        "1" * 100_000,
        " " * 100_000,
        "1e" * 50_000,
        "4 " + "m" * 100_000,
        "+" * 100_000,
        "." * 100_000,
        "4 mm/s" + " " * 100_000 + "x",
    ):
        for pattern in hostile:
            re.search(pattern, text)
    assert time.process_time() - start < 20
