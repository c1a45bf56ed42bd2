"""One statement, three uses: an annotated NamedTuple is what a record is in Python, how it is written, read and
published.

Comes in: a NamedTuple whose fields are ``Annotated[type, "what it is"]``, with ``LEFT_OUT`` where a member that has its
default is not written. Goes out: JSON, the record again, the JSON Schema. A reader raises ValueError, TypeError or
KeyError for whatever has another shape; a member that it does not know is passed over.
"""

from collections.abc import Callable, Mapping
from functools import cache
from types import MappingProxyType, UnionType
from typing import Annotated, Any, Literal, NamedTuple, Union, get_args, get_origin, get_type_hints

LEFT_OUT = object()
"""In an annotation: not written while it has its default."""
ONLY_HERE = object()
"""In an annotation: neither written nor read."""
Json = dict[str, Any]


class Form:
    """How a type is written and read, and its schema. definitions: schemas that it refers to, by name."""

    def __init__(
        self,
        write: Callable[[Any], Any],
        read: Callable[[Any], Any],
        schema: Json,
        definitions: Mapping[str, Json] = MappingProxyType({}),
    ) -> None:
        self.write, self.read, self.schema, self.definitions = write, read, schema, definitions


class Further:
    """In an annotation: further words of a member's schema, such as a pattern. They are not asked when reading."""

    def __init__(self, **words: Any) -> None:
        self.words = words


def _itself(value: Any) -> Any:
    return value


def _plain(kind: type, name: str) -> Form:
    def read(item: Any) -> Any:
        if not isinstance(item, kind) or (isinstance(item, bool) and kind is not bool):
            raise TypeError(f"{item!r} is no {name}")
        return item

    return Form(_itself, read, {"type": name})


PLAIN = {str: _plain(str, "string"), int: _plain(int, "integer"), bool: _plain(bool, "boolean")}


@cache
def form_of(kind: Any) -> Form:
    """The form of a type: a record, a plain type, a choice of words, a list, a table of one type, or one that brings
    its own.
    """
    origin, parts = get_origin(kind), get_args(kind)
    if origin is Annotated:
        own = next((part for part in parts[1:] if isinstance(part, Form)), None)
        return own or form_of(parts[0])
    if kind is Any:
        return Form(_itself, _itself, {})
    if kind in PLAIN:
        return PLAIN[kind]
    if origin is Literal:
        return _choice(parts)
    if origin is tuple:
        return _list(form_of(parts[0]))
    if isinstance(origin, type) and issubclass(origin, Mapping):
        return _table(form_of(parts[1]))
    if origin in (Union, UnionType):
        return _or_none(form_of(next(part for part in parts if part is not type(None))))
    return _record(kind)


def _choice(words: tuple[Any, ...]) -> Form:
    def read(item: Any) -> Any:
        if not isinstance(item, str | int) or item not in words:
            raise ValueError(f"{item!r} is not one of {words}")
        return item

    return Form(_itself, read, {"const": words[0]} if len(words) == 1 else {"enum": list(words)})


def _list(items: Form) -> Form:
    def read(item: Any) -> Any:
        if not isinstance(item, list):
            raise TypeError("no list")
        return tuple(map(items.read, item))

    schema = {"type": "array", "items": items.schema}
    return Form(lambda value: list(map(items.write, value)), read, schema, items.definitions)


def _table(values: Form) -> Form:
    def write(table: Mapping[str, Any]) -> Json:
        return {name: values.write(value) for name, value in table.items()}

    def read(item: Any) -> Any:
        if not isinstance(item, dict):
            raise TypeError("no table")
        return {name: values.read(value) for name, value in item.items()}

    return Form(write, read, {"type": "object", "additionalProperties": values.schema}, values.definitions)


def _or_none(form: Form) -> Form:
    return Form(
        lambda value: None if value is None else form.write(value),
        lambda item: None if item is None else form.read(item),
        {"anyOf": [form.schema, {"type": "null"}]},
        form.definitions,
    )


class _Member(NamedTuple):
    name: str
    form: Form
    default: Any
    is_left_out: bool
    is_here_only: bool
    schema: Json


_NONE = object()


def _members(kind: Any) -> list[_Member]:
    hints, defaults = get_type_hints(kind, include_extras=True), kind._field_defaults
    return [
        _Member(
            name,
            form_of(hint),
            defaults.get(name, _NONE),
            LEFT_OUT in get_args(hint)[1:],
            ONLY_HERE in get_args(hint)[1:],
            _described(hint),
        )
        for name, hint in hints.items()
    ]


def _record(kind: Any) -> Form:
    """A NamedTuple as an object; its schema stands under its own name."""
    members = _members(kind)

    def write(value: Any) -> Json:
        return {
            member.name: member.form.write(item)
            for member, item in zip(members, value, strict=True)
            if not (member.is_here_only or (member.is_left_out and item == member.default))
        }

    def read(item: Any) -> Any:
        if not isinstance(item, dict):
            raise TypeError("no object")
        return kind(*(_value(member, item) for member in members))

    definitions = {key: value for member in members for key, value in member.form.definitions.items()}
    name = kind.__name__
    return Form(write, read, {"$ref": f"#/$defs/{name}"}, {**definitions, name: _object(members)})


def _value(member: _Member, item: Json) -> Any:
    if member.is_here_only or (member.name not in item and member.default is not _NONE):
        return member.default
    return member.form.read(item[member.name])


def _object(members: list[_Member]) -> Json:
    written = [member for member in members if not member.is_here_only]
    return {
        "type": "object",
        "additionalProperties": False,
        "required": [member.name for member in written if not member.is_left_out],
        "properties": {member.name: member.schema for member in written},
    }


def _described(hint: Any) -> Json:
    """A member's schema with what it is."""
    form, parts = form_of(hint), get_args(hint)[1:]
    description = next((part for part in parts if isinstance(part, str)), "")
    more = {key: value for part in parts if isinstance(part, Further) for key, value in part.words.items()}
    return {**({"description": description} if description else {}), **form.schema, **more}


def schema_of(kind: Any, head: Json) -> Json:
    """The published schema of a record. head: what stands above it, such as ``$id`` and ``title``."""
    definitions = dict(form_of(kind).definitions)
    top = definitions.pop(kind.__name__)
    return {**head, **top, "$defs": definitions}
