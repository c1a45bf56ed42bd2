"""``not_bound`` of a map: keys that a person refused are added to it, and everything else stays to the letter."""

import json
import re
from collections.abc import Sequence

_LIST = re.compile(r"^(\s*not_bound\s*=\s*\[)([^\]]*)\]", re.M)
_HEAD = re.compile(r"^\s*\[keymap\][^\n]*\n", re.M)


def with_left_alone(text: str, names: Sequence[str]) -> str:
    """A map's text with more keys in ``not_bound``. names: as ``key`` or ``[section] key``."""
    new = [json.dumps(name, ensure_ascii=False) for name in dict.fromkeys(names)]
    listed = _LIST.search(text)
    if listed:
        new = [name for name in new if name not in listed[2]]
        said = listed[2].rstrip().rstrip(",")
        inner = ", ".join([said, *new] if said.strip() else new) if new else listed[2]
        return f"{text[: listed.start()]}{listed[1]}{inner}]{text[listed.end() :]}"
    head = _HEAD.search(text)
    if not new:
        return text
    line = f"not_bound = [{', '.join(new)}]\n"
    return f"{text[: head.end()]}{line}{text[head.end() :]}" if head else f"[keymap]\n{line}\n{text}"
