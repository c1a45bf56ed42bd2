"""Bindings as TOML lines. Strangers' keys are quoted so that any text of theirs is only ever a text."""

from collections.abc import Mapping

from profilesmith.foundation.toml_text import quoted
from profilesmith.suggest.proposal import Entry
from profilesmith.translation.check_key_map import is_one_line


def can_be_written(text: str) -> bool:
    """Whether a key or word can stand in a map: stray bytes of a broken encoding and control characters cannot."""
    return is_one_line(text)


def value_text(entry: Entry) -> str:
    """A value of a binding or of ``[text]``."""
    if isinstance(entry, bool):
        return "true" if entry else "false"
    if isinstance(entry, int):
        return str(entry)
    if isinstance(entry, str):
        return quoted(entry)
    if isinstance(entry, dict):
        return "{ " + ", ".join(f"{word} = {quoted(text)}" for word, text in entry.items()) + " }"
    return "[" + ", ".join(quoted(text) for text in entry) + "]"


def table_lines(header: str, entries: Mapping[str, Entry]) -> list[str]:
    """``[text]`` or ``[[binding]]`` with its entries."""
    return [header, *(f"{name} = {value_text(entry)}" for name, entry in entries.items())]
