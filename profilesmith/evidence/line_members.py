"""A line of a file of lines to the members of its JSON object, or why it is none. The line is a stranger's text."""

from __future__ import annotations

import json
from typing import Any

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem

LONGEST_NAME = 80  # of a member, in a sentence


class _Twice(ValueError):
    """A member that stands in an object twice."""


def _members(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    members: dict[str, Any] = {}
    for key, value in pairs:
        if key in members:
            raise _Twice(f"the member {key[:LONGEST_NAME]!r} stands there twice")
        members[key] = value
    return members


def line_members(line: str, place: Place) -> dict[str, Any] | Problem:
    """The members of the object that a line holds."""
    if line.startswith(("<<<<<<<", "=======", ">>>>>>>", "|||||||")):
        hint = "Keep the lines of both sides. '*.jsonl merge=union' in .gitattributes lets git do so by itself."
        return Problem("merge-mark", "A merge left its mark here.", place, hint)
    try:
        data = json.loads(line, object_pairs_hook=_members)
    except RecursionError:
        return Problem("too-deep", "The record is nested too deeply.", place, "A record is a flat line of JSON.")
    except ValueError as error:  # also a number of too many digits
        reason = str(error) if isinstance(error, _Twice) else "it cannot be read"
        hint = "Take it out, or write it with 'profilesmith evidence add'."
        return Problem("json", f"The line is no JSON object: {reason}.", place, hint)
    if not isinstance(data, dict):
        return Problem("json", "The line is no JSON object.", place, "A record is { ... } on one line.")
    return data
