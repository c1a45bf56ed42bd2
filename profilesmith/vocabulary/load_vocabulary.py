"""The shipped vocabulary, read once from package data.

The data are ours and tested (tests/knowledge), so this reads plainly and fails loudly.
"""

from __future__ import annotations

import json
from fractions import Fraction
from functools import cache
from typing import Any

from profilesmith.foundation import toml_reader
from profilesmith.foundation.package_data import package_text
from profilesmith.vocabulary.setting import Group, Setting, Vocabulary

_fraction = cache(Fraction)  # a few numbers are the ends of most ranges


def knowledge(name: str) -> dict[str, Any]:
    """One of the package's own data files, to be read and not to be changed."""
    tables: dict[str, Any] | None = at_start()["tables"].get(name)
    return toml_reader.loads(package_text(f"knowledge/{name}")) if tables is None else tables


@cache
def at_start() -> dict[str, Any]:
    """What every derivation asks of those files, worked out: ``python -m tests.knowledge.at_start`` makes it of them.

    settings, facts: the members of each, numbers as ``number_at_start`` takes them. tables: whole files, by their name.
    """
    kept: dict[str, Any] = json.loads(package_text("knowledge/at_start.json"))
    return {**kept, "tables": dict(kept["tables"])}


def number_at_start(parts: list[int] | None) -> Fraction | None:
    """The number of a numerator and a denominator."""
    return None if parts is None else _fraction(*parts)


def _setting(
    name: str,
    kind: str,
    area: str,
    meaning: str,
    low: list[int] | None,
    high: list[int] | None,
    step: list[int] | None,
    words: list[str],
    values: list[str],
    usual: list[list[int]] | None,
) -> Setting:
    return Setting(
        id=name,
        kind=kind,
        area=area,
        meaning=meaning,
        low=number_at_start(low),
        high=number_at_start(high),
        step=number_at_start(step),
        words=tuple(words),
        values=tuple(values),
        usual=None if usual is None else (_fraction(*usual[0]), _fraction(*usual[1])),
    )


@cache
def load_vocabulary() -> Vocabulary:
    """The settings, groups and areas that this version knows."""
    data = at_start()
    settings = {row[0]: _setting(*row) for row in data["settings"]}
    groups = {name: Group(name, table["meaning"], tuple(table["members"])) for name, table in data["groups"]}
    return Vocabulary(settings, groups, dict(data["areas"]))
