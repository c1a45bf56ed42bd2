"""For one operation the parameters that explain the most values, and among those the roundest."""

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

from profilesmith.distil.allowed import allowed
from profilesmith.distil.interval import Interval, densest, roundest
from profilesmith.distil.law import DECIMALS, Law, figures, unexplained
from profilesmith.distil.sample import SampleWorld, Seen
from profilesmith.foundation.number import decimal_text
from profilesmith.recipe.operations import CAP, DIFFERENCE, LEARNED, RAISE_TO, RATIO, SET, WINDOW, Operation
from profilesmith.vocabulary.setting import Setting

NUMBERS = tuple(item for item in LEARNED if item.operands == 1 and not item.products)
"""Operations with one number, bounds first: of equals the gentler one is chosen."""


def fits(setting: Setting, seen: tuple[Seen, ...], world: SampleWorld) -> Iterator[Law]:
    """The best law of each operation with fixed values that some touched value speaks for."""
    touched = [item for item in seen if item.touched]
    if not setting.is_number:
        yield from (Law(SET.name, (value,)) for value in sorted({item.after for item in touched}, key=str))
        return
    numbers = [item for item in seen if isinstance(item.before, Fraction)]
    down, up = _moved(numbers, -1), _moved(numbers, 1)
    ways = [item for item in NUMBERS if (item.raises or down) and (item.lowers or up) and item.takes(setting.kind)]
    for operation in ways if touched else ():
        law = fit(operation, seen, world)
        if law is not None:
            yield law
    if down and up:
        window = fit_window(seen, world)
        if window is not None:
            yield window


def _moved(seen: Sequence[Seen], sign: int) -> list[Seen]:
    return [
        item
        for item in seen
        if isinstance(item.before, Fraction)
        and isinstance(item.after, Fraction)
        and (item.after - item.before) * sign > 0
    ]


def fit(operation: Operation, seen: tuple[Seen, ...], world: SampleWorld) -> Law | None:
    """The parameter of one operation that leaves the fewest exceptions."""
    regions = [region for item in seen if (region := allowed(operation, item)) is not None]
    proposals = dict.fromkeys(Fraction(decimal_text(value, DECIMALS)) for value in _proposals(operation, regions, seen))
    laws = [Law(operation.name, (value,)) for value in proposals if _sensible(operation, value)]
    if len(laws) < 2:
        return laws[0] if laws else None
    return min(laws, key=lambda law: (len(unexplained(law, seen, world)), figures(law), law.values))


def fit_window(seen: tuple[Seen, ...], world: SampleWorld) -> Law | None:
    """Both ends, each from the values that moved to it and from those that were left alone."""
    down, up = _moved(seen, -1), _moved(seen, 1)
    still = tuple(item for item in seen if not item.touched)
    low, high = fit(RAISE_TO, (*up, *still), world), fit(CAP, (*down, *still), world)
    if low is None or high is None or low.values[0] >= high.values[0]:  # type: ignore[operator]
        return None
    return Law(WINDOW.name, (low.values[0], high.values[0]))


def _sensible(operation: Operation, value: Fraction) -> bool:
    """Whether it does something: times 100 % and plus nothing do not."""
    if operation.reads == RATIO:
        return value > 0 and value != 100
    return value != 0 or operation.reads != DIFFERENCE


def _proposals(operation: Operation, regions: Sequence[Interval], seen: Sequence[Seen]) -> dict[Fraction, None]:
    """Round numbers of the densest regions, and the very values that were written most often."""
    counted = Counter(item.after for item in seen if item.touched and isinstance(item.after, Fraction))
    common = sorted(counted, key=lambda value: (-counted[value], value))[:2]
    proposals: dict[Fraction, None] = {}
    for region in densest(regions):
        ends = [end for end in region if end is not None]
        if ends:
            near = next((value for value in common if region.holds(value)), sum(ends, Fraction(0)) / len(ends))
            proposals[roundest(region, near)] = None
            proposals[near] = None
    if not operation.once:
        proposals.update((value, None) for value in common)
    return proposals
