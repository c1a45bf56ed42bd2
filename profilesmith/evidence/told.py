"""A tally with its records as lines for a terminal, and as data. Whoever prints the lines makes strangers' text visible."""

from __future__ import annotations

from typing import Any

from profilesmith.evidence.record import GRADES, Record, record_json
from profilesmith.evidence.tally import CAUTION, Tally, facts_text, grades, others_say, says


def tally_json(found: Tally) -> dict[str, Any]:
    """A tally as data, with its records."""
    interval = found.interval
    return {
        "recipe": found.recipe, "version": found.version, "tried": found.tried, "worked": found.worked, "partly": found.partly,
        "failed": found.failed, "interval": None if interval is None else {"low": interval.low, "high": interval.high, "confidence": interval.level},
        "records": [record_json(record) for record in found.records], "other_versions": [record_json(record) for record in found.others],
    }  # fmt: skip


def tally_lines(found: Tally) -> list[str]:
    """A tally for the terminal: the sum, what was judged, one line a record."""
    lines = [f"{found.recipe} {found.version}", f"  {says(found)}"]
    for word, counts in grades(found):
        lines.append(f"  {word}: {', '.join(f'{count} {grade}' for count, grade in zip(counts, GRADES, strict=True) if count)}")
    for record in found.records:
        lines += record_lines(record)
    if others_say(found):
        lines.append(f"  {others_say(found)}")
    if found.records:
        lines.append(f"  {CAUTION}")
    return lines


def record_lines(record: Record) -> list[str]:
    """One record: what came out, on what, and the words that somebody added."""
    judged = ", ".join(f"{word} {grade}" for word, grade in record.judged.items())
    about = "; ".join(f"{subject}: {text}" for subject in ("machine", "spool") if (text := facts_text(record, subject)))
    lines = [f"  {record.date}  {record.version}  {record.outcome}{f': {judged}' if judged else ''}"]
    lines += [f"      {about}"] if about else []
    words = f"{record.note}{f' ({record.by})' if record.by and record.note else record.by}"
    return [*lines, f"      \"{words}\""] if words else lines
