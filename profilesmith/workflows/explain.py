"""Explain: how one setting came to its value."""

from __future__ import annotations

import os
from pathlib import Path

from profilesmith.facts.facts import Facts
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean
from profilesmith.ledger import Ledger, Row
from profilesmith.ledger.place import ledger_beside
from profilesmith.profile.absent import absent_words
from profilesmith.profile.profile import Entry, Profile
from profilesmith.recipe.cause_words import cause_name, demand_words
from profilesmith.recipe.hard_limits import hard_limits
from profilesmith.review.cause_reasons import STATUS_MEANING, notes_words, question_words, source_words, why_words
from profilesmith.review.render.answer_option import answer_option
from profilesmith.review.wording import show_values, visible
from profilesmith.translation.ledger_to_edits import write_ledger
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Setting
from profilesmith.workflows.derive import apply
from profilesmith.workflows.derived_file import load_ledger
from profilesmith.workflows.edits_beside import edits_beside
from profilesmith.workflows.known_map import known_map
from profilesmith.workflows.request import Request


def explain(name: str, request: Request) -> str:
    """A few lines of plain text. Raises Refused for an unknown setting or wrong input."""
    vocabulary = load_vocabulary()
    setting = vocabulary.settings.get(name)
    if setting is None:
        hint = did_you_mean(name, vocabulary.settings, "See 'profilesmith vocabulary'.")
        raise Refused([Problem("unknown-setting", f"{name!r} is not a setting.", Place("SETTING"), hint)])
    ledger, facts = _ledger_of(request)
    lines = [f"{name}: {setting.meaning}", f"  plausible: {setting.range_text()}"]
    entry, derived = ledger.base.entries.get(name), ledger.derived.entries.get(name)
    if entry is None:
        lines.append(f"  in the text: nothing, since {_why_nothing(ledger.base, name)}")
    else:
        lines.append(_in_the_text(entry, setting))
        if entry.relative_to:
            lines.append(f"  written relative to {entry.relative_to}")
    rows = [row for row in ledger.rows if row.setting == name]
    for row in rows:
        lines += _row(row, setting)
    if not rows:
        lines.append("  no rule speaks of it: it stays as it is")
    lines += [
        f"  limit: {cause_name(limit.cause)}, {demand_words(limit.cause, setting)}"
        for limit in hard_limits(setting, facts)
    ]
    lines.append(_result(setting, entry.values if entry else (), derived.values if derived else ()))
    lines += [f"  conflict: {visible(problem.message)}" for problem in ledger.problems if name in problem.message]
    if not request.key_map:
        edits = (text for text in edits_beside(request.bases[:1]) if text.startswith(f"{name} "))
        lines += [f"  edited by hand since: {visible(text)}" for text in edits]
    return "\n".join(lines) + "\n"


def _ledger_of(request: Request) -> tuple[Ledger, Facts]:
    """The ledger that a derivation would write; of a derived text alone the one that lies beside it."""
    if request.key_map:
        return _derived_now(request)
    text = request.bases[0]
    asked = request.recipes or request.facts or request.answers or request.shares
    if not asked and os.path.isfile(ledger_beside(Path(text))):
        ledger = load_ledger(text).ledger
        return ledger, ledger.facts
    return _derived_now(request._replace(key_map=known_map(request.bases[:1])[0]))


def _derived_now(request: Request) -> tuple[Ledger, Facts]:
    translation, _, facts, ledger = apply(request)
    return write_ledger(ledger, translation, load_vocabulary()).ledger, facts


def _in_the_text(entry: Entry, setting: Setting) -> str:
    """Where the text says it and how; a ledger alone does not keep the place."""
    origin, value = entry.origin, show_values(setting, entry.values)
    if not origin.file:
        return f"  in the text that was derived from: {value}"
    spot = f"{visible(origin.file)}:{origin.line}"
    return f"  in the text: {spot} {visible(origin.key)} = {visible(origin.text)}, which reads as {value}"


def _why_nothing(base: Profile, name: str) -> str:
    absent = base.absent.get(name)
    return visible(absent_words(absent)) if absent else "the map has no key for it"


def _row(row: Row, setting: Setting) -> list[str]:
    cause, why, source = row.cause, why_words(row.cause, setting), source_words(row.cause)
    lines = [
        f"  {visible(cause_name(cause))}: {visible(demand_words(cause, setting))}",
        f"    {row.status}: {STATUS_MEANING[row.status]}",
    ]
    if row.notes:
        lines.append(f"    {visible(notes_words(row, setting))}")
    if row.question:
        words = filter(None, (question_words(row.question), answer_option(row.question)))
        lines.append(f"    question: {visible(' '.join(words))}")
    if why:
        lines.append(f"    why: {visible(why)}{f' (source: {visible(source)})' if source else ''}")
    return lines


def _result(setting: Setting, base: tuple[object, ...], derived: tuple[object, ...]) -> str:
    before, after = show_values(setting, base), show_values(setting, derived)  # type: ignore[arg-type]
    return f"  result: {after}, as it was" if before == after else f"  result: {before} → {after}"
