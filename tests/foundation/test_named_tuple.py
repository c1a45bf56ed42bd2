"""Our ``NamedTuple`` against the standard library's: the same class statement, the same tuples."""

from __future__ import annotations

import copy
import inspect
import pickle
import sys
import types
import typing
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem

OLD = pytest.mark.skipif(sys.version_info >= (3, 14), reason="there it is the standard library's own")


def both(count: int, defaults: int) -> tuple[Any, Any]:
    """One class statement with each: ``count`` fields, the last ``defaults`` of them with a default."""
    names = [f"part_{number}" for number in range(count)]
    body = {
        "__doc__": "A thing.",
        "__module__": __name__,
        "__qualname__": "Thing",
        "__annotations__": dict.fromkeys(names, int),
        **{name: -number for number, name in enumerate(names) if number >= count - defaults},
        "total": lambda self: sum(self),
    }
    made = [
        # As a class statement does it: `types.new_class` asks each for its own metaclass.
        types.new_class("Thing", (base,), {}, lambda space: space.update(body))
        for base in (NamedTuple, typing.NamedTuple)
    ]
    return made[0], made[1]


def outcome(call: Any) -> Any:
    """What a call gives, or the words of its error."""
    try:
        return call()
    except (TypeError, ValueError) as error:
        return str(error)  # of which kind it is differs between versions of the standard library


@given(st.data())
def test_a_class_statement_gives_the_same_tuples(data: st.DataObject) -> None:
    count = data.draw(st.integers(0, 40))
    ours, theirs = both(count, data.draw(st.integers(0, count)))
    names = [*ours._fields, "unheard"]
    given_first = data.draw(st.lists(st.integers(), max_size=count + 1))
    by_name = data.draw(st.dictionaries(st.sampled_from(names), st.integers(), max_size=count + 1))
    made, wanted = outcome(lambda: ours(*given_first, **by_name)), outcome(lambda: theirs(*given_first, **by_name))
    assert repr(made) == repr(wanted)
    assert outcome(lambda: ours._make(given_first)) == outcome(lambda: theirs._make(given_first))
    if isinstance(made, ours):
        assert tuple(made) == tuple(wanted)
        assert made._asdict() == wanted._asdict()
        assert made.total() == wanted.total()
        assert [getattr(made, name) for name in ours._fields] == list(made)
        assert outcome(lambda: made._replace(**by_name)) == outcome(lambda: wanted._replace(**by_name))


@pytest.mark.parametrize(("count", "defaults"), [(0, 0), (1, 0), (3, 2), (14, 3), (15, 15), (33, 4)])
def test_a_class_says_of_itself_what_theirs_says(count: int, defaults: int) -> None:
    ours, theirs = both(count, defaults)
    assert ours._fields == theirs._fields == ours.__match_args__
    assert ours._field_defaults == theirs._field_defaults
    assert inspect.signature(ours) == inspect.signature(theirs)
    assert typing.get_type_hints(ours) == typing.get_type_hints(theirs)
    assert (ours.__doc__, ours.__name__, type(ours)) == (theirs.__doc__, theirs.__name__, type)
    assert not hasattr(ours(*range(count)), "__dict__")


def test_copies_and_pickles() -> None:
    problem = Problem("code", "A message.")
    assert pickle.loads(pickle.dumps(problem)) == copy.deepcopy(problem) == problem
    assert type(copy.copy(problem)) is Problem
    match problem:
        case Problem(code, message):
            assert (code, message) == ("code", "A message.")


def test_nothing_is_set_on_one() -> None:
    with pytest.raises(AttributeError):
        Problem("code", "A message.").code = "other"  # type: ignore[misc]


@OLD
@pytest.mark.parametrize(
    ("body", "words"),
    [
        ({"__annotations__": {"_hidden": int}}, "underscore"),
        ({"__annotations__": {"a": int, "b": int}, "a": 1}, "follows one with a default"),
        ({"__annotations__": dict.fromkeys(map("f{}".format, range(61)), int)}, "more than 60"),
    ],
)
def test_statements_that_are_none(body: dict[str, Any], words: str) -> None:
    with pytest.raises((TypeError, ValueError), match=words):
        type(NamedTuple)("Thing", (NamedTuple,), body)


@OLD
def test_no_other_base() -> None:
    with pytest.raises(TypeError, match="no other base"):

        class Thing(NamedTuple, Problem):  # type: ignore[misc]
            part: int
