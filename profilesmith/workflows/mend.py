"""Mend, for files: what to change after a print."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from profilesmith.engine import mend as engine
from profilesmith.engine.mend import Mended, Said
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.ledger.mends import Grade, Verdict
from profilesmith.ledger.read import Stored
from profilesmith.mend.troubles import Knowledge
from profilesmith.workflows.derived_file import load_ledger
from profilesmith.workflows.derived_now import read_now
from profilesmith.workflows.given import given_for
from profilesmith.workflows.rederive.request import base_words, request_again
from profilesmith.workflows.request import Request


class Asked(NamedTuple):
    """What the maker says, as ``engine.mend.Said``, and the library to look in."""

    seen: Mapping[str, Grade] = {}
    looks: Mapping[str, bool] = {}
    did: tuple[str, ...] = ()
    last: Verdict = ""
    rest_good: bool = False
    changes: int = 1
    date: str = ""
    library: Path | None = None

    @property
    def said(self) -> Said:
        return Said(*self[:-1])


def mend(derived: str, asked: Asked, known: Knowledge) -> Mended:
    """What to change next. Raises Refused."""
    stored = load_ledger(derived)
    refuse_if(stored.ledger.problems)
    folder = Path(derived).parent
    now = read_now(derived, stored, Request((), "", library=asked.library)).profile
    request = request_again(stored, folder, Request(bases_of(stored, folder), "", library=asked.library)).request
    return engine.mend(derived, stored, now, given_for(request._replace(laid=())), asked.said, known)


def bases_of(stored: Stored, folder: Path) -> tuple[str, ...]:
    """Where the bases lie. Raises Refused when one went away: recipes and bounds are worked out from it."""
    found = tuple(map(str, base_words(stored, folder)))
    hint = (
        "Put it back, or carry the derived file onto another with 'profilesmith rederive DERIVED "
        "--onto NEWBASE -o NEW'."
    )
    refuse_if(
        Problem("no-base", "The base that the file was derived from is not there.", Place(base), hint)
        for base in found
        if not Path(base).is_file()
    )
    return found
