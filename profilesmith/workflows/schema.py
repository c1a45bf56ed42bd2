"""Schemas: one printed whole, or all of them in a list."""

from __future__ import annotations

import json

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean
from profilesmith.library.schemas.load_schema import SCHEMAS, load_schema, title_of


def schema_text(name: str) -> str:
    """A schema as JSON text in ASCII, so that no terminal changes its patterns; without a name one line for each.
    Raises Refused.
    """
    if not name:
        lines = [f"{known:<10} {title_of(known)}" for known in SCHEMAS]
        return (
            "\n".join(
                [
                    *lines,
                    "",
                    "'profilesmith schema NAME > NAME.json' writes one; '#:schema ./NAME.json' tells an editor of it.",
                ]
            )
            + "\n"
        )
    if name not in SCHEMAS:
        raise Refused(
            [
                Problem(
                    "unknown-schema",
                    f"There is no schema {name!r}.",
                    Place(),
                    did_you_mean(name, SCHEMAS, f"Known: {', '.join(SCHEMAS)}."),
                )
            ]
        )
    return json.dumps(load_schema(name), indent=1) + "\n"
