"""Bindings as TOML lines. Strangers' keys are quoted so that any text of theirs is only ever a text."""

from collections.abc import Mapping

from profilesmith.foundation.toml_values import pair_lines
from profilesmith.suggest.proposal import Entry
from profilesmith.translation.check_key_map import is_one_line


def can_be_written(text: str) -> bool:
    """Whether a key or word can stand in a map: stray bytes of a broken encoding and control characters cannot."""
    return is_one_line(text)


def table_lines(header: str, entries: Mapping[str, Entry]) -> list[str]:
    """``[text]`` or ``[[binding]]`` with its entries."""
    return [header, *pair_lines(entries)]
