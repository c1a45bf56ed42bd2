"""What the ledgers of derived files know of machine, spool and part, so that a person need not say it again.

Answers to questions on facts are among them: a ledger holds both alike.
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from pathlib import Path

from profilesmith.facts.facts import Facts, fact_kinds
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Refused
from profilesmith.ledger.place import ledger_beside
from profilesmith.workflows.derived_file import load_ledger


class KnownFacts(NamedTuple):
    """facts: to judge by. sides: what each text's ledger knows; disputed: what they disagree on and nobody named."""

    facts: Facts
    sides: Mapping[str, Facts]
    disputed: tuple[str, ...]


def known_facts(texts: Sequence[str], named: Facts) -> KnownFacts:
    """The facts to judge by. named: what a person named goes before. Where two files disagree, the last one's count."""
    sides = {text: facts for text in texts if (facts := _facts_of(text))}
    known: Facts = {name: fact for side in sides.values() for name, fact in side.items()}
    disputed = [
        name
        for name in known
        if name not in named and len({side[name].value for side in sides.values() if name in side}) > 1
    ]
    return KnownFacts({**known, **named}, sides, tuple(disputed))


def _facts_of(text: str) -> Facts:
    if not os.path.isfile(ledger_beside(Path(text))):
        return {}
    try:
        held = load_ledger(text).ledger.facts
    except Refused:
        return {}  # whoever needs more of that ledger refuses it
    return {name: fact for name, fact in held.items() if name in fact_kinds()}
