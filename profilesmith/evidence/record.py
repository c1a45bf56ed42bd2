"""Record: one print that somebody judged, as one line of JSON. Its id is a hash of all the rest.

No name of a person, machine or file stands in a record, unless somebody gives ``by``. ``mark`` is drawn at random: two
equal prints of one day are two records, while a line that a merge doubled has the same id and counts once.
"""

import json
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, Literal, get_args

from profilesmith.evidence.tried_mend import TriedMend, mend_json
from profilesmith.foundation.digest import content_id
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.ledger.history import Grade

FORMAT = 1
Outcome = Literal["worked", "partly", "failed"]
MotionVerdict = Literal["", "passed", "found"]
OUTCOMES: tuple[Outcome, ...] = get_args(Outcome)
MOTION: tuple[MotionVerdict, ...] = get_args(MotionVerdict)[1:]
JUDGED: Mapping[str, str] = MappingProxyType(
    {
        "adhesion": "how the part held on the bed",
        "stringing": "how free of strings it came out",
        "supports": "how the supports held and came off",
        "softness": "how well it bends as it should",
        "sanding": "how well it could be sanded",
    }
)
Values = Mapping[str, str | tuple[str, ...]]


class Record(NamedTuple):
    """date: the day, ``2030-01-31``. facts, values: quantities as texts in canonical units; several values: one a tool.

    judged: what of JUDGED was looked at, and how it was. place: where the record stands.
    together: name -> version of the other recipes of the same print, each of which has a record of its own. The records
    of one print share their mark, and what was observed of it stands in the first of them alone.
    by_hand: the settings that were edited after the recipes had made them; ``values`` holds what was printed.
    motion: what the check of the printed motion file said, where it was noted in the ledger; "" where none was.
    seen: what this print showed, trouble -> grade. mends: what was tried on the way to it, the oldest first.
    """

    date: str
    recipe: str
    version: str
    outcome: Outcome
    judged: Mapping[str, Grade]
    facts: Mapping[str, str]
    values: Values
    mark: str
    note: str = ""
    by: str = ""
    place: Place = Place()
    together: Mapping[str, str] = {}
    by_hand: tuple[str, ...] = ()
    motion: MotionVerdict = ""
    seen: Mapping[str, Grade] = {}
    mends: tuple[TriedMend, ...] = ()

    @property
    def id(self) -> str:
        """Of all other members."""
        return content_id(content(self))


def content(record: Record) -> dict[str, Any]:
    """A record's members as JSON has them, without its id. What may be left out and is empty is left out."""
    free: dict[str, Any] = {"together": dict(record.together), "by_hand": list(record.by_hand)}
    free |= {"seen": dict(record.seen), "mends": [mend_json(mend) for mend in record.mends]}
    free |= {"motion": record.motion, "note": record.note, "by": record.by}
    return {
        "format": FORMAT,
        "date": record.date,
        "recipe": record.recipe,
        "version": record.version,
        "outcome": record.outcome,
        "judged": dict(record.judged),
        "facts": dict(record.facts),
        "values": {name: list(value) if isinstance(value, tuple) else value for name, value in record.values.items()},
        **{key: value for key, value in free.items() if value},
        "mark": record.mark,
    }


def record_json(record: Record) -> dict[str, Any]:
    """The whole record as JSON has it."""
    plain = content(record)
    return {"format": plain.pop("format"), "id": record.id, **plain}


def record_line(record: Record) -> str:
    """The record's line with its end."""
    return json.dumps(record_json(record), ensure_ascii=False) + "\n"
