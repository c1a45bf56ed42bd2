"""How far a temperature that a rule moves by a step may be moved."""

from __future__ import annotations

from fractions import Fraction

from profilesmith.distil.beside import limit
from profilesmith.distil.finding import DistilledRule
from profilesmith.distil.law import Law
from profilesmith.recipe.operations import DIFFERENCE
from profilesmith.vocabulary.setting import Vocabulary


def bound_of(finding: DistilledRule, vocabulary: Vocabulary) -> Law | None:
    """How far a temperature that is moved by a step may be moved: no farther than these pairs printed with."""
    step = finding.law.values[0] if finding.law.values else None
    if finding.law.does.reads != DIFFERENCE or vocabulary.settings[finding.settings[0]].kind != "temperature":
        return None
    return limit(step, finding.seen) if isinstance(step, Fraction) else None
