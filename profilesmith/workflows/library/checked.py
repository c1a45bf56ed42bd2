"""What a check of a library came to, as data."""

from __future__ import annotations

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.lint.finding import LintFinding
from profilesmith.revision.recipe_changes import RecipeChanges
from profilesmith.workflows.library.effect_blocks import CauseBlock
from profilesmith.workflows.library.effects import Effect


class Changed(NamedTuple):
    """What differs from a revision. since: what people call it; "" where none was named.

    rules: what changed in each recipe. effects: the derivations that come out otherwise, None
    where there is nothing to hold them against; blocks: the same by cause. gone: findings on what was taken away.
    """

    since: str = ""
    rules: tuple[RecipeChanges, ...] = ()
    effects: tuple[Effect, ...] | None = ()
    blocks: tuple[CauseBlock, ...] = ()
    gone: tuple[LintFinding, ...] = ()


NOTHING = Changed()


class LibraryChecked(NamedTuple):
    """findings: sorted by file and line. recipes, pairs, profiles, derivations: how many were tried; remembered: of
    them at an earlier check.
    """

    name: str
    folder: str
    findings: tuple[LintFinding, ...]
    recipes: int = 0
    pairs: int = 0
    profiles: int = 0
    derivations: int = 0
    strict: bool = False
    changed: Changed = NOTHING
    remembered: int = 0

    def count(self, severity: str) -> int:
        return sum(item.severity == severity for item in self.findings)

    @property
    def errors(self) -> int:
        return self.count("error")
