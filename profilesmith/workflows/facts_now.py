"""The facts files that a ledger names, as they are now, and which facts differ from what the ledger holds."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path, PurePath

from profilesmith.engine.derived_file import facts_then
from profilesmith.facts.fact_change import FactChange
from profilesmith.facts.facts import Fact, Facts, fact_kinds
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.ledger.read import Stored
from profilesmith.workflows.read import read_facts
from profilesmith.workflows.request import word_at


class FactsNow(NamedTuple):
    """facts: what counts now: the files' facts before the ledger's, answers before both. unread: (name, why not)
    of files that cannot be read.
    """

    facts: Facts
    changes: tuple[FactChange, ...]
    unread: tuple[tuple[str, str], ...] = ()


def facts_now(stored: Stored, folder: Path, library: Path | None) -> FactsNow:
    """Read the files again. Where one cannot be read, what no other says stays as the ledger has it."""
    held = facts_then(stored)
    call = stored.file.call
    if call is None or not call.facts:
        return FactsNow(held, ())
    read, files, unread = _read([word_at(folder, word) for word in call.facts], library)
    answered = {name for name in call.answers if name in fact_kinds()}
    kept = {name: fact for name, fact in held.items() if name in answered or unread}
    facts = {**kept, **{name: fact for name, fact in read.items() if name not in answered}}
    names = sorted(held.keys() | facts.keys())
    was, now = ({name: fact.value for name, fact in side.items()} for side in (held, facts))
    changes = tuple(
        FactChange(name, was.get(name), now.get(name), files.get(name, ""))
        for name in names
        if was.get(name) != now.get(name)
    )
    return FactsNow(facts, changes, unread)


def _read(words: Sequence[str], library: Path | None) -> tuple[Facts, dict[str, str], tuple[tuple[str, str], ...]]:
    """The facts of all files, the later ones before the earlier; which file says each; what cannot be read."""
    facts: dict[str, Fact] = {}
    files: dict[str, str] = {}
    unread: list[tuple[str, str]] = []
    for word in words:
        problems: list[Problem] = []
        try:
            of_word = read_facts([word], library, problems)
        except Refused as refused:
            problems += refused.problems
        if problems:
            unread.append((file_word(word), problems[0].message))
            continue
        facts |= of_word
        files |= dict.fromkeys(of_word, file_word(word))
    return facts, files, tuple(unread)


def file_word(word: str) -> str:
    """``desk`` for ``facts/desk.toml``: how people speak of it."""
    return PurePath(word).stem
