"""The facts files that a ledger names, as they are now, and which facts differ from what the ledger holds."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path, PurePath

from profilesmith.engine.derived_file import facts_then
from profilesmith.facts.facts import Fact, Facts, FactValue, fact_kinds
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.foundation.words import listed
from profilesmith.ledger.read import Stored
from profilesmith.workflows.call import word_at
from profilesmith.workflows.read import read_facts


class FactChange(NamedTuple):
    """was, now: None where the fact is not said. file: the word of the facts file that says it; "" for one that
    went.
    """

    name: str
    was: FactValue | None
    now: FactValue | None
    file: str


class FactsNow(NamedTuple):
    """facts: what counts now: the files' facts before the ledger's, answers before both. unread: files that
    cannot be read, in words.
    """

    facts: Facts
    changes: tuple[FactChange, ...]
    unread: tuple[str, ...] = ()


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


def _read(words: Sequence[str], library: Path | None) -> tuple[Facts, dict[str, str], tuple[str, ...]]:
    """The facts of all files, the later ones before the earlier; which file says each; what cannot be read."""
    facts: dict[str, Fact] = {}
    files: dict[str, str] = {}
    unread: list[str] = []
    for word in words:
        problems: list[Problem] = []
        try:
            of_word = read_facts([word], library, problems)
        except Refused as refused:
            problems += refused.problems
        if problems:
            unread.append(f"the facts {file_word(word)} cannot be read ({problems[0].message.rstrip('.')})")
            continue
        facts |= of_word
        files |= dict.fromkeys(of_word, file_word(word))
    return facts, files, tuple(unread)


def file_word(word: str) -> str:
    """``desk`` for ``facts/desk.toml``: how people speak of it."""
    return PurePath(word).stem


def change_sentences(changes: Sequence[FactChange]) -> list[str]:
    """One a file: ``facts desk changed (maximum nozzle temperature: 270 °C → 220 °C)``."""
    files = dict.fromkeys(item.file for item in changes)
    return [
        f"facts {file} changed ({listed(_words(item) for item in changes if item.file == file)})"
        if file
        else f"{listed(_name(item.name) for item in changes if item.file == file)}: said by no facts file any more"
        for file in files
    ]


def _words(item: FactChange) -> str:
    return f"{_name(item.name)}: {_shown(item.name, item.was)} → {_shown(item.name, item.now)}"


def _name(fact: str) -> str:
    return fact.partition(".")[2].replace("_", " ")


def _shown(name: str, value: FactValue | None) -> str:
    return "not said" if value is None else fact_kinds()[name].show(value)
