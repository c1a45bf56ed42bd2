"""Catalogue: what a library holds, gathered and ready to be shown. Renderings add words and no facts."""

from profilesmith.evidence.tally import Tally
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.review import Review
from profilesmith.revision.on_profiles import ProfileEffect
from profilesmith.revision.recipe_changes import RecipeChanges


class Trial(NamedTuple):
    """A recipe on a reference profile. review: None when a file of it cannot be used; problems: why, or conflicts."""

    profile: str
    facts: tuple[str, ...]
    review: Review | None
    problems: tuple[str, ...] = ()


class RecipeVersion(NamedTuple):
    """A version of a recipe. day: since when, "" where not committed. changes: from the one before; None of the first.

    effects: of the changes, on reference profiles.
    """

    version: str
    day: str
    changes: RecipeChanges | None = None
    effects: tuple[ProfileEffect, ...] = ()


class RecipeEntry(NamedTuple):
    """One recipe. stem: of its pages' names; word: what a user types to name it; faults: of its evidence files.

    ships: it is no recipe of this library but one that ships, and was tried here.
    history: its versions, the newest first; one alone where no other is known.
    """

    stem: str
    word: str
    recipe: Recipe
    tally: Tally
    trials: tuple[Trial, ...]
    faults: tuple[str, ...] = ()
    ships: bool = False
    history: tuple[RecipeVersion, ...] = ()

    @property
    def title(self) -> str:
        return self.recipe.title or self.recipe.name

    @property
    def way(self) -> str:
        """``rigid PLA to flexible PLA``, or ""."""
        source, target = self.recipe.source_material, self.recipe.target_material
        return f"{source} to {target}" if source and target else target or source


class UnreadRecipe(NamedTuple):
    """A recipe file that cannot be read."""

    word: str
    problems: tuple[Problem, ...]


class Catalogue(NamedTuple):
    """entries: in the order of their names. borrowed: whether the reference profiles are the shipped library's.

    derive: the name of a page beside the others that derives in a browser; "" for none. contact: how to reach the
    keepers, as the library says.
    """

    name: str
    about: str
    licence: str
    keepers: tuple[str, ...]
    entries: tuple[RecipeEntry, ...]
    unread: tuple[UnreadRecipe, ...]
    written_by: str
    borrowed: bool = False
    derive: str = ""
    contact: str = ""
