"""JSON as our files hold it: kind to diffs, and harmless on a terminal."""

import json
import re
from collections.abc import Callable, Mapping
from json.encoder import encode_basestring
from typing import Any

# What a terminal or an editor would obey: C1 controls, and marks that turn or hide text. JSON may escape any character.
_HARMFUL = "[\x7f-\x9f\xad\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]"
_PLAIN = bytes(range(0x20, 0x7F)) + b"\n"


def json_text(data: Mapping[str, Any]) -> str:
    """A JSON object with one member a line, and one line for each item of a list: quick to write, kind to diffs."""
    return json_bytes(data).decode()


def json_bytes(data: Mapping[str, Any]) -> bytes:
    """The same as it lies in a file."""
    raw = bytes_of(_of_data(data, json.JSONEncoder(ensure_ascii=False).encode))
    return _of_data(data, json.JSONEncoder(ensure_ascii=True).encode).encode() if raw is None else raw


def bytes_of(text: str) -> bytes | None:
    """A text with whatever is harmful in it escaped. None: a byte that is no text stands as a lone surrogate, and only
    the escaped form of data can hold it.
    """
    try:
        raw = text.encode()
    except UnicodeEncodeError:
        return None
    if raw.translate(None, _PLAIN).decode().isprintable():  # as mostly: then nothing harmful is in it
        return raw
    return re.sub(_HARMFUL, lambda match: f"\\u{ord(match.group()):04x}", text).encode()


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
    return "{\n" + ",\n".join(lines) + "\n}\n"
