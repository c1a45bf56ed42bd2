"""``NamedTuple`` as the standard library has it, made at a fifth of its cost: every run makes some 150 of them.

``typing.NamedTuple`` writes and compiles a constructor for each class. Here classes with as many fields share one,
under their own names of the fields, and all share the other methods. The tuples, their constructors and their errors
are the same, and type checkers see the standard library's. From Python 3.14 on, where annotations are functions, it is
the standard library's.
"""

from __future__ import annotations

import sys
from collections import namedtuple
from collections.abc import Iterable
from operator import itemgetter
from types import FunctionType
from typing import TYPE_CHECKING, Any, cast

if TYPE_CHECKING:
    from typing import NamedTuple, Self
elif sys.version_info >= (3, 14):
    from typing import NamedTuple

try:
    from collections import _tuplegetter as getter  # type: ignore[attr-defined]
except ImportError:  # as in the standard library: an interpreter without it

    def getter(index: int, doc: str) -> property:
        return property(itemgetter(index), doc=doc)


__all__ = ["NamedTuple"]
_new: Any = tuple.__new__
_CONSTRUCTORS: tuple[Any, ...] = (
    lambda _cls: _new(_cls, ()),
    lambda _cls, a: _new(_cls, (a,)),
    lambda _cls, a, b: _new(_cls, (a, b)),
    lambda _cls, a, b, c: _new(_cls, (a, b, c)),
    lambda _cls, a, b, c, d: _new(_cls, (a, b, c, d)),
    lambda _cls, a, b, c, d, e: _new(_cls, (a, b, c, d, e)),
    lambda _cls, a, b, c, d, e, f: _new(_cls, (a, b, c, d, e, f)),
    lambda _cls, a, b, c, d, e, f, g: _new(_cls, (a, b, c, d, e, f, g)),
    lambda _cls, a, b, c, d, e, f, g, h: _new(_cls, (a, b, c, d, e, f, g, h)),
    lambda _cls, a, b, c, d, e, f, g, h, i: _new(_cls, (a, b, c, d, e, f, g, h, i)),
    lambda _cls, a, b, c, d, e, f, g, h, i, j: _new(_cls, (a, b, c, d, e, f, g, h, i, j)),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k: _new(_cls, (a, b, c, d, e, f, g, h, i, j, k)),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m: _new(_cls, (a, b, c, d, e, f, g, h, i, j, k, m)),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n: _new(_cls, (a, b, c, d, e, f, g, h, i, j, k, m, n)),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o: _new(_cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o)),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p: _new(_cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p)),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z, A: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z, A)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z, A, B: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z, A, B)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z, A, B, C: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z, A, B, C)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z, A, B, C, D: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z, A, B, C, D)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z, A, B, C, D, E: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z, A, B, C, D, E)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z, A, B, C, D, E, F: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z, A, B, C, D, E, F)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z, A, B, C, D, E, F, G: _new(
        _cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z, A, B, C, D, E, F, G)
    ),
    lambda _cls, a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z, A, B, C, D, E, F, G, H: (
        _new(_cls, (a, b, c, d, e, f, g, h, i, j, k, m, n, o, p, q, r, s, t, u, v, w, x, y, z, A, B, C, D, E, F, G, H))
    ),
)
"""By the number of fields. Larger classes, which no derivation has, ask the standard library for theirs."""
_GETTERS = tuple(getter(index, f"Alias for field number {index}") for index in range(60))


class _Named(tuple[Any, ...]):
    """What all named tuples share. Each has it for its own: a class with one base less is made in less time."""

    __slots__ = ()
    _fields = cast("tuple[str, ...]", ())  # not annotated, or type hints of all would name it

    @classmethod
    def _make(cls, values: Iterable[Any]) -> Self:
        made: Self = _new(cls, values)
        if len(made) != len(cls._fields):
            raise TypeError(f"Expected {len(cls._fields)} arguments, got {len(made)}")
        return made

    def _replace(self, /, **changes: Any) -> Self:
        made: Self = _new(type(self), map(changes.pop, self._fields, self))
        if changes:
            raise ValueError(f"Got unexpected field names: {list(changes)!r}")
        return made

    def _asdict(self) -> dict[str, Any]:
        return dict(zip(self._fields, self, strict=True))

    def __repr__(self) -> str:
        shown = (f"{name}={value!r}" for name, value in zip(self._fields, self, strict=True))
        return f"{type(self).__name__}({', '.join(shown)})"

    def __getnewargs__(self) -> tuple[Any, ...]:
        return tuple(self)


_SHARED = {name: vars(_Named)[name] for name in ("_make", "_replace", "_asdict", "__repr__", "__getnewargs__")}


class _Maker(type):
    """Makes a plain class of a class statement: what it annotates are the fields."""

    def __new__(cls, name: str, bases: tuple[type, ...], body: dict[str, Any]) -> Any:
        annotations = body.get("__annotations__", {})
        fields = tuple(annotations)
        defaults = {field: body[field] for field in fields if field in body}
        _check(name, bases, fields, defaults)
        new = _constructor(name, fields, tuple(defaults.values()))
        new.__annotations__ = annotations
        own = {
            "__new__": new,
            "__slots__": (),
            "_fields": fields,
            "__match_args__": fields,
            "_field_defaults": defaults,
        }
        return type(name, (tuple,), {**_SHARED, **body, **own, **dict(zip(fields, _GETTERS, strict=False))})


def _constructor(name: str, fields: tuple[str, ...], defaults: tuple[Any, ...]) -> Any:
    if len(fields) >= len(_CONSTRUCTORS):
        return namedtuple(name, fields, defaults=defaults).__new__
    code = _CONSTRUCTORS[len(fields)].__code__
    code = code.replace(co_varnames=("_cls", *fields), co_qualname=f"{name}.__new__")
    return FunctionType(code, globals(), "__new__", defaults)


def _check(name: str, bases: tuple[type, ...], fields: tuple[str, ...], defaults: dict[str, Any]) -> None:
    if len(bases) != 1:
        raise TypeError(f"{name}: a NamedTuple has no other base")
    if len(fields) > len(_GETTERS):
        raise TypeError(f"{name}: more than {len(_GETTERS)} fields")
    if [field for field in fields if field[0] == "_"]:
        raise ValueError(f"{name}: a field's name begins with an underscore")
    if defaults and tuple(defaults) != fields[-len(defaults) :]:
        raise TypeError(f"{name}: a field without a default follows one with a default")


if not TYPE_CHECKING and sys.version_info < (3, 14):
    NamedTuple = type.__new__(_Maker, "NamedTuple", (), {})
