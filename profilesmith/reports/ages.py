"""Which derived files are behind, in words: a line a file, and what changed in each newer recipe."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from profilesmith.catalogue.changes_words import changes_lines
from profilesmith.review.fact_changes import change_sentences, unread_facts
from profilesmith.review.wording import visible
from profilesmith.revision.recipe_changes import RecipeChanges
from profilesmith.workflows.rederive.age import Age, AgeReason

WORDS = {
    "said": "{0}",
    "derived file gone": "the derived file is gone",
    "number of bases": "it came from {0} bases, --onto names {1}",
    "base unreadable": "the base {0} cannot be read (name it with --onto)",
    "base changed": "the base {0} has changed",
    "recipe not found": "the recipe {0} is not found (name its library with --library)",
    "recipe newer": "recipe {0} {1} → {2}",
    "recipe's file changed": "the file of recipe {0} has changed under the same version {1}",
    "answer unasked": "the answer {0} = {1} is not asked for any more",
    "asks anew": "{0} asks for {1} now",
    "key map changed": "key map {0} changed",
}


def age_lines(ages: Sequence[Age]) -> list[str]:
    """One line a file; then once for each recipe that is newer what changed in it."""
    blocks = dict.fromkeys(block for age in ages for block in _blocks(age.changes))
    return [*map(age_sentence, ages), *(visible(line) for block in blocks for line in ("", *block))]


def age_sentence(age: Age) -> str:
    reasons = "; ".join([*map(_reason, (*age.behind, *age.unknown)), *(("edited by hand",) if age.edited else ())])
    return visible(f"{age.file}: {age.state}{f': {reasons}' if reasons else ''}")


def age_data(age: Age) -> dict[str, Any]:
    """The same for programs."""
    return {
        "file": age.file,
        "state": age.state,
        "behind": list(map(_reason, age.behind)),
        "unknown": list(map(_reason, age.unknown)),
        "edited": age.edited,
        "changes": [line for block in _blocks(age.changes) for line in block if line],
    }


def _reason(reason: AgeReason) -> str:
    if reason.code == "facts changed":
        return change_sentences(reason.facts)[0]
    if reason.code == "facts unreadable":
        name, why = reason.about
        return f"{unread_facts(name, why)}; --keep-facts leaves them as the ledger has them"
    if reason.code == "unreadable":
        place, message = reason.about
        return f"it cannot be read: {place}: {message.rstrip('.')}"
    return WORDS[reason.code].format(*reason.about)


def _blocks(changes: Sequence[RecipeChanges]) -> list[tuple[str, ...]]:
    return [block for item in changes if (block := tuple(changes_lines(item)))]
