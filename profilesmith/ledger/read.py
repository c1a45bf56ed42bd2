"""A ledger file, which may come from a stranger, back to its ledger, without losing a digit."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from profilesmith.facts.facts import Fact, Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem
from profilesmith.ledger import bounds
from profilesmith.ledger.exact import suits
from profilesmith.ledger.file import FORMAT, LARGEST_LEDGER, LedgerFile
from profilesmith.ledger.form import form_of
from profilesmith.ledger.ledger import Ledger, RecipeUse, Values
from profilesmith.profile.profile import Profile, profile_of
from profilesmith.vocabulary.setting import Vocabulary


class Stored(NamedTuple):
    """A ledger file that was read, and its ledger.

    rounded: facts and answers ("recipe.input") of which a ledger of format 1 holds no more digits than it showed.
    """

    ledger: Ledger
    file: LedgerFile
    rounded: tuple[str, ...] = ()

    @property
    def named(self) -> tuple[RecipeUse, ...]:
        """The recipes that were named; behind them come those of this profile alone, which lie in its ledger."""
        laid = len(self.file.call.laid) if self.file.call else 0
        return self.ledger.recipes[: len(self.ledger.recipes) - laid]


def read_ledger(text: str, name: str, vocabulary: Vocabulary) -> Stored | Problem:
    """Read a ledger file. name: for messages."""
    place, hint = Place(name), "Derive again to get a new ledger."
    if len(text) > LARGEST_LEDGER:
        return Problem("too-large", "The ledger is too large.", place, hint)
    try:
        data = bounds.load(text)
    except (ValueError, RecursionError):
        return Problem("not-json", "The ledger is no JSON.", place, hint)
    if not isinstance(data, dict) or data.get("kind") != "profilesmith ledger":
        return Problem("no-ledger", "This is no ledger of profilesmith.", place, "Name the derived file itself.")
    if data.get("format") not in (1, FORMAT) or isinstance(data["format"], bool):
        message = f"The ledger has format {data.get('format')!r}; this version reads 1 and {FORMAT}."
        return Problem("newer-format", message, place, "Update profilesmith.")
    try:
        bounds.hold(data)
        file, rounded = _file(data)
        return Stored(_ledger(file, vocabulary, place), file, rounded)
    except (KeyError, TypeError, ValueError, AttributeError, IndexError):
        return Problem("bad-ledger", "The ledger is damaged: it does not have the shape of one.", place, hint)


def _file(data: dict[str, Any]) -> tuple[LedgerFile, tuple[str, ...]]:
    if data["format"] == 1:
        from profilesmith.ledger.format_1 import brought_up, rounded

        data, left = brought_up(data), rounded(data)
    else:
        left = ()
    file: LedgerFile = form_of(LedgerFile).read(data)
    return file, left


def _ledger(file: LedgerFile, vocabulary: Vocabulary, place: Place) -> Ledger:
    """The ledger of a file. Raises KeyError or ValueError for settings and values that are none."""
    for row in file.rows:
        setting = vocabulary.settings[row.setting]
        if not suits(row.base, setting) or not suits(row.derived, setting):
            raise ValueError(row.setting)
    return Ledger(
        base=_profile(file.base, vocabulary),
        derived=_profile(file.derived, vocabulary),
        rows=file.rows,
        recipes=file.recipes,
        problems=file.conflicts,
        facts=_facts(file, place),
    )


def _profile(values: Mapping[str, Values], vocabulary: Vocabulary) -> Profile:
    for name, held in values.items():
        if not held or not suits(held, vocabulary.settings[name]):
            raise ValueError(name)
    return profile_of(values)


def _facts(file: LedgerFile, place: Place) -> Facts:
    return {name: Fact(item.value, place, item.said) for name, item in file.facts.items()}
