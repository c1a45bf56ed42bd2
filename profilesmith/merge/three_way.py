"""The heart of a three-way merge, for one thing of any kind."""

from collections.abc import Callable
from typing import Literal, TypeVar

Verdict = Literal["untouched", "agreed", "mine", "theirs", "conflict"]
T = TypeVar("T")


Same = Callable[[T, T], bool]


def meet(
    old: T,
    mine: T,
    theirs: T,
    same: Callable[[T, T], bool],
    renewed: Same[T] | None = None,
    agree: Same[T] | None = None,
) -> Verdict:
    """Who moved away from ``old``. renewed: whether theirs says what old did; agree: whether both sides say the same.

    untouched: nobody; mine, theirs: one side alone; agreed: both, to the same; conflict: both, to different things.
    Swapping the sides swaps ``mine`` and ``theirs`` and changes nothing else.
    """
    stayed = (renewed or same)(theirs, old)
    if same(mine, old):
        return "untouched" if stayed else "theirs"
    if stayed:
        return "mine"
    return "agreed" if (agree or same)(mine, theirs) else "conflict"


def meet_all(
    old: tuple[T, ...],
    mine: tuple[T, ...],
    theirs: tuple[T, ...],
    same: Callable[[T, T], bool],
    renewed: Same[T] | None = None,
    agree: Same[T] | None = None,
) -> list[Verdict]:
    """For each tool a verdict; one verdict for the whole where the three hold different numbers of them."""
    if len(old) == len(mine) == len(theirs):
        return [meet(*three, same, renewed, agree) for three in zip(old, mine, theirs, strict=True)]

    def of_all(one_same: Callable[[T, T], bool]) -> Callable[[tuple[T, ...], tuple[T, ...]], bool]:
        return lambda one, other: alike(one, other, one_same)

    return [meet(old, mine, theirs, of_all(same), of_all(renewed or same), of_all(agree or same))]


def alike(one: tuple[T, ...], other: tuple[T, ...], same: Callable[[T, T], bool]) -> bool:
    """Whether two lists say the same of every tool; one value for all is the same as as many equal ones."""
    if not one or not other:
        return not one and not other
    if len(one) == len(other):
        return all(same(*values) for values in zip(one, other, strict=True))
    first = one[0]
    return all(same(first, item) for item in (*one, *other))
