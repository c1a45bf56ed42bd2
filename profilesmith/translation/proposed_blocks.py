"""Blocks of a map that stand behind "# ": proposals that nobody has accepted yet."""

import re

# Compiled when a map has such blocks.
_HEAD = r"#\s*\[\[binding\]\]\s*"
_SETTING = r'#\s*setting\s*=\s*"([^"]+)"\s*'
_KEY = r'#\s*key\s*=\s*"(.*)"\s*'


def proposed_blocks(raw: bytes) -> dict[str, tuple[str, int]]:
    """The blocks behind "# ": setting -> its key, and the line in which the block begins."""
    blocks: dict[str, tuple[str, int]] = {}
    head, setting = 0, ""
    for number, line in enumerate(raw.decode("utf-8", "replace").splitlines(), 1):
        if not line.startswith("#"):
            head = 0
        elif "[[" in line and re.fullmatch(_HEAD, line):
            head, setting = number, ""
        elif head and (said := re.fullmatch(_SETTING, line)):
            setting = said[1]
        elif head and setting and (key := re.fullmatch(_KEY, line)):
            blocks.setdefault(setting, (key[1].replace('\\"', '"').replace("\\\\", "\\"), head))
            head = 0
    return blocks
