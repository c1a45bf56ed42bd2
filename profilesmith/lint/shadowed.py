"""R31x: rules that another rule of the same recipe makes pointless."""

from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction

from profilesmith.lint.demands import ActionOnSetting, asked
from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import RecipeFile

Bound = Callable[[ActionOnSetting], Fraction | None]


def _low(item: ActionOnSetting) -> Fraction | None:
    """Turned round, so that the smaller is the stricter for both ends."""
    return None if item.demand.low is None else -item.demand.low


def _high(item: ActionOnSetting) -> Fraction | None:
    return item.demand.high


def _pointless(file: RecipeFile) -> Iterator[Fault]:
    """Bounds that an unconditional, stricter bound of another rule covers on every setting. Linear in rules and
    settings.
    """
    items = [item for item in asked(file.recipe, file.vocabulary) if item.fixed]
    strictest: dict[tuple[str, Bound], list[ActionOnSetting]] = {
        (setting, side): strict for side in (_low, _high) for setting, strict in _two_strictest(items, side).items()
    }
    by_rule: dict[int, list[ActionOnSetting]] = defaultdict(list)
    for item in items:
        by_rule[item.rule.number].append(item)
    for rule in file.recipe.rules:
        mine = by_rule.get(rule.number, [])
        bounds = [item for item in mine if item.action.does.is_bound and not item.action.does.is_exact]
        if not bounds or len(bounds) < len(rule.actions) * len(rule.settings):
            continue  # it has an aim, a reference or an unread value besides
        covers = [_cover(item, strictest) for item in bounds]
        if all(covers):
            names = sorted({number for numbers in covers for number in numbers})
            others = " and ".join(f"rule {number}" for number in names)
            yield Fault(
                f"Rule {rule.number} ({bounds[0].action}) never binds: {others} always asks for at least as much.",
                rule.place.line,
            )


def _two_strictest(items: Sequence[ActionOnSetting], side: Bound) -> dict[str, list[ActionOnSetting]]:
    """For each setting the strictest unconditional bounds of two different rules, the strictest first."""
    strictest: dict[str, list[ActionOnSetting]] = {}
    for item in items:
        if item.rule.when or side(item) is None:
            continue
        ranked = sorted([*strictest.get(item.setting.id, []), item], key=lambda one: (side(one), one.rule.number))
        first = ranked[0]
        others = [one for one in ranked[1:] if one.rule.number != first.rule.number]
        strictest[item.setting.id] = [first, *others[:1]]
    return strictest


def _cover(item: ActionOnSetting, strictest: Mapping[tuple[str, Bound], list[ActionOnSetting]]) -> tuple[int, ...]:
    """The rules that cover both ends of a bound; () when an end is its own."""
    numbers: list[int] = []
    for side in (_low, _high):
        mine = side(item)
        if mine is None:
            continue
        other = next(
            (one for one in strictest.get((item.setting.id, side), ()) if one.rule.number != item.rule.number), None
        )
        theirs = side(other) if other else None
        if other is None or theirs is None or theirs > mine:
            return ()
        if theirs == mine and not item.rule.when and other.rule.number > item.rule.number:
            return ()  # of two alike the later one is told
        numbers.append(other.rule.number)
    return tuple(numbers)


def _twice(file: RecipeFile) -> Iterator[Fault]:
    """Aims that later aims always overrule, and words that are set twice alike."""
    last: dict[tuple[str, str], ActionOnSetting] = {}
    mine: dict[int, list[tuple[str, str]]] = defaultdict(list)
    for item in asked(file.recipe, file.vocabulary):
        aims = item.action.does.is_aim
        if not aims and item.demand.exact is None:
            continue
        place = (item.action.operation, item.setting.id)
        mine[item.rule.number].append(place)
        before = last.get(place)
        if not item.rule.when and (aims or before is None or before.demand.exact == item.demand.exact):
            last[place] = item
    for rule in file.recipe.rules:
        later = [last.get(place) for place in mine.get(rule.number, ())]
        after = [item.rule.number for item in later if item is not None and item.rule.number > rule.number]
        if after and len(after) == len(later):
            yield Fault(
                f"Rule {rule.number} is always overruled by rule {after[0]}, which speaks of the same.", rule.place.line
            )


RULES = (
    LintRule(
        "R310",
        "hint",
        "No bound is made pointless by a stricter one",
        "A bound that never binds looks as if it did something, and is kept up for nothing.",
        "Take the weaker rule out, or give the stricter one a condition.",
        _pointless,
    ),
    LintRule(
        "R311",
        "hint",
        "No setting is set or aimed at twice",
        "Of two aims without a condition the later one always counts: the first says something that never happens.",
        "Keep one of the two, or give one a condition.",
        _twice,
    ),
)
