"""What the ledgers of derived files know of machine, spool and part, so that a person need not say it again.

Answers to questions on facts are among them: a ledger holds both alike.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from profilesmith.facts.facts import Facts, fact_kinds
from profilesmith.foundation.problem import Refused
from profilesmith.foundation.words import listed, plural
from profilesmith.ledger.place import ledger_beside
from profilesmith.review.wording import visible
from profilesmith.workflows.derived_file import load_ledger


def known_facts(texts: Sequence[str], named: Facts) -> tuple[Facts, list[str]]:
    """The facts to judge by, and sentences on where they come from. named: what a person named goes before.

    Where two files disagree, the last one's count, and both are told.
    """
    sides = {text: facts for text in texts if (facts := _facts_of(text))}
    known: Facts = {name: fact for side in sides.values() for name, fact in side.items()}
    sentences = [f"{plural(len(side), 'fact')} from the ledger beside {text}." for text, side in sides.items()]
    sentences += [
        (
            f"{name} is {listed(_said(name, side) for side in sides.values())} in these files: what "
            "follows is judged with the last."
        )
        for name in known
        if name not in named and len({side[name].value for side in sides.values() if name in side}) > 1
    ]
    return {**known, **named}, list(map(visible, sentences))


def _facts_of(text: str) -> Facts:
    if not os.path.isfile(ledger_beside(Path(text))):
        return {}
    try:
        held = load_ledger(text).ledger.facts
    except Refused:
        return {}  # whoever needs more of that ledger refuses it
    return {name: fact for name, fact in held.items() if name in fact_kinds()}


def _said(name: str, side: Facts) -> str:
    return fact_kinds()[name].show(side[name].value) if name in side else "not said"
