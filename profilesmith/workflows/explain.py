"""Explain: how one setting came to its value."""

from __future__ import annotations

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean
from profilesmith.ledger import Row
from profilesmith.profile.absent import absent_words
from profilesmith.profile.profile import Profile
from profilesmith.recipe.cause_words import cause_name, demand_words
from profilesmith.recipe.hard_limits import hard_limits
from profilesmith.review.cause_reasons import STATUS_MEANING, notes_words, question_words, source_words, why_words
from profilesmith.review.render.answer_option import answer_option
from profilesmith.review.wording import show_values, visible
from profilesmith.translation.ledger_to_edits import write_ledger
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Setting
from profilesmith.workflows.derive import apply
from profilesmith.workflows.request import Request


def explain(name: str, request: Request) -> str:
    """A few lines of plain text. Raises Refused for an unknown setting or wrong input."""
    vocabulary = load_vocabulary()
    setting = vocabulary.settings.get(name)
    if setting is None:
        hint = did_you_mean(name, vocabulary.settings, "See 'profilesmith vocabulary'.")
        raise Refused([Problem("unknown-setting", f"{name!r} is not a setting.", Place("SETTING"), hint)])
    translation, _, facts, ledger = apply(request)
    ledger = write_ledger(ledger, translation, vocabulary).ledger
    lines = [f"{name}: {setting.meaning}", f"  plausible: {setting.range_text()}"]
    entry, derived = ledger.base.entries.get(name), ledger.derived.entries.get(name)
    if entry is None:
        lines.append(f"  in the text: nothing, since {_why_nothing(ledger.base, name)}")
    else:
        origin = entry.origin
        lines.append(
            f"  in the text: {visible(origin.file)}:{origin.line} {visible(origin.key)} = "
            f"{visible(origin.text)}, which reads as {show_values(setting, entry.values)}"
        )
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
    return "\n".join(lines) + "\n"


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
