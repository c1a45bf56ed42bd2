"""Whether a derived file is behind what it came from, and why, as data."""

from __future__ import annotations

from typing import Literal

from profilesmith.facts.fact_change import FactChange
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.revision.recipe_changes import RecipeChanges

AgeCode = Literal[
    "said",
    "derived file gone",
    "unreadable",
    "number of bases",
    "base unreadable",
    "base changed",
    "recipe not found",
    "recipe newer",
    "recipe's file changed",
    "answer unasked",
    "asks anew",
    "key map changed",
    "facts changed",
    "facts unreadable",
]
CURRENT, STALE, UNKNOWN = "current", "stale", "unknown"


class AgeReason(NamedTuple):
    """Why a file is behind, or could not be judged. about: names and versions that belong to the code.

    ``said``: a sentence of a room that knows more; ``facts``: what the files say otherwise now.
    """

    code: AgeCode
    about: tuple[str, ...] = ()
    facts: tuple[FactChange, ...] = ()


class Age(NamedTuple):
    """One derived file. behind: what is newer; unknown: what could not be judged. edited: by hand, since.

    changes: for each recipe that is newer, which of its rules came, went or changed.
    """

    file: str
    behind: tuple[AgeReason, ...] = ()
    unknown: tuple[AgeReason, ...] = ()
    edited: bool = False
    changes: tuple[RecipeChanges, ...] = ()

    @property
    def state(self) -> str:
        return UNKNOWN if self.unknown else STALE if self.behind else CURRENT
