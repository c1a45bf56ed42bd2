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
from profilesmith.ledger.history import GRADES
from profilesmith.vocabulary.setting import Unreadable, Vocabulary, read_value

MOST_VALUES = 6


def tally_json(tally: Tally, vocabulary: Vocabulary) -> dict[str, Any]:
    """A tally as data, with its records."""
    interval = tally.interval
    return {
        "recipe": tally.recipe,
        "version": tally.version,
        "tried": tally.tried,
        "worked": tally.worked,
        "partly": tally.partly,
        "failed": tally.failed,
        "interval": None
        if interval is None
        else {"low": interval.low, "high": interval.high, "confidence": interval.level},
        "troubles": troubles_json(tally.records, vocabulary),
        "records": [record_json(record) for record in tally.records],
        "other_versions": [record_json(record) for record in tally.others],
        "withdrawn": [{**record_json(record), "withdrawn": withdrawal_json(by)} for record, by in tally.withdrawn],
        "by": {kind: [group_json(group) for group in groups(tally.records, kind)] for kind in BY},
        "observed_with_other_recipes": {
            record.id: dict(tally.seen[record.id]) for record in tally.records if record.id in tally.seen
        },
    }


def tally_lines(tally: Tally, vocabulary: Vocabulary) -> list[str]:
    """A tally for the terminal: the sum, what was judged, troubles and what helped, one line a record."""
    lines = [f"{tally.recipe} {tally.version}", f"  {says(tally)}"]
    for word, counts in grades(tally):
        lines.append(
            f"  {word}: {', '.join(f'{count} {grade}' for count, grade in zip(counts, GRADES, strict=True) if count)}"
        )
    for kind in BY:
        parts = groups(tally.records, kind)
        lines += [f"  {kind}: {group_says(part)}" for part in parts if len(parts) > 1]
    lines += [f"  {line}" for line in trouble_lines(tally.records, vocabulary)]
    for record in tally.records:
        lines += record_lines(record, observed_words(record, tally.observed(record)))
    if others_say(tally):
        lines.append(f"  {others_say(tally)}")
    lines += [f"  {withdrawn_words(record, by)}" for record, by in tally.withdrawn]
    if tally.records:
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
    settings = f"settings: {', '.join(values[:MOST_VALUES])}{more}" if values else "settings: none was changed"
    lines = [
        f"{first.date}  {_outcome(first, observed_words(first, first.judged))}",
        *(f"  {text}" for text in (*_about(first), settings, *_by_hand(first), *_quoted(first))),
    ]
    return [
        *lines,
        *(
            f"{record.recipe} {record.version}: {_small(says(tally))}"
            for record, tally in zip(records, tallies, strict=True)
        ),
    ]


def _small(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:]


def _value(name: str, value: str | tuple[str, ...], vocabulary: Vocabulary) -> str:
    setting, texts = vocabulary.settings[name], value if isinstance(value, tuple) else (value,)
    read = [(text, read_value(setting, text)) for text in texts]
    return " / ".join(text if isinstance(quantity, Unreadable) else setting.show(quantity) for text, quantity in read)


def beside(record: Record) -> list[str]:
    """The other recipes of the print, and what was edited by hand."""
    others = ", ".join(f"{name} {version}" for name, version in record.together.items())
    return [*([f"together with {others}"] if others else []), *_by_hand(record)]


def _by_hand(record: Record) -> list[str]:
    by_hand = [f"by hand: {', '.join(record.by_hand)}"] if record.by_hand else []
    by_hand += [f"mended: {mend_text(mend)}" for mend in record.mends]
    words = {"passed": "its motion file kept every promise that was judged", "found": "its motion file broke a promise"}
    return [*by_hand, words[record.motion]] if record.motion else by_hand


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
