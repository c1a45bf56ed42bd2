"""The value of the rule that a threshold coupon is worth: where prints are expected to be good, with all that is not
known.

The lower end of a range (5 % of the belief beyond it) will not do: as the range narrows it moves up to the threshold,
where only 9 of 10 prints are good, so the rule gets worse with every print that is made. What is held here is the share
itself: the chance that a print at the value is good, over all thresholds, judges and shapes of judges that may be,
slips of the judge aside. Of judges such as the belief expects a promised share is kept after few prints and after many.
A judge who is sharper than most is met with too much care at first, so that a constant promise would fall for them;
hence the promise grows a little with the prints. What they bring is shared between speed and safety.
"""

from __future__ import annotations

from profilesmith.coupon.judge_model import Eye, good_chance
from profilesmith.coupon.threshold import Belief

LEAST_PROMISED = 0.95
BAD, BAD_OF_FEW = 0.01, 0.2  # of prints at the rule: after very many, and this over the number of prints on top
BELOW = 1.5  # how far under the grid it may lie, along u
FINE = 5e-5  # along u
NOTHING = 1e-7  # of the belief is not looked at


def promised(prints: int) -> float:
    """The share of prints at the rule that are to be good, after so many graded prints."""
    return max(LEAST_PROMISED, 1 - BAD - BAD_OF_FEW / max(prints, 1))


def expected_good(belief: Belief, u: float) -> float:
    """The share of prints at u that are expected to be good, slips aside."""
    return _expected(_likely(belief), u, belief.grades)


def safe_u(belief: Belief, prints: int) -> float:
    """The worst value at which the promised share of prints is expected to be good."""
    likely, share = _likely(belief), promised(prints)
    low, high = belief.thresholds[0] - BELOW, belief.thresholds[-1]
    while high - low > FINE:
        middle = (low + high) / 2
        if _expected(likely, middle, belief.grades) >= share:
            low = middle
        else:
            high = middle
    return low


def _likely(belief: Belief) -> list[tuple[float, float, Eye]]:
    """(share, threshold, judge) of all that counts; the shares add up to 1."""
    every = [
        (share, t, eye)
        for t, row in zip(belief.thresholds, belief.joint, strict=True)
        for share, eye in zip(row, belief.judges.eyes, strict=True)
        if share > NOTHING
    ]
    total = sum(share for share, _, _ in every)
    return [(share / total, t, eye) for share, t, eye in every]


def _expected(likely: list[tuple[float, float, Eye]], u: float, grades: int) -> float:
    return sum(share * good_chance(u - t, eye, grades) for share, t, eye in likely)
