"""For one operation the parameters that explain the most values, and among those the roundest."""

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

from profilesmith.distil.allowed import allowed
from profilesmith.distil.interval import Interval, densest, roundest
from profilesmith.distil.law import DECIMALS, Law, figures, unexplained
from profilesmith.distil.sample import Seen, World
from profilesmith.foundation.number import decimal_text
from profilesmith.vocabulary.setting import Setting

NUMBERS = ("cap", "raise_to", "set", "scale", "shift")
"""Operations with one number, bounds first: of equals the gentler one is chosen."""


def fits(setting: Setting, seen: tuple[Seen, ...], world: World) -> Iterator[Law]:
    """The best law of each operation with fixed values that some touched value speaks for."""
    touched = [item for item in seen if item.touched]
    if not setting.is_number:
        yield from (Law("set", (value,)) for value in sorted({item.after for item in touched}, key=str))
        return
    numbers = [item for item in seen if isinstance(item.before, Fraction)]
    down, up = _moved(numbers, -1), _moved(numbers, 1)
    names = [name for name in NUMBERS if {"cap": down, "raise_to": up}.get(name, touched)]
    names = [name for name in names if not (name == "scale" and setting.kind == "temperature")]
    for name in names if touched else ():
        law = fit(name, seen, world)
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


def fit(name: str, seen: tuple[Seen, ...], world: World) -> Law | None:
    """The parameter of one operation that leaves the fewest exceptions."""
    regions = [region for item in seen if (region := allowed(name, item)) is not None]
    proposals = dict.fromkeys(Fraction(decimal_text(value, DECIMALS)) for value in _proposals(name, regions, seen))
    laws = [Law(name, (value,)) for value in proposals if _sensible(name, value)]
    if len(laws) < 2:
        return laws[0] if laws else None
    return min(laws, key=lambda law: (len(unexplained(law, seen, world)), figures(law), law.values))


def fit_window(seen: tuple[Seen, ...], world: World) -> Law | None:
    """Both ends, each from the values that moved to it and from those that were left alone."""
    down, up = _moved(seen, -1), _moved(seen, 1)
    still = tuple(item for item in seen if not item.touched)
    low, high = fit("raise_to", (*up, *still), world), fit("cap", (*down, *still), world)
    if low is None or high is None or low.values[0] >= high.values[0]:  # type: ignore[operator]
        return None
    return Law("window", (low.values[0], high.values[0]))


def _sensible(name: str, value: Fraction) -> bool:
    return value > 0 and value != 100 if name == "scale" else value != 0 if name == "shift" else True


def _proposals(name: str, regions: Sequence[Interval], seen: Sequence[Seen]) -> dict[Fraction, None]:
    """Round numbers of the densest regions, and the very values that were written most often."""
    counted = Counter(item.after for item in seen if item.touched and isinstance(item.after, Fraction))
    common = sorted(counted, key=lambda value: (-counted[value], value))[:2]
    found: dict[Fraction, None] = {}
    for region in densest(regions):
        ends = [end for end in region if end is not None]
        if ends:
            near = next((value for value in common if region.holds(value)), sum(ends, Fraction(0)) / len(ends))
            found[roundest(region, near)] = None
            found[near] = None
    if name not in ("scale", "shift"):
        found.update((value, None) for value in common)
    return found
