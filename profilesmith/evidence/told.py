"""A tally with its records as lines for a terminal, and as data. Whoever prints the lines makes strangers' text
visible.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from profilesmith.evidence.groups import BY, group_json, group_says, groups
from profilesmith.evidence.record import Record, record_json
from profilesmith.evidence.tally import CAUTION, Tally, facts_text, grades, observed_words, others_say, says
from profilesmith.evidence.trouble_words import mend_text, trouble_lines, troubles_json
from profilesmith.evidence.withdrawal import Withdrawal, withdrawal_json
from profilesmith.ledger.mends import GRADES
from profilesmith.vocabulary.setting import Unreadable, Vocabulary, read_value

MOST_VALUES = 6


def tally_json(found: Tally, vocabulary: Vocabulary) -> dict[str, Any]:
    """A tally as data, with its records."""
    interval = found.interval
    return {
        "recipe": found.recipe,
        "version": found.version,
        "tried": found.tried,
        "worked": found.worked,
        "partly": found.partly,
        "failed": found.failed,
        "interval": None
        if interval is None
        else {"low": interval.low, "high": interval.high, "confidence": interval.level},
        "troubles": troubles_json(found.records, vocabulary),
        "records": [record_json(record) for record in found.records],
        "other_versions": [record_json(record) for record in found.others],
        "withdrawn": [{**record_json(record), "withdrawn": withdrawal_json(by)} for record, by in found.withdrawn],
        "by": {kind: [group_json(group) for group in groups(found.records, kind)] for kind in BY},
        "observed_with_other_recipes": {
            record.id: dict(found.seen[record.id]) for record in found.records if record.id in found.seen
        },
    }


def tally_lines(found: Tally, vocabulary: Vocabulary) -> list[str]:
    """A tally for the terminal: the sum, what was judged, troubles and what helped, one line a record."""
    lines = [f"{found.recipe} {found.version}", f"  {says(found)}"]
    for word, counts in grades(found):
        lines.append(
            f"  {word}: {', '.join(f'{count} {grade}' for count, grade in zip(counts, GRADES, strict=True) if count)}"
        )
    for kind in BY:
        parts = groups(found.records, kind)
        lines += [f"  {kind}: {group_says(part)}" for part in parts if len(parts) > 1]
    lines += [f"  {line}" for line in trouble_lines(found.records, vocabulary)]
    for record in found.records:
        lines += record_lines(record, observed_words(record, found.observed(record)))
    if others_say(found):
        lines.append(f"  {others_say(found)}")
    lines += [f"  {withdrawn_words(record, by)}" for record, by in found.withdrawn]
    if found.records:
        lines.append(f"  {CAUTION}")
    return lines


def withdrawn_words(record: Record, by: Withdrawal) -> str:
    """``2030-01-31  1.2.0  withdrawn 2030-02-02, not counted: the spool was another one``."""
    name = f" ({by.by})" if by.by else ""
    return f"{record.date}  {record.version}  {record.outcome}, withdrawn {by.date}, not counted: {by.why}{name}"


def added_lines(records: Sequence[Record], tallies: Sequence[Tally], vocabulary: Vocabulary) -> list[str]:
    """What was just recorded: one print with the values that it was made with, and for each of its recipes the sum so
    far.
    """
    first = records[0]
    values = [f"{name} {_value(name, value, vocabulary)}" for name, value in first.values.items()]
    more = f" and {len(values) - MOST_VALUES} more" if len(values) > MOST_VALUES else ""
    told = f"settings: {', '.join(values[:MOST_VALUES])}{more}" if values else "settings: none was changed"
    lines = [
        f"{first.date}  {_outcome(first, observed_words(first, first.judged))}",
        *(f"  {text}" for text in (*_about(first), told, *_by_hand(first), *_quoted(first))),
    ]
    return [
        *lines,
        *(
            f"{record.recipe} {record.version}: {_small(says(found))}"
            for record, found in zip(records, tallies, strict=True)
        ),
    ]


def _small(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:]


def _value(name: str, value: str | tuple[str, ...], vocabulary: Vocabulary) -> str:
    setting, texts = vocabulary.settings[name], value if isinstance(value, tuple) else (value,)
    read = [(text, read_value(setting, text)) for text in texts]
    return " / ".join(text if isinstance(found, Unreadable) else setting.show(found) for text, found in read)


def beside(record: Record) -> list[str]:
    """The other recipes of the print, and what was edited by hand."""
    others = ", ".join(f"{name} {version}" for name, version in record.together.items())
    return [*([f"together with {others}"] if others else []), *_by_hand(record)]


def _by_hand(record: Record) -> list[str]:
    told = [f"by hand: {', '.join(record.by_hand)}"] if record.by_hand else []
    told += [f"mended: {mend_text(mend)}" for mend in record.mends]
    words = {"passed": "its motion file kept every promise that was judged", "found": "its motion file broke a promise"}
    return [*told, words[record.motion]] if record.motion else told


def _outcome(record: Record, judged: str) -> str:
    between = ", " if record.together else ": "
    return f"{record.outcome}{between}{judged}" if judged else record.outcome


def _about(record: Record) -> list[str]:
    about = "; ".join(f"{subject}: {text}" for subject in ("machine", "spool") if (text := facts_text(record, subject)))
    return [about] if about else []


def _quoted(record: Record) -> list[str]:
    words = f"{record.note}{f' ({record.by})' if record.by and record.note else record.by}"
    return [f'"{words}"'] if words else []


def record_lines(record: Record, judged: str) -> list[str]:
    """One record: what came out, on what, and the words that somebody added. judged: what was observed, in words."""
    more = (*_about(record), *beside(record), *_quoted(record))
    head = f"  {record.date}  {record.version}  {_outcome(record, judged)}  [{record.id}]"
    return [head, *(f"      {text}" for text in more)]
