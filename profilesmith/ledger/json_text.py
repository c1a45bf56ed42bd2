"""JSON as our files hold it: kind to diffs, and harmless on a terminal."""

import json
import re
from collections.abc import Callable, Mapping
from json.encoder import encode_basestring
from typing import Any

# What a terminal or an editor would obey: C1 controls, and marks that turn or hide text. JSON may escape any character.
_HARMFUL = "[\x7f-\x9f\xad\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]"
_PLAIN = bytes(range(0x20, 0x7F))


def json_text(data: Mapping[str, Any]) -> str:
    """A JSON object with one member a line, and one line for each item of a list: quick to write, kind to diffs."""
    return json_bytes(data).decode()


def json_bytes(data: Mapping[str, Any]) -> bytes:
    """The same as it lies in a file."""
    raw = bytes_of(_texts(data, json.JSONEncoder(ensure_ascii=False).encode))
    if raw is None:
        raw = bytes_of(_texts(data, json.JSONEncoder(ensure_ascii=True).encode))
        assert raw is not None  # nothing but ASCII
    return raw


def _texts(data: Mapping[str, Any], encode: Callable[[Any], str]) -> dict[str, str | list[str]]:
    """Members as JSON; of a list that has any, its items."""
    return {
        name: [*map(encode, value)] if isinstance(value, list) and value else encode(value)
        for name, value in data.items()
    }


def bytes_of(members: Mapping[str, str | list[str]]) -> bytes | None:
    """The object of some members, whose values are JSON already, with whatever is harmful in them escaped. None: a
    byte that is no text stands as a lone surrogate, and only the escaped form of data can hold it.
    """
    try:
        lines = [_member(name, value) for name, value in members.items()]
    except UnicodeEncodeError:
        return None
    return b"{\n" + b",\n".join(lines) + b"\n}\n"


def _member(name: str, value: str | list[str]) -> bytes:
    whole = (
        b"[\n    " + b",\n    ".join(map(_harmless, value)) + b"\n  ]" if isinstance(value, list) else _harmless(value)
    )
    return b"  " + _harmless(encode_basestring(name)) + b": " + whole


def _harmless(text: str) -> bytes:
    """JSON of one line. Line by line, since one letter beyond ASCII makes a whole text slow."""
    if text.isascii() and "\x7f" not in text:  # controls are escaped already
        return text.encode()
    raw = text.encode()
    if raw.translate(None, _PLAIN).decode().isprintable():  # as mostly: then nothing harmful is in it
        return raw
    return re.sub(_HARMFUL, lambda match: f"\\u{ord(match.group()):04x}", text).encode()
