"""How a value is written, read and published that is no record: plain ones, choices of words, lists, tables.

A reader raises ValueError, TypeError or KeyError for whatever has another shape.
"""

import json
from collections.abc import Callable, Mapping
from json.encoder import encode_basestring
from types import MappingProxyType
from typing import Any

Json = dict[str, Any]
Text = Callable[[Any], str]
encode, quoted = json.JSONEncoder(ensure_ascii=False).encode, encode_basestring


class Form:
    """How a type is written and read, and its schema. definitions: schemas that it refers to, by name, or what makes
    them when a schema is published.

    text: what ``encode`` makes of ``write``, without the data between them. each: of a list, the text of an item.
    """

    def __init__(
        self,
        write: Callable[[Any], Any],
        read: Callable[[Any], Any],
        schema: Json,
        definitions: Mapping[str, Json] | Callable[[], Mapping[str, Json]] = MappingProxyType({}),
        text: Text | None = None,
        each: Text | None = None,
    ) -> None:
        self.write, self.read, self.schema, self._definitions = write, read, schema, definitions
        self.text, self.each = text or (lambda value: encode(write(value))), each

    @property
    def definitions(self) -> Mapping[str, Json]:
        return self._definitions() if callable(self._definitions) else self._definitions


def itself(value: Any) -> Any:
    return value


def _plain(kind: type, name: str, text: Text) -> Form:
    def read(item: Any) -> Any:
        if not isinstance(item, kind) or (isinstance(item, bool) and kind is not bool):
            raise TypeError(f"{item!r} is no {name}")
        return item

    return Form(itself, read, {"type": name}, text=text)


PLAIN = {
    str: _plain(str, "string", quoted),
    int: _plain(int, "integer", int.__repr__),
    bool: _plain(bool, "boolean", lambda value: "true" if value else "false"),
}


def choice(words: tuple[Any, ...]) -> Form:
    def read(item: Any) -> Any:
        if not isinstance(item, str | int) or item not in words:
            raise ValueError(f"{item!r} is not one of {words}")
        return item

    schema: Json = {"const": words[0]} if len(words) == 1 else {"enum": list(words)}
    return Form(itself, read, schema, text=quoted if all(isinstance(word, str) for word in words) else encode)


def list_of(items: Form) -> Form:
    def read(item: Any) -> Any:
        if not isinstance(item, list):
            raise TypeError("no list")
        return tuple(map(items.read, item))

    def text(value: tuple[Any, ...]) -> str:
        return f"[{', '.join(map(items.text, value))}]"

    schema = {"type": "array", "items": items.schema}
    return Form(lambda value: list(map(items.write, value)), read, schema, lambda: items.definitions, text, items.text)


def table_of(values: Form) -> Form:
    def write(table: Mapping[str, Any]) -> Json:
        return {name: values.write(value) for name, value in table.items()}

    def read(item: Any) -> Any:
        if not isinstance(item, dict):
            raise TypeError("no table")
        return {name: values.read(value) for name, value in item.items()}

    def text(table: Mapping[str, Any]) -> str:
        return "{" + ", ".join([f"{quoted(name)}: {values.text(value)}" for name, value in table.items()]) + "}"

    schema = {"type": "object", "additionalProperties": values.schema}
    return Form(write, read, schema, lambda: values.definitions, text)


def or_none(form: Form) -> Form:
    return Form(
        lambda value: None if value is None else form.write(value),
        lambda item: None if item is None else form.read(item),
        {"anyOf": [form.schema, {"type": "null"}]},
        lambda: form.definitions,
        lambda value: "null" if value is None else form.text(value),
    )
