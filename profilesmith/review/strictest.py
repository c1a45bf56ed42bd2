"""Of several known bounds on a setting that is set by hand, the ones that a person must mind."""

from __future__ import annotations

from profilesmith.review.bounds import bounds_of, looser, only_bounds
from profilesmith.review.review import Reason

STRICTER = "another rule is stricter"


def strictest(reasons: tuple[Reason, ...]) -> tuple[Reason, ...]:
    """The reasons in force first; a bound that a stricter one makes idle is overruled and comes last."""
    asked = [reason for reason in reasons if reason.status == "by hand"]
    left = list(range(len(asked)))
    # From the last: of two equal bounds the first stays.
    for number in reversed(range(len(asked))):
        others = [bounds_of(asked[other].asked) for other in left if other != number]
        if looser(only_bounds(asked[number].asked), others):
            left.remove(number)
    idle = [
        reason._replace(status="overruled", note=STRICTER) for number, reason in enumerate(asked) if number not in left
    ]
    return (*(asked[number] for number in left), *(reason for reason in reasons if reason.status != "by hand"), *idle)
