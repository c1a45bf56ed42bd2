"""Re-derive, for files: the derived files and their ledger, the new base and the recipes are read, and the engine
merges.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from profilesmith.engine.read import Ingredients
from profilesmith.engine.rederive import DerivedThen, How, Rederivation
from profilesmith.engine.rederive import rederive as merge
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger.place import ledger_beside
from profilesmith.ledger.read import Stored
from profilesmith.merge.decision import Choose
from profilesmith.review.reading_notes import broken_off
from profilesmith.workflows.derive import inputs_of
from profilesmith.workflows.derived_file import left_beside, load_ledger
from profilesmith.workflows.read import read_documents, sha256_of
from profilesmith.workflows.request import Request
from profilesmith.workflows.request_again import base_words, derived_paths, request_again
from profilesmith.workflows.shelf import given_for

HINTS = {
    "merge-conflict": (
        "Say which side counts with --prefer base or --prefer derived, or run it on a terminal to be asked."
    ),
    "not-carried": "Nothing was written. Take the new base with --prefer base, or derive anew and edit by hand.",
}


def rederive(derived: Sequence[str], asked: Request, choose: Choose, keep_facts: bool = True) -> Rederivation:
    """Merge. asked: bases is the new base; what it leaves empty is as the ledger has it. Its derivation can be written.

    keep_facts: as ``request_again`` has it. choose: is asked for each conflict; where it says "" the call is refused
    and names them all. Raises Refused.
    """
    stored = load_ledger(derived[0])
    paths = derived_paths(derived, stored)
    refuse_if(_broken_off(stored, paths))
    folder, beside = Path(derived[0]).parent, ledger_beside(Path(derived[0]))
    bases = asked.bases or tuple(map(str, base_words(stored, folder)))
    refuse_if(_numbers(paths, bases) if asked.bases else [*_numbers(paths, bases), *_strange(bases)])
    again = request_again(stored, folder, asked._replace(bases=bases), keep_facts)
    given = given_for(again.request)
    problems: list[Problem] = []
    edited = read_documents(map(str, paths), given.translation.key_map.habits, problems)
    sha256 = sha256_of(beside)
    gone = Problem("unreadable", f"The ledger {beside.name!r} went away.", hint="Run it again.")
    refuse_if([*problems, *([] if sha256 else [gone])])
    how = How(again.request.follow_literals, again.request.measured, again.not_as_then)
    made = _decided(DerivedThen(stored, sha256, edited), given, choose, how)
    inputs = (*inputs_of(again.request, *given[:3]), *map(str, paths), str(beside))
    return made._replace(derivation=made.derivation._replace(inputs=inputs, call=again.call.call()))


def _decided(before: DerivedThen, given: Ingredients, choose: Choose, how: How) -> Rederivation:
    """Merge; what nobody decided is refused with how to decide it here."""
    try:
        return merge(before, given, choose, how)
    except Refused as refused:
        raise Refused([item._replace(hint=HINTS.get(item.code, item.hint)) for item in refused.problems]) from refused


def _broken_off(stored: Stored, paths: Sequence[Path]) -> list[Problem]:
    """A run that did not end: text and ledger may be of two derivations, and what differs is no edit of a hand."""
    left = broken_off(left_beside(paths[0]), hint=".")
    same = [sha256_of(path) for path in paths] == [item.sha256 for item in stored.file.outputs]
    hint = "Derive it anew from its base, or put the text back as it was."
    return [Problem("broken-off", left, Place(str(paths[0])), hint)] if left and not same else []


def _numbers(paths: Sequence[Path], bases: Sequence[str]) -> list[Problem]:
    if len(paths) == len(bases):
        return []
    message = f"{len(paths)} derived files came from as many bases, but {len(bases)} are named."
    return [
        Problem(
            "bases",
            message,
            hint=f"Name one base with --onto for each of {', '.join(path.name for path in paths)}, in this order.",
        )
    ]


def _strange(bases: Sequence[str]) -> list[Problem]:
    """Bases that a ledger names and that are no plain files: a pipe would never end."""
    hint = "Name the base with --onto."
    return [
        Problem("unreadable", "The ledger names it as the base, but it is no plain file.", Place(base), hint)
        for base in bases
        if os.path.exists(base) and not os.path.isfile(Path(base))
    ]
