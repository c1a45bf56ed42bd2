"""A schema by its name."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping

from profilesmith.foundation.package_data import package_text
from profilesmith.ledger.file import ledger_schema
from profilesmith.library.schemas import coupon_schemas, fact_schemas, map_schema, recipe_schema, troubles_schema
from profilesmith.library.schemas.shapes import Schema
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Vocabulary


def _as_it_is(schema: Schema, vocabulary: Vocabulary) -> None:
    """For a schema that no vocabulary adds to."""


SCHEMAS: Mapping[str, Callable[[Schema, Vocabulary], None]] = {
    "recipe": recipe_schema.fill,
    "keymap": map_schema.fill,
    "facts": fact_schemas.fill_facts,
    "library": _as_it_is,
    "evidence": fact_schemas.fill_evidence,
    "troubles": troubles_schema.fill,
    "coupon": coupon_schemas.fill_plan,
    "coupon-log": coupon_schemas.fill_log,
    "ledger": _as_it_is,
    "lint": _as_it_is,
}


def load_schema(name: str) -> Schema:
    """One of SCHEMAS, whole."""
    schema = _template(name)
    SCHEMAS[name](schema, load_vocabulary())
    return schema


def _template(name: str) -> Schema:
    """A template of ours; a ledger's is stated by its types."""
    if name == "ledger":
        return ledger_schema()
    schema: Schema = json.loads(package_text(f"knowledge/{name}.schema.json"))
    return schema


def title_of(name: str) -> str:
    """What a schema describes, in a few words."""
    title: str = _template(name)["title"]
    return title
