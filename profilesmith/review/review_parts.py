"""Parts of a review that are made of one thing of a ledger each, with strangers' text made visible."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from profilesmith.facts.facts import show_fact
from profilesmith.foundation.problem import Problem
from profilesmith.ledger import Ledger, Line, RecipeUse, StartCommand
from profilesmith.review.cause_reasons import command_words
from profilesmith.review.review import Assumed, LeftCommand
from profilesmith.review.wording import are_visible, visible
from profilesmith.vocabulary.setting import Value, Vocabulary

if TYPE_CHECKING:
    from profilesmith.review.edited_now import EditedNow

SWITCHES = ("support.on", "raft.on", "brim.on", "retraction.on")
"""Of features whose other settings say nothing while they are off."""


def left_command(item: StartCommand, vocabulary: Vocabulary) -> LeftCommand:
    """A machine command that was left as it is."""
    return LeftCommand(
        visible(command_words(item, vocabulary.settings)),
        item.is_of_base,
        visible(f"{item.file}:{item.line}") if item.file else "",
        visible(item.command),
        heats=bool(item.setting),
    )


def ends_as(name: str, ledger: Ledger, edits: Mapping[str, EditedNow]) -> tuple[Value, ...]:
    entry = ledger.derived.entries.get(name)
    return edits[name].now if name in edits else entry.values if entry else ()


def visible_line(line: Line) -> Line:
    if are_visible((line.file, line.key, line.text)):
        return line
    return line._replace(file=visible(line.file), key=visible(line.key), text=visible(line.text))


def visible_problem(problem: Problem) -> Problem:
    return problem._replace(message=visible(problem.message), hint=visible(problem.hint))


def recipe_cautions(recipes: Iterable[RecipeUse]) -> list[str]:
    """What the recipes warn of; first, of those that scale or shift, that they are applied once."""
    used = list(recipes)
    once = [f"{use.name} scales or shifts values: apply it once, never to its own result." for use in used if use.once]
    return [*once, *(text for use in used for text in use.cautions)]


def switched_off(ledger: Ledger, edits: Mapping[str, EditedNow]) -> tuple[str, ...]:
    """The switches of features that are off in the end."""
    return tuple(name for name in SWITCHES if ends_as(name, ledger, edits) == (False,))


def assumed(recipes: Iterable[RecipeUse]) -> tuple[Assumed, ...]:
    """Inputs that nobody answered, with the default that was used."""
    return tuple(
        Assumed(visible(use.name), visible(name), visible(show_fact(answer.value, answer.unit_kind)))
        for use in recipes
        for name, answer in use.answers.items()
        if answer.origin == "default"
    )
