"""The log of a coupon: one line of JSON for each print that was asked for, and one for each grade. Ids are hashes of
the rest.

As with evidence: a line that was changed afterwards no longer fits its id and is refused; a line that a merge doubled
has the same id and counts once.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Any, Literal

from profilesmith.foundation.digest import content_id
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place

FORMAT = 1
Values = Mapping[str, str]


class LogLine(NamedTuple):
    """kind: asked (a print to be made) or graded. print: counted from 1; of a blind pair both sides have one number.

    values: setting -> text; other: of the right side of a blind pair. grade: a word of ``plan.WORDS``.
    Of a graded line, values are what was printed where that was not what was asked for.
    """

    kind: Literal["asked", "graded"]
    plan: str
    print: int
    date: str
    mark: str
    values: Values = MappingProxyType({})
    other: Values = MappingProxyType({})
    grade: str = ""
    note: str = ""
    place: Place = Place()

    @property
    def id(self) -> str:
        """Of all other members."""
        return content_id(content(self))


def content(line: LogLine) -> dict[str, Any]:
    """A line's members without its id; what is empty is left out."""
    free = {"values": dict(line.values), "other": dict(line.other), "grade": line.grade, "note": line.note}
    return {
        "format": FORMAT,
        "kind": line.kind,
        "plan": line.plan,
        "print": line.print,
        "date": line.date,
        **{key: value for key, value in free.items() if value},
        "mark": line.mark,
    }


def line_json(line: LogLine) -> dict[str, Any]:
    """The whole line as JSON has it."""
    plain = content(line)
    return {"format": plain.pop("format"), "id": line.id, **plain}


def line_text(line: LogLine) -> str:
    """The line with its end."""
    return json.dumps(line_json(line), ensure_ascii=False) + "\n"


class CouponPrint(NamedTuple):
    """A print, or a blind pair: what was asked for and how it was graded; grade is "" while it is open."""

    number: int
    values: Values
    other: Values = MappingProxyType({})
    grade: str = ""


def prints(lines: Iterable[LogLine]) -> list[CouponPrint]:
    """The prints by number; a later grade of the same print goes before an earlier one."""
    by_number: dict[int, CouponPrint] = {}
    for line in lines:
        before = by_number.get(line.print)
        if line.kind == "asked":
            by_number[line.print] = CouponPrint(line.print, line.values, line.other, before.grade if before else "")
        elif before is not None:
            by_number[line.print] = before._replace(grade=line.grade, values=line.values or before.values)
    return [by_number[number] for number in sorted(by_number)]
