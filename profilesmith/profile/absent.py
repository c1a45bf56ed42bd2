"""Absent: why a setting that the map binds has no value in a text."""

from typing import Literal, get_args

from profilesmith.foundation.named_tuple import NamedTuple

AbsentCode = Literal[
    "key missing",
    "key elsewhere",
    "key blank",
    "key is zero",
    "key has no value",
    "reference has no value",
    "only proposed",
]
ABSENT: tuple[AbsentCode, ...] = get_args(AbsentCode)


class Absent(NamedTuple):
    """names: the key first, then by code.

    ``key missing``: section, nearest key ("" for none); ``key elsewhere``: section, the sections that have it;
    ``key blank``: where it stands. The key that it is a share of ``key is zero`` or ``key has no value``; of
    ``reference has no value`` it is a setting. ``only proposed``: the place of the block in the map that nobody has
    accepted yet.
    """

    code: AbsentCode
    names: tuple[str, ...]

    @property
    def is_slip(self) -> bool:
        """Whether the map has a key that the text has not: a slip in the one or the other."""
        return self.code in ("key missing", "key elsewhere", "key blank")


def absent_words(absent: Absent) -> str:
    """A clause that says it."""
    key, *more = absent.names
    if absent.code == "only proposed":
        return f"proposed at {more[0]} ({key!r}), not accepted yet"
    if absent.code == "key blank":
        return f"the key {key!r} has no value in {more[0]}"
    if absent.code in ("key missing", "key elsewhere"):
        section, *others = more
        where = f" in section {section!r}" if section else ""
        if absent.code == "key elsewhere":
            return f"the key {key!r} is not{where}, but in {', '.join(map(repr, others))}"
        near = f" (did you mean {others[0]!r}?)" if others[0] else ""
        return f"the key {key!r} is not in the text{where}{near}"
    if absent.code == "reference has no value":
        return f"it is a share of {key}, which has no value here"
    return f"it is a share of {key!r}, which {'is 0' if absent.code == 'key is zero' else 'has no value'}"
