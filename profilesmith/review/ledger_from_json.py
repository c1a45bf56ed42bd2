"""A stored ledger back to a Ledger: what ``ledger_json`` wrote, read again without losing a digit."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, NamedTuple

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import CONFLICT, Problem
from profilesmith.profile.ledger import STATUS_MEANING, Cause, Ledger, RecipeUse, Row
from profilesmith.profile.profile import Entry, Origin, Profile
from profilesmith.review import ledger_shape
from profilesmith.review.review import Line
from profilesmith.vocabulary.setting import Setting, Value, Vocabulary

LARGEST_LEDGER = 50_000_000


class Stored(NamedTuple):
    """A ledger file. data: as JSON; unmapped: the lines that no binding knew when it was written."""

    ledger: Ledger
    data: Mapping[str, Any]
    unmapped: tuple[Line, ...]


def read_ledger(text: str, name: str, vocabulary: Vocabulary) -> Stored | Problem:
    """Read a ledger file. name: for messages."""
    place, hint = Place(name), "Derive again to get a new ledger."
    if len(text) > LARGEST_LEDGER:
        return Problem("too-large", "The ledger is too large.", place, hint)
    try:
        data, exact = ledger_shape.load(text, fraction=False), ledger_shape.load(text, fraction=True)
    except (ValueError, RecursionError):
        return Problem("not-json", "The ledger is no JSON.", place, hint)
    if not isinstance(data, dict) or data.get("kind") != "profilesmith ledger":
        return Problem("no-ledger", "This is no ledger of profilesmith.", place, "Name the derived file itself.")
    if data.get("format") != 1:
        message = f"The ledger has format {data.get('format')!r}; this version reads 1."
        return Problem("newer-format", message, place, "Update profilesmith.")
    try:
        if ledger_shape.well_shaped(data):
            return _stored(exact, data, vocabulary)
        return Problem("bad-ledger", "The ledger does not have the shape of one.", place, hint)
    except (KeyError, TypeError, ValueError, AttributeError, IndexError):
        return Problem("bad-ledger", "The ledger is damaged.", place, hint)


def _stored(exact: dict[str, Any], data: dict[str, Any], vocabulary: Vocabulary) -> Stored:
    # What callers take for granted: a missing member is found here.
    _ = data["literals"], [item["name"] for item in data["files"]], [item["sha256"] for item in data.get("outputs", ())]
    unmapped = tuple(Line(line["file"], line["line"], line["key"], line.get("text", "")) for line in data["unmapped"])
    recipes = tuple(
        RecipeUse(
            name=use["name"],
            version=use["version"],
            title=use["title"],
            cautions=tuple(use["cautions"]),
            once=use["once"],
            answers=use["answers"],
        )
        for use in data["recipes"]
    )
    ledger = Ledger(
        base=_profile(exact["base"], vocabulary),
        derived=_profile(exact["derived"], vocabulary),
        rows=tuple(_row(row, vocabulary) for row in exact["rows"]),
        recipes=recipes,
        problems=tuple(_problem(item) for item in data["conflicts"]),
    )
    return Stored(ledger, data, unmapped)


def _profile(values: dict[str, Any], vocabulary: Vocabulary) -> Profile:
    entries = {
        name: Entry(setting=name, values=_values(value, vocabulary.settings[name]), origin=Origin("", 0, "", ""))
        for name, value in values.items()
    }
    return Profile(entries=entries, addable={}, absent={})


def _values(value: Any, setting: Setting) -> tuple[Value, ...]:
    if value is None:
        return ()
    items = value if isinstance(value, list) else [value]
    return tuple(Fraction(item) if setting.is_number else item for item in items)


def _row(row: dict[str, Any], vocabulary: Vocabulary) -> Row:
    if row["status"] not in STATUS_MEANING:
        raise ValueError(row["status"])
    setting = vocabulary.settings[row["setting"]]
    cause = Cause(
        recipe=row["recipe"],
        version=row["version"],
        rule=row["rule"] or 0,
        demand=row["demand"],
        why=row["why"],
        source=row["source"],
    )
    return Row(
        setting=setting.id,
        status=row["status"],
        cause=cause,
        base=_values(row["base"], setting),
        derived=_values(row["derived"], setting),
        old_text=row["old_text"],
        new_text=row["new_text"],
        file=row["file"],
        line=row["line"] or 0,
        key=row["key"],
        note=row["note"],
        ask=row["ask"],
    )


def _problem(item: dict[str, Any]) -> Problem:
    return Problem(
        item["code"], item["message"], Place(item["file"], item["line"], item["path"]), item["hint"], CONFLICT
    )
