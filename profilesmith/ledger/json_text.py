"""JSON as our files hold it: kind to diffs, and harmless on a terminal."""

import json
import re
from collections.abc import Callable, Mapping
from typing import Any

# What a terminal or an editor would obey: C1 controls, and marks that turn or hide text. JSON may escape any character.
_HARMFUL = re.compile("[\x7f-\x9f\xad\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]")


def json_text(data: Mapping[str, Any]) -> str:
    """A JSON object with one member a line, and one line for each item of a list: quick to write, kind to diffs."""
    text = _lines(data, json.JSONEncoder(ensure_ascii=False).encode)
    try:
        text.encode()
    except UnicodeEncodeError:  # a byte that is no text stands as a lone surrogate: only the escaped form can hold it
        text = _lines(data, json.JSONEncoder(ensure_ascii=True).encode)
    return text


def _lines(data: Mapping[str, Any], encode: Callable[[Any], str]) -> str:
    members = []
    for name, value in data.items():
        if isinstance(value, list) and value:
            items = ",\n    ".join(map(encode, value))
            members.append(f"  {encode(name)}: [\n    {items}\n  ]")
        else:
            members.append(f"  {encode(name)}: {encode(value)}")
    return _HARMFUL.sub(lambda match: f"\\u{ord(match.group()):04x}", "{\n" + ",\n".join(members) + "\n}\n")
