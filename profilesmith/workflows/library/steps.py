"""What a check of a library does, step by step, and what comes of each: plain data that travels between processes."""

from __future__ import annotations

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import CONFLICT, Problem
from profilesmith.lint.finding import LintFinding


class Attempt(NamedTuple):
    """What is tried together: the names of one recipe, or of two. Of two the first claims the other."""

    recipes: tuple[str, ...]


class LintStep(NamedTuple):
    """A file to lint."""

    kind: str
    path: str
    strict: bool


class StepOutcome(NamedTuple):
    """lint, trials: findings in a fixed order. derivations: how many were made."""

    lint: tuple[LintFinding, ...] = ()
    trials: tuple[LintFinding, ...] = ()
    derivations: int = 0


class TriedDerivation(NamedTuple):
    """One derivation. problems: what stood against it."""

    problems: tuple[Problem, ...]
    keyed: frozenset[int] = frozenset()

    @property
    def conflict(self) -> bool:
        """Whether rules, limits or facts stood against one another; else the tool could not carry it out."""
        return bool(self.problems) and all(item.severity == CONFLICT and item.code != "audit" for item in self.problems)


Step = LintStep | Attempt
