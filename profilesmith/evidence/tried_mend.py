"""TriedMend: what was changed between two prints, for which troubles, and what came of it. A record holds those
on its road.
"""

from collections.abc import Mapping
from typing import Any

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.history import Grade, Verdict

MOST_MENDS = 12
"""Of a record: the newest of a longer road."""


class TriedMend(NamedTuple):
    """date: of the print that called for it, or "". saw: what that print showed, trouble -> grade. troubles: what it
    was for.

    changes: setting -> its value before and after, as texts in canonical units. did: what was done to spool or machine.
    came: what the next print was called beside the one before; "" where nobody said and nothing was looked at both
    times.
    """

    date: str = ""
    saw: Mapping[str, Grade] = {}
    troubles: tuple[str, ...] = ()
    changes: Mapping[str, tuple[str, str]] = {}
    did: tuple[str, ...] = ()
    came: Verdict = ""


def mend_json(mend: TriedMend) -> dict[str, Any]:
    """As JSON has it; what is empty is left out."""
    members = {
        "date": mend.date,
        "saw": dict(mend.saw),
        "troubles": list(mend.troubles),
        "changes": {name: list(values) for name, values in mend.changes.items()},
        "did": list(mend.did),
        "came": mend.came,
    }
    return {key: value for key, value in members.items() if value}
