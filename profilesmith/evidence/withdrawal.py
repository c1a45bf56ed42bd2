"""Withdrawal: a record that says of another that it counts no more, and why. Both stay where they are."""

import hashlib
import json
from typing import Any

from profilesmith.evidence.record import FORMAT
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place


class Withdrawal(NamedTuple):
    """withdraws: the id of the record. date: the day on which it was withdrawn. by: "" where nobody wants to be
    named.
    """

    date: str
    recipe: str
    withdraws: str
    why: str
    mark: str
    by: str = ""
    place: Place = Place()

    @property
    def id(self) -> str:
        """As a record's: 16 hexadecimal digits of the SHA-256 of all other members."""
        plain = json.dumps(_content(self), ensure_ascii=False, sort_keys=True, separators=(",", ":"))
        return hashlib.sha256(plain.encode("utf-8", "surrogatepass")).hexdigest()[:16]


def _content(item: Withdrawal) -> dict[str, Any]:
    members = {
        "format": FORMAT,
        "date": item.date,
        "recipe": item.recipe,
        "withdraws": item.withdraws,
        "why": item.why,
        "by": item.by,
        "mark": item.mark,
    }
    return {key: value for key, value in members.items() if value}


def withdrawal_json(item: Withdrawal) -> dict[str, Any]:
    """The whole record as JSON has it."""
    plain = _content(item)
    return {"format": plain.pop("format"), "id": item.id, **plain}


def withdrawal_line(item: Withdrawal) -> str:
    """Its line with its end."""
    return json.dumps(withdrawal_json(item), ensure_ascii=False) + "\n"
