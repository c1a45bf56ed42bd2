"""How one setting came to its value: the text, every rule that speaks of it, every limit."""

from __future__ import annotations

from profilesmith.ledger import Row
from profilesmith.profile.profile import Entry, Profile, absent_words
from profilesmith.recipe.cause_words import cause_name, demand_words
from profilesmith.review.cause_reasons import STATUS_MEANING, notes_words, question_words, source_words, why_words
from profilesmith.review.render.answer_option import answer_option
from profilesmith.review.wording import show_values, visible
from profilesmith.vocabulary.setting import Setting
from profilesmith.workflows.explain import ExplainedSetting


def explained_text(explained: ExplainedSetting) -> str:
    """A few lines of plain text."""
    setting, ledger = explained.setting, explained.ledger
    name = setting.id
    lines = [f"{name}: {setting.meaning}", f"  plausible: {setting.range_text()}"]
    entry, derived = ledger.base.entries.get(name), ledger.derived.entries.get(name)
    lines += (
        _in_the_text(entry, setting) if entry else [f"  in the text: nothing, since {_why_nothing(ledger.base, name)}"]
    )
    rows = [row for row in ledger.rows if row.setting == name]
    for row in rows:
        lines += _row(row, setting)
    if not rows:
        lines.append("  no rule speaks of it: it stays as it is")
    lines += [f"  limit: {cause_name(item.cause)}, {demand_words(item.cause, setting)}" for item in explained.limits]
    lines.append(_result(setting, entry.values if entry else (), derived.values if derived else ()))
    lines += [f"  conflict: {visible(problem.message)}" for problem in ledger.problems if name in problem.message]
    lines += [f"  edited by hand since: {visible(text)}" for text in explained.edits]
    return "\n".join(lines) + "\n"


def _in_the_text(entry: Entry, setting: Setting) -> list[str]:
    """Where the text says it and how; a ledger alone does not keep the place."""
    beside = [f"  written relative to {entry.relative_to}"] if entry.relative_to else []
    origin, value = entry.origin, show_values(setting, entry.values)
    if not origin.file:
        return [f"  in the text that was derived from: {value}", *beside]
    spot = f"{visible(origin.file)}:{origin.line}"
    said = f"{visible(origin.key)} = {visible(origin.text)}"
    return [f"  in the text: {spot} {said}, which reads as {value}", *beside]


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
