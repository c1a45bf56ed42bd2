"""Values as TOML files hold them that the program makes or extends: tomlkit writes them, and is loaded only then."""

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tomlkit.items import Item


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


def pair_lines(table: Mapping[str, Any]) -> list[str]:
    """``name = value`` for each entry; a name is quoted where TOML wants it."""
    return [f"{key_text(name)} = {value_text(value)}" for name, value in table.items()]


def key_text(name: str) -> str:
    """A key, quoted where TOML wants it."""
    import tomlkit

    return tomlkit.key(name).as_string()


def without_tables(
    text: str, key: str, drop: Callable[[Mapping[str, object]], bool]
) -> tuple[str, list[Mapping[str, object]]]:
    """A document without some tables of ``[[key]]``, all else as it stands; and those tables, in their order."""
    import tomlkit

    document = tomlkit.parse(text)
    tables: Any = document.get(key) or []
    taken = []
    for number in reversed(range(len(tables))):
        if drop(tables[number].unwrap()):
            taken.append(tables[number].unwrap())
            del tables[number]
    if key in document and not tables:
        del document[key]
    return tomlkit.dumps(document), taken[::-1]
