"""Where a coupon's plan goes past what the spool's label allows: its prints are free of recipes and label."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path

from profilesmith.checks.flow import LABEL_SPEED_FACT
from profilesmith.coupon.plan import Plan
from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.read import read_facts


def facts_of(plan: Plan, folder: Path, library: Path | None = None) -> Facts:
    """The plan's facts, files as seen from its folder; none where they do not read: deriving says why."""
    problems: list[Problem] = []
    facts = read_facts([_from_here(word, folder) for word in plan.facts], library, problems)
    return {} if problems else facts


def _from_here(word: str, folder: Path) -> str:
    return str(folder / word) if Path(word).suffix or "/" in word else word


class AboveLabel(NamedTuple):
    """A printing speed that the plan takes up to ``high``, where the label says ``most``; mm/s."""

    setting: str
    most: Fraction
    high: Fraction


def above_label(plan: Plan, facts: Facts) -> list[AboveLabel]:
    """Each printing speed that the plan takes past the label's."""
    most = facts[LABEL_SPEED_FACT].value if LABEL_SPEED_FACT in facts else None
    speeds = load_vocabulary().groups["printing speeds"].members
    if not isinstance(most, Fraction):
        return []
    return [
        AboveLabel(factor.setting, most, high)
        for factor in plan.factors
        if factor.setting in speeds and (high := _highest([factor.low, factor.high])) > most
    ]


def _highest(values: Sequence[object]) -> Fraction:
    return max((value for value in values if isinstance(value, Fraction)), default=Fraction(0))
