"""One statement, three uses: an annotated NamedTuple is what a record is in Python, how it is written, read and
published.

Comes in: a NamedTuple whose fields are ``Annotated[type, "what it is"]``, with ``LEFT_OUT`` where a member that has its
default is not written. Goes out: JSON (as data, or at once as text), the record again, the JSON Schema. A reader raises
ValueError, TypeError or KeyError for whatever has another shape; a member that it does not know is passed over.
"""

from collections.abc import Mapping
from functools import cache
from operator import call
from types import UnionType
from typing import TYPE_CHECKING, Any, Literal, Union, get_args, get_origin

if TYPE_CHECKING:
    from typing import Annotated as Annotated  # for the files that state a record

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.plain_forms import (
    PLAIN,
    Form,
    Json,
    Text,
    Texts,
    choice,
    itself,
    list_of,
    met_again,
    or_none,
    quoted,
    table_of,
)

LEFT_OUT = object()
"""In an annotation: not written while it has its default."""
ONLY_HERE = object()
"""In an annotation: neither written nor read."""
MET_AGAIN = object()
"""In an annotation: mostly the very same object in many rows and ledgers."""


class _Annotated:
    """A type with what is said of it beside. The standard library's, which type checkers see, takes thirty times as
    long, and every run states two hundred members.
    """

    __slots__ = ("kind", "said")

    def __init__(self, kind: Any, *said: Any) -> None:
        self.kind, self.said = kind, said

    def __class_getitem__(cls, parts: tuple[Any, ...]) -> "_Annotated":
        return cls(*parts)


if not TYPE_CHECKING:
    Annotated = _Annotated


def _said(hint: Any) -> tuple[Any, ...]:
    return hint.said if isinstance(hint, _Annotated) else ()


class Further:
    """In an annotation: further words of a member's schema, such as a pattern. They are not asked when reading."""

    def __init__(self, **words: Any) -> None:
        self.words = words


@cache
def form_of(kind: Any) -> Form:
    """The form of a type: a record, a plain type, a choice of words, a list, a table of one type, or one that brings
    its own.
    """
    if isinstance(kind, _Annotated):
        own = _own_form(kind.said) or form_of(kind.kind)
        return met_again(own) if MET_AGAIN in kind.said else own
    if isinstance(kind, type) and kind in PLAIN:  # of a choice of words the hash takes longer than all else
        return PLAIN[kind]
    if kind is Any:
        return Form(itself, itself, {})
    origin, parts = get_origin(kind), get_args(kind)
    if origin is Literal:
        return choice(parts)
    if origin is tuple:
        return list_of(form_of(parts[0]))
    if isinstance(origin, type) and issubclass(origin, Mapping):
        return table_of(form_of(parts[1]))
    if origin in (Union, UnionType):
        return or_none(form_of(next(part for part in parts if part is not type(None))))
    return _record(kind)


def _own_form(said: tuple[Any, ...]) -> Form | None:
    for part in said:
        if isinstance(part, Form):
            return part
    return None


class _Member(NamedTuple):
    name: str
    form: Form
    default: Any
    is_left_out: bool
    is_here_only: bool
    hint: Any


_NONE = object()


@cache
def _members(kind: Any) -> list[_Member]:
    hints, defaults = kind.__annotations__, kind._field_defaults  # types themselves: no file of the ledger writes texts
    said = [(name, hint, _said(hint)) for name, hint in hints.items()]
    return [
        _Member(name, form_of(hint), defaults.get(name, _NONE), LEFT_OUT in parts, ONLY_HERE in parts, hint)
        for name, hint, parts in said
    ]


def _record(kind: Any) -> Form:
    """A NamedTuple as an object; its schema stands under its own name. Its members are looked at when one is met: most
    derivations have no history and no mends.
    """

    def write(value: Any) -> Json:
        return {
            member.name: member.form.write(item)
            for member, item in zip(_members(kind), value, strict=True)
            if _is_written(member, item)
        }

    def read(item: Any) -> Any:
        if not isinstance(item, dict):
            raise TypeError("no object")
        return kind(*(_value(member, item) for member in _members(kind)))

    def definitions() -> Mapping[str, Json]:
        members = _members(kind)
        below = {key: value for member in members for key, value in member.form.definitions.items()}
        return {**below, name: _object(members)}

    name = kind.__name__
    schema = {"$ref": f"#/$defs/{name}"}
    return Form(write, read, schema, definitions, of_parts=lambda texts: _text_of(_members(kind), texts))


def _text_of(members: list[_Member], texts: Texts) -> Text:
    """A record's text. The first members are always there; of the others one mostly *is* its default, and what makes
    its text is not even looked for.
    """
    first = next((at for at, member in enumerate(members) if member.is_left_out or member.is_here_only), len(members))
    heads = [f"{quoted(member.name)}: " for member in members]
    always = [texts.of(member.form) for member in members[:first]]
    holes = [piece for at in range(first) for piece in (("{" if at == 0 else ", ") + heads[at], "")]
    further = [
        (at, heads[at], member.form, member.default if member.is_left_out else _NONE)
        for at, member in enumerate(members)
        if at >= first and not member.is_here_only
    ]
    made: list[Text | None] = [None for _ in members]

    def text(value: Any) -> str:
        pieces = holes[:]
        pieces[1::2] = map(call, always, value)
        for at, head, form, default in further:
            item = value[at]
            if item is not default and item != default:
                text_of = made[at]
                if text_of is None:
                    text_of = made[at] = texts.of(form)
                pieces += (", " if pieces else "{", head, text_of(item))
        pieces.append("}" if pieces else "{}")
        return "".join(pieces)

    return text


def member_texts(record: Any, texts: Texts) -> dict[str, str | list[str]]:
    """The text of each member of a record that is written; of a list that has any, the texts of its items."""
    kind: Any = type(record)
    return {
        member.name: [*map(texts.of(member.form.items), item)]
        if member.form.items and item
        else texts.of(member.form)(item)
        for member, item in zip(_members(kind), record, strict=True)
        if _is_written(member, item)
    }


def _is_written(member: _Member, item: Any) -> bool:
    return not (member.is_here_only or (member.is_left_out and item == member.default))


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
        "properties": {member.name: _described(member.hint) for member in written},
    }


def _described(hint: Any) -> Json:
    """A member's schema with what it is."""
    form, parts = form_of(hint), _said(hint)
    description = next((part for part in parts if isinstance(part, str)), "")
    more = {key: value for part in parts if isinstance(part, Further) for key, value in part.words.items()}
    return {**({"description": description} if description else {}), **form.schema, **more}


def schema_of(kind: Any, head: Json) -> Json:
    """The published schema of a record. head: what stands above it, such as ``$id`` and ``title``."""
    definitions = dict(form_of(kind).definitions)
    top = definitions.pop(kind.__name__)
    return {**head, **top, "$defs": definitions}
