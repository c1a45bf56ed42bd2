"""JSON as our files hold it: kind to diffs, and harmless on a terminal."""

import json
import re
from collections.abc import Callable, Mapping
from json.encoder import encode_basestring
from typing import Any

# What a terminal or an editor would obey: C1 controls, and marks that turn or hide text. JSON may escape any character.
_HARMFUL = "[\x7f-\x9f\xad\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]"


def json_text(data: Mapping[str, Any]) -> str:
    """A JSON object with one member a line, and one line for each item of a list: quick to write, kind to diffs."""
    text = _of_data(data, json.JSONEncoder(ensure_ascii=False).encode)
    return text if can_be_encoded(text) else _of_data(data, json.JSONEncoder(ensure_ascii=True).encode)


def can_be_encoded(text: str) -> bool:
    """False: a byte that is no text stands as a lone surrogate, and only the escaped form can hold it."""
    try:
        text.encode()
    except UnicodeEncodeError:
        return False
    return True


def _of_data(data: Mapping[str, Any], encode: Callable[[Any], str]) -> str:
    return lines_of(
        {
            name: [*map(encode, value)] if isinstance(value, list) and value else encode(value)
            for name, value in data.items()
        }
    )


def lines_of(members: Mapping[str, str | list[str]]) -> str:
    """The object of some members, whose values are JSON already."""
    lines = []
    for name, value in members.items():
        if isinstance(value, list):
            items = ",\n    ".join(value)
            value = f"[\n    {items}\n  ]"
        lines.append(f"  {encode_basestring(name)}: {value}")
    text = "{\n" + ",\n".join(lines) + "\n}\n"
    if text.replace("\n", "").isprintable():  # as mostly: then none of them is in it
        return text
    return re.sub(_HARMFUL, lambda match: f"\\u{ord(match.group()):04x}", text)
