"""Pieces of a recipe's TOML text, for what writes recipes: a head, a rule, and values that were read from TOML."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from profilesmith.foundation.toml_text import harmless, quoted

LICENCE = "CC0-1.0"


def head_text(name: str, title: str, version: str = "1.0.0", cautions: Sequence[str] = ()) -> str:
    """``format`` and ``[recipe]``."""
    lines = [
        "format = 1",
        "",
        "[recipe]",
        f"name = {quoted(name)}",
        f"version = {quoted(version)}",
        f"title = {quoted(title)}",
        f"licence = {quoted(LICENCE)}",
        *([f"cautions = [{', '.join(map(quoted, cautions))}]"] if cautions else []),
    ]
    return "\n".join(lines) + "\n"


def rule_text(rule: Mapping[str, str], why: str, source: str) -> str:
    """One ``[[rule]]``: setting, operation and value, reason and source."""
    lines = ["[[rule]]", *(f"{key} = {quoted(text)}" for key, text in rule.items())]
    return "\n".join([*lines, f"why = {quoted(harmless(why))}", f"source = {quoted(harmless(source))}"]) + "\n"
