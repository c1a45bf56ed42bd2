"""A log's bytes to its lines, each counted once, or every mistake with its line. The text is a stranger's: all is
bounded.
"""

from __future__ import annotations

import datetime
import json
import re
from typing import Any

from profilesmith.coupon.log import FORMAT, LogLine
from profilesmith.coupon.plan import MOST_PRINTS, WORDS, Plan
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem
from profilesmith.vocabulary.setting import Unreadable, Vocabulary, read_value

DAY, MARK = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII), re.compile(r"[0-9a-f]{8}")
LARGEST_FILE, LONGEST_LINE, MOST_LINES, LONGEST_NOTE = 1_000_000, 8_000, 1_000, 400
NEEDED = {"format": int, "id": str, "kind": str, "plan": str, "print": int, "date": str, "mark": str}
FREE = {"values": dict, "other": dict, "grade": str, "note": str}
HINT = "Take the line out, or let 'profilesmith coupon judge' write it."


class Loaded(NamedTuple):
    """lines: in the order of the file, each id once."""

    lines: tuple[LogLine, ...]
    problems: tuple[Problem, ...]


def parse_log(raw: bytes, name: str, plan: Plan | None, vocabulary: Vocabulary) -> Loaded:
    """Read a log strictly. plan: whose log it is; None to take any plan's."""
    if len(raw) > LARGEST_FILE:
        message = f"The log is larger than {LARGEST_FILE:,} bytes."
        return Loaded((), (Problem("too-large", message, Place(name), "A coupon has some dozens of lines."),))
    try:
        texts = raw.decode("utf-8-sig").replace("\r\n", "\n").split("\n")
    except UnicodeDecodeError:
        return Loaded((), (Problem("not-utf8", "The log is not UTF-8 text.", Place(name), "Save it as UTF-8."),))
    by_id: dict[str, LogLine] = {}
    problems: list[Problem] = []
    for number, text in enumerate(texts[:MOST_LINES], 1):
        if text.strip():
            line = _line(text, Place(name, number), plan, vocabulary)
            if isinstance(line, Problem):
                problems.append(line)
            else:
                by_id.setdefault(line.id, line)
    if len(texts) > MOST_LINES + 1:
        problems.append(Problem("too-many", f"There are more than {MOST_LINES:,} lines.", Place(name), HINT))
    return Loaded(tuple(by_id.values()), tuple(problems))


def _line(text: str, place: Place, plan: Plan | None, vocabulary: Vocabulary) -> LogLine | Problem:
    data = _object(text, place)
    if isinstance(data, Problem):
        return data
    reason = _shape(data) or _meaning(data, plan, vocabulary)
    if reason:
        return Problem("log-line", f"The line is no line of a coupon's log: {reason}.", place, HINT)
    line = LogLine(
        kind=data["kind"],
        plan=data["plan"],
        print=data["print"],
        date=data["date"],
        mark=data["mark"],
        values=data.get("values", {}),
        other=data.get("other", {}),
        grade=data.get("grade", ""),
        note=data.get("note", ""),
        place=place,
    )
    if line.id != data["id"]:
        message = "The id does not fit the line: it was changed since it was written."
        return Problem("id", message, place, "Put the line back as it was, or grade the print anew.")
    return line


def _object(text: str, place: Place) -> dict[str, Any] | Problem:
    if len(text) > LONGEST_LINE:
        return Problem("too-long", f"The line is longer than {LONGEST_LINE:,} characters.", place, HINT)
    try:
        data = json.loads(text)
    except (ValueError, RecursionError):
        return Problem("json", "The line is no JSON object.", place, HINT)
    return data if isinstance(data, dict) else Problem("json", "The line is no JSON object.", place, HINT)


def _shape(data: dict[str, Any]) -> str:
    """What is wrong with the members' names and types, or ""."""
    unknown = [key for key in data if key not in NEEDED and key not in FREE]
    lacking = [key for key in NEEDED if key not in data]
    if unknown or lacking:
        return f"{unknown[0][:40]!r} is not known" if unknown else f"{lacking[0]!r} is missing"
    for key, kind in (NEEDED | FREE).items():
        if key in data and (not isinstance(data[key], kind) or isinstance(data[key], bool)):
            return f"{key!r} has the wrong type"
    for key in ("values", "other"):
        if not all(isinstance(text, str) and len(text) <= 80 for text in data.get(key, {}).values()):
            return f"{key!r} holds what is no text"
    return ""


def _meaning(data: dict[str, Any], plan: Plan | None, vocabulary: Vocabulary) -> str:
    """What is wrong with the members' contents, or ""."""
    if data["format"] != FORMAT:
        return f"the format {data['format']} is not {FORMAT}"
    if data["kind"] not in ("asked", "graded"):
        return f"the kind {data['kind'][:40]!r} is not known"
    if plan is not None and data["plan"] != plan.name:
        return f"it belongs to the plan {data['plan'][:40]!r}"
    if not 1 <= data["print"] <= MOST_PRINTS:
        return f"there is no print {data['print']}"
    if data["kind"] == "graded" and data.get("grade") not in WORDS:
        return "the grade is not known"
    if any(data.get(key) == {} for key in ("values", "other")):
        return "it holds no values where it says that it does"
    if data["kind"] == "asked" and ("values" not in data or "grade" in data):
        return "a print that is asked for has values and no grade"
    if len(data.get("note", "")) > LONGEST_NOTE or not data.get("note", "").isprintable():
        return "the note is too long, or holds what cannot be seen"
    if not _is_day(data["date"]) or not MARK.fullmatch(data["mark"]):
        return "its date or its mark is none"
    return _values({**data.get("values", {}), **data.get("other", {})}, vocabulary)


def _is_day(text: str) -> bool:
    try:
        return bool(DAY.fullmatch(text)) and bool(datetime.date.fromisoformat(text))
    except ValueError:
        return False


def _values(values: dict[str, str], vocabulary: Vocabulary) -> str:
    for name, text in values.items():
        setting = vocabulary.settings.get(name)
        if setting is None:
            return f"the setting {name[:40]!r} is not known"
        value = read_value(setting, text)
        reason = value.reason if isinstance(value, Unreadable) else setting.implausible(value)
        if reason:
            return f"{name}: {reason}"
    return ""
