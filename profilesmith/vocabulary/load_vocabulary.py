"""The shipped vocabulary, read once from package data.

The data are ours and tested (tests/knowledge), so this reads plainly and fails loudly.
"""

from __future__ import annotations

import json
from functools import cache
from typing import Any
from zlib import crc32

from profilesmith.foundation import toml_reader
from profilesmith.foundation.package_data import package_text
from profilesmith.foundation.quantity import read_quantity
from profilesmith.vocabulary.setting import Group, Setting, Vocabulary


def knowledge(name: str) -> dict[str, Any]:
    """One of the package's own data files, to be read and not to be changed.

    TOML is the statement. What a derivation asks is kept as JSON too, which is read in an eighth of the time
    (``python -m tests.knowledge.at_start`` makes it anew); that counts only while it was made of this very text.
    """
    text = package_text(f"knowledge/{name}")
    kept = _at_start().get(name)
    if kept is None or kept["crc32"] != crc32(text.encode()):
        return toml_reader.loads(text)
    tables: dict[str, Any] = kept["tables"]
    return tables


@cache
def _at_start() -> dict[str, Any]:
    kept: dict[str, Any] = json.loads(package_text("knowledge/at_start.json"))
    return kept


def _setting(name: str, table: dict[str, Any]) -> Setting:
    kind = table["kind"]
    numbers: dict[str, Any] = {}
    if "plausible" in table:
        low, high = (read_quantity(text, kind) for text in table["plausible"])
        step = read_quantity(table["resolution"], kind, difference=True)
        usual = tuple(read_quantity(text, kind) for text in table["usual"])
        numbers = {"low": low, "high": high, "step": step, "usual": usual}
    return Setting(
        id=name,
        kind=kind,
        area=table["area"],
        meaning=table["meaning"],
        words=tuple(table.get("words", ())),
        values=tuple(table.get("values", ())),
        **numbers,
    )


@cache
def load_vocabulary() -> Vocabulary:
    """The settings, groups and areas that this version knows."""
    data = knowledge("vocabulary.toml")
    settings = {name: _setting(name, table) for name, table in data["settings"].items()}
    groups = {name: Group(name, table["meaning"], tuple(table["members"])) for name, table in data["groups"].items()}
    return Vocabulary(settings, groups, data["areas"])
