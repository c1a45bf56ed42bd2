"""A stored ledger back to a Ledger: what ``ledger_json`` wrote, read again without losing a digit."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from profilesmith.facts.facts import Fact, Facts
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import CONFLICT, Problem
from profilesmith.foundation.words import listed
from profilesmith.ledger import STATUS_MEANING, Answer, Cause, Ledger, Line, RecipeUse, Row, read_format_1
from profilesmith.ledger import shape as ledger_shape
from profilesmith.ledger.exact import fact_of, values_of
from profilesmith.profile.profile import Entry, Origin, Profile
from profilesmith.vocabulary.setting import Vocabulary

LARGEST_LEDGER = 50_000_000


class Stored(NamedTuple):
    """A ledger file. data: as JSON; unmapped: the lines that no binding knew when it was written.

    rounded: facts and answers ("recipe.input") of which a ledger of format 1 holds no more digits than it showed.
    """

    ledger: Ledger
    data: Mapping[str, Any]
    unmapped: tuple[Line, ...]
    rounded: tuple[str, ...] = ()

    @property
    def laid(self) -> tuple[str, ...]:
        """The names of recipes that are of this profile alone, and lie in its ledger."""
        return tuple(item["name"] for item in self.data.get("call", {}).get("laid", ()))

    @property
    def named(self) -> tuple[RecipeUse, ...]:
        """The recipes that were named, without those."""
        count = len(self.ledger.recipes) - len(self.laid)
        return self.ledger.recipes[:count]


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
    if data.get("format") not in ledger_shape.SCHEMAS or isinstance(data["format"], bool):
        message = f"The ledger has format {data.get('format')!r}; this version reads {listed(map(str, ledger_shape.SCHEMAS), 'and')}."
        return Problem("newer-format", message, place, "Update profilesmith.")
    try:
        if ledger_shape.well_shaped(data):
            return _stored(exact, data, vocabulary, name)
        return Problem("bad-ledger", "The ledger does not have the shape of one.", place, hint)
    except (KeyError, TypeError, ValueError, AttributeError, IndexError):
        return Problem("bad-ledger", "The ledger is damaged.", place, hint)


def _stored(exact: dict[str, Any], data: dict[str, Any], vocabulary: Vocabulary, name: str) -> Stored:
    # What callers take for granted: a missing member is found here.
    _ = data["literals"], [item["name"] for item in data["files"]], [item["sha256"] for item in data.get("outputs", ())]
    unmapped = tuple(Line(line["file"], line["line"], line["key"], line.get("text", "")) for line in data["unmapped"])
    old, place = data["format"] == 1, Place(name)
    facts, uses = read_format_1.facts(data, place) if old else _facts(exact, place), exact["recipes"]
    recipes = tuple(_use(use, read_format_1.answers(use, data) if old else _answers(use)) for use in uses)
    ledger = Ledger(
        base=_profile(exact["base"], vocabulary),
        derived=_profile(exact["derived"], vocabulary),
        rows=tuple(_row(row, vocabulary) for row in exact["rows"]),
        recipes=recipes,
        problems=tuple(_problem(item) for item in data["conflicts"]),
        facts=facts,
    )
    return Stored(ledger, data, unmapped, read_format_1.rounded(facts, recipes, data) if old else ())


def _use(use: dict[str, Any], answers: Mapping[str, Answer]) -> RecipeUse:
    return RecipeUse(
        name=use["name"],
        version=use["version"],
        title=use["title"],
        cautions=tuple(use["cautions"]),
        once=use["once"],
        answers=answers,
    )


def _facts(exact: dict[str, Any], place: Place) -> Facts:
    return {name: Fact(fact_of(item["value"]), place, item["said"]) for name, item in exact["facts"].items()}


def _answers(use: dict[str, Any]) -> dict[str, Answer]:
    return {
        name: Answer(fact_of(item["value"]), item["origin"], item["said"], item["unit_kind"])
        for name, item in use["answers"].items()
    }


def _profile(values: dict[str, Any], vocabulary: Vocabulary) -> Profile:
    entries = {
        name: Entry(setting=name, values=values_of(value, vocabulary.settings[name]), origin=Origin("", 0, "", ""))
        for name, value in values.items()
    }
    return Profile(entries=entries, addable={}, absent={})


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
        base=values_of(row["base"], setting),
        derived=values_of(row["derived"], setting),
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
