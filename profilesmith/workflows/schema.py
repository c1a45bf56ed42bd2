"""Schemas, printed whole."""

from __future__ import annotations

import json

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean
from profilesmith.library.schemas.load_schema import SCHEMAS, load_schema


def schema_text(name: str) -> str:
    """A schema as JSON text in ASCII, so that no terminal changes its patterns. Raises Refused."""
    if name not in SCHEMAS:
        hint = did_you_mean(name, SCHEMAS, f"Known: {', '.join(SCHEMAS)}.")
        raise Refused([Problem("unknown-schema", f"There is no schema {name!r}.", Place(), hint)])
    return json.dumps(load_schema(name), indent=1) + "\n"
