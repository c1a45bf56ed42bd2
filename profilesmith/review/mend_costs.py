"""What a mend costs, in words: figures of the checks before and after it, and the alarms that it brings or ends."""

from __future__ import annotations

from collections.abc import Mapping

from profilesmith.checks.amounts import bracket
from profilesmith.checks.case import ask
from profilesmith.foundation.words import listed
from profilesmith.mend.costs import Cost, Costs, Figure
from profilesmith.physics.answer import Bracket
from profilesmith.review.findings.in_words import in_words

# What a figure is called, and what a share of it is called when it rises and falls.
WORDS: Mapping[Figure, str] = {
    "print_time": "print time",
    "plastic": "plastic",
    "bending_stiffness": "bending stiffness by walls and filling",
    "tip_stiffness": "how hard it pushes back",
    "dent": "how far a face gives under a finger",
}


def cost_lines(costs: Costs) -> list[str]:
    """Sentences: what changes, what stays, what is not known, which alarms come and go."""
    changes = [_figure(item) for item in costs.figures if not item.stays or item.partly]
    stays = [WORDS[item.figure] for item in costs.figures if item.stays and not item.partly]
    lines = [f"By the checks: {'; '.join(changes)}."] if changes else []
    lines += [f"As before: {listed(stays)}."] if stays else []
    lines += [f"Not told: what it does to plastic and stiffness. {ask(fact)} (fact {fact})" for fact in costs.asks]
    lines += [f"It brings: {item.title}. {item.text}" for item in map(in_words, costs.worse)]
    return [*lines, *(f"It ends: {item.title}." for item in map(in_words, costs.better))]


def _figure(cost: Cost) -> str:
    """``print time 103 to 125 % of now``."""
    if cost.stays:
        return f"{WORDS[cost.figure]} as before for the same path, but the path itself changes"
    if cost.unit:
        return f"{WORDS[cost.figure]} {bracket(cost.before, cost.unit)} → {bracket(cost.after, cost.unit)}"
    partly = ", not counting that the path itself changes" if cost.partly else ""
    return f"{WORDS[cost.figure]} {_share(cost.after)} of now{partly}"


def _share(share: Bracket) -> str:
    return bracket(share, "%", 100)
