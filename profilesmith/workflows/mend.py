"""Mend, for files: what to change after a print."""

from __future__ import annotations

from pathlib import Path

from profilesmith.engine import mend as engine
from profilesmith.engine.mend import Mended, Said
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.ledger.read import Stored
from profilesmith.mend.troubles import Knowledge
from profilesmith.workflows.derived_file import load_ledger
from profilesmith.workflows.derived_now import read_now
from profilesmith.workflows.request import Request
from profilesmith.workflows.request_again import base_words, request_again
from profilesmith.workflows.shelf import given_for


def mend(derived: str, said: Said, known: Knowledge, library: Path | None = None) -> Mended:
    """What to change next. library: to look in. Raises Refused."""
    stored = load_ledger(derived)
    refuse_if(stored.ledger.problems)
    folder = Path(derived).parent
    now = read_now(derived, stored, Request((), "", library=library)).profile
    request = request_again(stored, folder, Request(bases_of(stored, folder), "", library=library)).request
    return engine.mend(derived, stored, now, given_for(request._replace(laid=())), said, known)


def bases_of(stored: Stored, folder: Path) -> tuple[str, ...]:
    """Where the bases lie. Raises Refused when one went away: recipes and bounds are worked out from it."""
    words = tuple(map(str, base_words(stored, folder)))
    hint = (
        "Put it back, or carry the derived file onto another with 'profilesmith rederive DERIVED "
        "--onto NEWBASE -o NEW'."
    )
    refuse_if(
        Problem("no-base", "The base that the file was derived from is not there.", Place(base), hint)
        for base in words
        if not Path(base).is_file()
    )
    return words
