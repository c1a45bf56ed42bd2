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
MOST = 4_000  # values of one type whose texts are held
encode, quoted = json.JSONEncoder(ensure_ascii=False).encode, encode_basestring


class Form:
    """How a type is written and read, and its schema. definitions: schemas that it refers to, by name, or what makes
    them when a schema is published.

    text: what ``encode`` makes of ``write``, without the data between them; of a type with parts, what makes this of
    the texts of these. items: of a list, the form of an item.
    """

    def __init__(
        self,
        write: Callable[[Any], Any],
        read: Callable[[Any], Any],
        schema: Json,
        definitions: Mapping[str, Json] | Callable[[], Mapping[str, Json]] = MappingProxyType({}),
        text: Text | None = None,
        of_parts: "Callable[[Texts], Text] | None" = None,
        items: "Form | None" = None,
    ) -> None:
        self.write, self.read, self.schema, self._definitions = write, read, schema, definitions
        self.text, self.of_parts, self.items = text or (lambda value: encode(write(value))), of_parts, items

    @property
    def definitions(self) -> Mapping[str, Json]:
        return self._definitions() if callable(self._definitions) else self._definitions


class Texts:
    """What makes the texts of forms, and the texts of values that many ledgers of one run hold as the very same
    objects, such as a rule's cause. Whoever writes them keeps it.
    """

    def __init__(self) -> None:
        self._of: dict[Form, Text] = {}
        self._met: dict[Text, Text] = {}

    def of(self, form: Form) -> Text:
        """What makes the text of a value."""
        if form not in self._of:
            self._of[form] = form.of_parts(self) if form.of_parts else form.text
        return self._of[form]

    def met(self, form: Form) -> Text:
        """The same for values that are met again: each is worked out once."""
        text = self.of(form)
        if text not in self._met:
            self._met[text] = _once_each(text)
        return self._met[text]


def _once_each(text_of: Text) -> Text:
    """The text of an object that cannot change, by which one it is: equal ones may have other texts (1 and true)."""
    known: dict[int, str] = {}
    held: list[Any] = []  # the values, so that no other one can have the number of one of them

    def text(value: Any) -> str:
        said = known.get(id(value))
        if said is None:
            if len(held) >= MOST:
                known.clear()
                held.clear()
            said = text_of(value)
            held.append(value)
            known[id(value)] = said
        return said

    return text


def met_again(form: Form) -> Form:
    """The form, for values that are mostly met as the very same objects."""
    return Form(form.write, form.read, form.schema, lambda: form.definitions, of_parts=lambda texts: texts.met(form))


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

    def of_parts(texts: Texts) -> Text:
        text_of = texts.of(items)
        return lambda value: f"[{', '.join(map(text_of, value))}]"

    schema = {"type": "array", "items": items.schema}
    return Form(
        lambda value: list(map(items.write, value)), read, schema, lambda: items.definitions, None, of_parts, items
    )


def table_of(values: Form) -> Form:
    def write(table: Mapping[str, Any]) -> Json:
        return {name: values.write(value) for name, value in table.items()}

    def read(item: Any) -> Any:
        if not isinstance(item, dict):
            raise TypeError("no table")
        return {name: values.read(value) for name, value in item.items()}

    def of_parts(texts: Texts) -> Text:
        text_of = texts.of(values)
        return lambda table: (
            "{" + ", ".join([f"{quoted(name)}: {text_of(value)}" for name, value in table.items()]) + "}"
        )

    schema = {"type": "object", "additionalProperties": values.schema}
    return Form(write, read, schema, lambda: values.definitions, of_parts=of_parts)


def or_none(form: Form) -> Form:
    def of_parts(texts: Texts) -> Text:
        text_of = texts.of(form)
        return lambda value: "null" if value is None else text_of(value)

    return Form(
        lambda value: None if value is None else form.write(value),
        lambda item: None if item is None else form.read(item),
        {"anyOf": [form.schema, {"type": "null"}]},
        lambda: form.definitions,
        of_parts=of_parts,
    )
