"""Steps of several recipes on one setting: the later recipe's aim goes before the earlier one's, and bounds may
clash.
"""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger import Asked
from profilesmith.review.bounds import bounds_of
from profilesmith.review.render.sheet.sheet import Step


class AskedStep(NamedTuple):
    """A step, and what it asks as data where that is known before anybody answers."""

    step: Step
    asked: tuple[Asked, ...]
    is_aim: bool = False


def combined(by_recipe: Sequence[list[AskedStep]]) -> list[AskedStep]:
    """The steps of all recipes in their order; of aims the last that always holds and what follows it, after the
    bounds.
    """
    if len(by_recipe) == 1:
        return by_recipe[0]
    steps: list[AskedStep] = []
    for later in by_recipe:
        if any(item.is_aim and not item.step.only for item in later):
            steps = [item for item in steps if not item.is_aim]
        steps += later
    return sorted(steps, key=lambda item: item.is_aim)


def contradiction(name: str, steps: Sequence[AskedStep]) -> tuple[str, ...]:
    """That no value meets what is always asked, in a sentence; () where one does or nobody can say."""
    always = [item for item in steps if not item.step.only and not item.is_aim]
    both = _other_words(always) or _apart(always)
    return (f"{name} cannot be both {both[0]} and {both[1]}: leave out one of the recipes.",) if both else ()


def _other_words(always: Sequence[AskedStep]) -> tuple[str, ...]:
    """Two states or choices that are both asked for; () for none."""
    words = [
        item.step.new
        for item in always
        if item.asked and all(isinstance(value, bool | str) for asked in item.asked for value in asked.values)
    ]
    return tuple(dict.fromkeys(words))[:2] if len(set(words)) > 1 else ()


def _apart(always: Sequence[AskedStep]) -> tuple[str, ...]:
    """The highest of the lower bounds and the lowest of the upper ones, where no number lies between; () for none."""
    bounds = [(bound, item.step.new) for item in always for bound in bounds_of(item.asked)]
    lows = [(low, words) for (low, _), words in bounds if low is not None]
    highs = [(high, words) for (_, high), words in bounds if high is not None]
    if not lows or not highs or max(lows)[0] <= min(highs)[0]:
        return ()
    return max(lows)[1], min(highs)[1]
