"""``python -m tests.knowledge.at_start``: what every derivation reads of the package's own data, worked out, as JSON.

TOML stays the one statement. JSON is read in an eighth of the time, and its quantities are canonical numbers already.
"""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterable
from fractions import Fraction
from pathlib import Path
from typing import Any

from profilesmith.facts.facts import FactKind
from profilesmith.foundation.quantity import read_quantity
from profilesmith.vocabulary.setting import Setting

KNOWLEDGE = Path(__file__).resolve().parents[2] / "profilesmith" / "knowledge"
PLACE = KNOWLEDGE / "at_start.json"
AS_THEY_ARE = ("cautions.toml", "limits.toml", "materials.toml")
"""Files of which a derivation asks little: kept as the tables that they hold."""


def tables_of(name: str) -> dict[str, Any]:
    """What a file of knowledge says."""
    return tomllib.loads((KNOWLEDGE / name).read_text(encoding="utf-8"))


def _canonical(text: str, kind: str, difference: bool = False) -> Fraction:
    number = read_quantity(text, kind, difference=difference)
    assert isinstance(number, Fraction), number
    return number


def settings() -> list[Setting]:
    """All settings of the vocabulary, in its order."""
    return [_setting(name, table) for name, table in tables_of("vocabulary.toml")["settings"].items()]


def _setting(name: str, table: dict[str, Any]) -> Setting:
    kind, plain = table["kind"], Setting(name, table["kind"], table["area"], table["meaning"])
    plain = plain._replace(words=tuple(table.get("words", ())), values=tuple(table.get("values", ())))
    if "plausible" not in table:
        return plain
    low, high = (_canonical(text, kind) for text in table["plausible"])
    usual_low, usual_high = (_canonical(text, kind) for text in table["usual"])
    step = _canonical(table["resolution"], kind, difference=True)
    return plain._replace(low=low, high=high, step=step, usual=(usual_low, usual_high))


def fact_kinds() -> list[FactKind]:
    """All facts, in their order."""
    return [_fact_kind(name, table) for name, table in tables_of("facts.toml")["facts"].items()]


def _fact_kind(name: str, table: dict[str, Any]) -> FactKind:
    unit_kind = table.get("unit_kind", "")
    low, high = [_canonical(text, unit_kind) for text in table.get("plausible", ())] or (None, None)
    values = tuple(table.get("values", ()))
    return FactKind(name, table["kind"], table["meaning"], table["ask"], unit_kind, values, low, high)


def made_anew() -> str:
    """The file as it is to be: a line for each setting and each fact."""
    vocabulary = tables_of("vocabulary.toml")
    kept = {
        "settings": map(_json, settings()),
        "facts": map(_json, fact_kinds()),
        "groups": map(_json, vocabulary["groups"].items()),
        "areas": map(_json, vocabulary["areas"].items()),
        "tables": (_json((name, tables_of(name))) for name in AS_THEY_ARE),
    }
    return "{\n" + ",\n".join(f'"{name}": {_lines(items)}' for name, items in kept.items()) + "\n}\n"


def _lines(items: Iterable[str]) -> str:
    return "[\n" + ",\n".join(items) + "\n]"


def _json(item: object) -> str:
    """A number is its numerator and its denominator."""
    return json.dumps(item, ensure_ascii=False, default=lambda number: number.as_integer_ratio())


if __name__ == "__main__":
    PLACE.write_text(made_anew(), encoding="utf-8", newline="\n")
    print(f"wrote {PLACE.name}")
