"""Pieces of a recipe's TOML text, for what writes recipes: a head, a rule, and values that were read from TOML."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from profilesmith.foundation.toml_text import harmless
from profilesmith.foundation.toml_values import pair_lines

LICENCE = "CC0-1.0"


def head_text(name: str, title: str, version: str = "1.0.0", cautions: Sequence[str] = ()) -> str:
    """``format`` and ``[recipe]``."""
    recipe = {"name": name, "version": version, "title": title, "licence": LICENCE}
    listed = {"cautions": list(cautions)} if cautions else {}
    return "\n".join(["format = 1", "", "[recipe]", *pair_lines({**recipe, **listed})]) + "\n"


def rule_text(rule: Mapping[str, str], why: str, source: str) -> str:
    """One ``[[rule]]``: setting, operation and value, reason and source."""
    reasons = {"why": harmless(why), "source": harmless(source)}
    return "\n".join(["[[rule]]", *pair_lines({**rule, **reasons})]) + "\n"
