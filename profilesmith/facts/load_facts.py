"""Facts files to Facts. Several add up; two that disagree are a conflict that names both."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress

from profilesmith.facts.facts import (
    Fact,
    FactKind,
    Facts,
    FactValue,
    fact_kinds,
    how_to,
    out_of_range,
    read_fact,
    said,
    why_not,
)
from profilesmith.foundation.problem import CONFLICT, Problem, did_you_mean
from profilesmith.foundation.toml_table import TomlTable, TooManyMistakes, parse_toml

SUBJECTS = ("machine", "spool", "part")
FREE_KEYS = ("name", "note", "notes")


def load_facts(files: Iterable[tuple[bytes, str]]) -> tuple[Facts, list[Problem]]:
    """All facts of some files, each given as its bytes and the name by which the user knows it."""
    facts: dict[str, Fact] = {}
    problems: list[Problem] = []
    for raw, name in files:
        top, of_file = parse_toml(raw, name, "facts file")
        if top is not None:
            with suppress(TooManyMistakes):
                for fact, value in _read(top).items():
                    _add(facts, fact, value, problems)
            of_file = top.file.problems
        problems += of_file
    return facts, problems


def _add(facts: dict[str, Fact], name: str, fact: Fact, problems: list[Problem]) -> None:
    before = facts.setdefault(name, fact)
    if before.value != fact.value:
        kind = fact_kinds()[name]
        message = f"{name} is {kind.show(before.value)} in {before.place} and {kind.show(fact.value)} here."
        problems.append(Problem("facts-disagree", message, fact.place, "Remove the one that is wrong.", CONFLICT))


def _read(top: TomlTable) -> dict[str, Fact]:
    facts: dict[str, Fact] = {}
    kinds = fact_kinds()
    for subject in SUBJECTS:
        table = top.table(subject)
        for key, written in table.entries():
            name = f"{subject}.{key}"
            if key in FREE_KEYS:
                table.texts(key)  # for people alone, but a text
                continue
            kind = kinds.get(name)
            if kind is None:
                known = [fact.partition(".")[2] for fact in kinds if fact.startswith(f"{subject}.")]
                hint = did_you_mean(key, known, f"[{subject}] may hold: {', '.join(known)}.")
                table.complain("unknown-fact", f"The fact {name!r} is not known.", key, hint)
                continue
            value = _value(table, key, kind, written)
            if value is not None:
                facts[name] = Fact(value, table.file.place((*table.path, key)), said(written))
    top.done()
    return facts


def _value(table: TomlTable, key: str, kind: FactKind, written: object) -> FactValue | None:
    value = read_fact(kind, written)
    if value is None:
        table.complain("fact-value", f"{kind.name}: {why_not(kind, written)}.", key, how_to(kind, written))
        return None
    odd = out_of_range(kind, value)
    if odd:
        table.complain("fact-range", f"{kind.name}: {odd}.", key, "Is the unit right?")
        return None
    return value
