"""Pieces of TOML text. What strangers wrote stands in it as text only."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tomlkit.items import Item

WIDTH = 118


def value_text(value: Any) -> str:
    """A text, number, switch, list or table as TOML on one line: tomlkit writes it, and is loaded only then."""
    return _item(value).as_string()


def _item(value: Any) -> "Item":
    import tomlkit

    if isinstance(value, Mapping):
        table = tomlkit.inline_table()
        for name, inner in value.items():
            table[name] = _item(inner)
        return table
    if isinstance(value, str):
        return tomlkit.string(value)
    if isinstance(value, Sequence):
        array = tomlkit.array()
        for inner in value:
            array.append(_item(inner))
        return array
    item: Item = tomlkit.item(value)
    return item


def quoted(text: str) -> str:
    """A TOML basic string."""
    return value_text(text)


def pair_lines(table: Mapping[str, Any]) -> list[str]:
    """``name = value`` for each entry; a name is quoted where TOML wants it."""
    import tomlkit

    return [f"{tomlkit.key(name).as_string()} = {value_text(value)}" for name, value in table.items()]


def harmless(text: str) -> str:
    """Control characters and direction marks shown, not written."""
    return "".join(char if char.isprintable() else f"\\u{ord(char):04x}" for char in text)


def comment_lines(text: str, width: int = WIDTH, hanging: str = "#") -> list[str]:
    """A remark as comment lines, control characters shown, wrapped at blanks. hanging: what further lines begin with."""
    lines, line = [], "#"
    for word in harmless(text).split(" "):
        if len(line) + 1 + len(word) > width and line != "#":
            lines.append(line)
            line = hanging
        line = f"{line} {word}"
    return [*lines, line]
