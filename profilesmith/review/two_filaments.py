"""Recipes of which each aims one setting at a value of its own, in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from profilesmith.ledger import Cause, Row
from profilesmith.ledger.history import BY_HAND
from profilesmith.mend.as_rules import LAID
from profilesmith.recipe.operations import BY_NAME
from profilesmith.review.wording import show_values, visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


def two_aims(rows: Iterable[Row], settings: Sequence[str]) -> list[str]:
    """One sentence for each two recipes that aim one of the settings differently, on the first that they do.

    What a person or a print said later is meant to overrule a recipe, and is left out.
    """
    texts: dict[tuple[str, str], str] = {}
    for row in sorted((row for row in rows if row.setting in settings), key=lambda row: settings.index(row.setting)):
        later = next((note.by for note in row.notes if note.code == "later aim" and note.by), None)
        if later is not None:
            recipes = (row.cause.recipe, later.recipe)
            if len({*recipes, BY_HAND, LAID}) == 4:  # two, and neither of these
                texts.setdefault(recipes, _sentence(row, later))
    return list(texts.values())


def _sentence(row: Row, later: Cause) -> str:
    first, second = (visible(cause.recipe) for cause in (row.cause, later))
    return (
        f"{first} aims {row.setting} at {_aim(row.cause, row.setting)}, "
        f"{second} at {_aim(later, row.setting)}: the later one counts"
    )


def _aim(cause: Cause, setting: str) -> str:
    aimed = (item.values for item in cause.asked if (known := BY_NAME.get(item.operation)) and known.is_aim)
    return show_values(load_vocabulary().settings[setting], next(aimed, ()))
