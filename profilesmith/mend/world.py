"""How prints would look if something was the matter: a noisy-or of causes, each a lever that stands wrong.

A *lever* is a doing, or a setting with a direction. A *matter* is a lever that stands wrong by 1, 2 or 3 steps (a
doing: by 1). Causes add up as a noisy-or does (J. Pearl, Probabilistic Reasoning in Intelligent Systems, 1988, 4.3.2):
a trouble stays away with the product of the chances that each cause leaves it alone. The numbers here are judgements
that turn the order of
``troubles.toml`` into weights; common practice, no source. The simulated workshop says how well advice from them does.
"""

from __future__ import annotations

from collections.abc import Mapping

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.mend.troubles import Knowledge, TroubleCause

WEIGHTS = (0.85, 0.7, 0.55, 0.45, 0.35, 0.3)  # of a trouble's causes, in their order
STRENGTH = (0.0, 0.45, 0.85, 1.0)  # of a lever that stands wrong by 0, 1, 2, 3 or more steps
PAST = (0.0, 0.08, 0.4, 0.8)  # of a lever that was moved past the right place: that is a window, not a point
SIZES = ((1, 0.25), (2, 0.5), (3, 0.25))
PRIOR = {"often": 0.15, "usual": 0.08, "rare": 0.03}
PRIOR_OF_A_STEP = (0.09, 0.06, 0.04, 0.03, 0.02, 0.02)  # by the highest place that it has among any trouble's causes
LEAK = 0.012  # a trouble of no known cause
GRADES = {
    "good": (0.92, 0.10),
    "fair": (0.06, 0.35),
    "poor": (0.02, 0.55),
}  # where a trouble is away, and where it is not
SEEN, NOT_SEEN = 0.9, 0.1  # a sign that a cause shows, and one that nothing shows


class Lever(NamedTuple):
    """do: a doing's name; else setting and sign (+1: it stands too low and is to go up)."""

    do: str = ""
    setting: str = ""
    sign: int = 0


class Matter(NamedTuple):
    """A lever that stands wrong, by so many steps."""

    lever: Lever
    steps: int = 1


class PrintState(NamedTuple):
    """What a print was made with: steps that each setting was moved from where it began (up is above 0), and what was
    done.
    """

    moved: Mapping[str, float]
    done: frozenset[str] = frozenset()


def lever_of(cause: TroubleCause) -> Lever:
    """A cause's lever. A switch or choice that is to be set counts as one step up."""
    return Lever(do=cause.do) if cause.do else Lever(setting=cause.setting, sign=cause.sign or 1)


def links(known: Knowledge, left_out: frozenset[tuple[str, int]] = frozenset()) -> dict[Lever, dict[str, float]]:
    """For each lever the troubles that it causes when it stands wrong, with weights. left_out: (trouble, cause) that
    cannot be.
    """
    strengths: dict[Lever, dict[str, float]] = {}
    for trouble in known.troubles.values():
        for rank, cause in enumerate(trouble.causes):
            if (trouble.name, rank) not in left_out:
                weight = WEIGHTS[min(rank, len(WEIGHTS) - 1)]
                of_lever = strengths.setdefault(lever_of(cause), {})
                of_lever[trouble.name] = max(weight, of_lever.get(trouble.name, 0.0))
    return strengths


def shown_by(known: Knowledge) -> dict[str, tuple[frozenset[Lever], frozenset[Lever]]]:
    """For each sign the levers that it speaks for, and against."""
    for_: dict[str, set[Lever]] = {name: set() for name in known.signs}
    against: dict[str, set[Lever]] = {name: set() for name in known.signs}
    for trouble in known.troubles.values():
        for cause in trouble.causes:
            for name in cause.speaks_for:
                for_[name].add(lever_of(cause))
            for name in cause.speaks_against:
                against[name].add(lever_of(cause))
    return {name: (frozenset(for_[name]), frozenset(against[name])) for name in known.signs}


def strength(steps: float, past: bool = False) -> float:
    """How much a lever that stands wrong by so many steps shows, from 0 to 1; straight between whole steps.

    past: it was moved there, past the right place.
    """
    shown, steps = PAST if past else STRENGTH, min(max(steps, 0.0), 3.0)
    whole = min(int(steps), 2)
    return shown[whole] + (steps - whole) * (shown[whole + 1] - shown[whole])


def priors(known: Knowledge) -> dict[Lever, float]:
    """How likely each lever stands wrong, before anything is seen."""
    shares: dict[Lever, float] = {}
    for trouble in known.troubles.values():
        for rank, cause in enumerate(trouble.causes):
            lever = lever_of(cause)
            share = PRIOR[known.doings[lever.do].usual] if lever.do else PRIOR_OF_A_STEP[min(rank, 5)]
            shares[lever] = max(share, shares.get(lever, 0.0))
    return shares
