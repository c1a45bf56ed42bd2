"""R30x: bounds that nothing can meet, and bounds that never bind."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.lint.demands import ActionOnSetting, asked
from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import RecipeFile
from profilesmith.recipe.recipe import Clause


def _vocabulary(file: RecipeFile) -> Iterator[Fault]:
    spoken_of: set[int] = set()
    for item in asked(file.recipe, file.vocabulary):
        odd = _outside(item)
        if odd and item.rule.number not in spoken_of:
            spoken_of.add(item.rule.number)
            yield Fault(
                f"{item.setting.id}: {item} is {odd} the plausible {item.setting.range_text()}.", item.rule.place.line
            )


def _outside(item: ActionOnSetting) -> str:
    """``below`` or ``above`` where a value that is asked for cannot be reached inside the vocabulary's range."""
    low, high = item.setting.low, item.setting.high
    if low is None or high is None:
        return ""
    asked_for = [end for end in (item.demand.low, item.demand.high, item.demand.aim) if isinstance(end, Fraction)]
    return "below" if any(end < low for end in asked_for) else "above" if any(end > high for end in asked_for) else ""


class _Meeting(NamedTuple):
    """The bounds on one setting that hold together."""

    lows: list[ActionOnSetting]
    highs: list[ActionOnSetting]
    words: list[ActionOnSetting]


def _contradictions(file: RecipeFile) -> Iterator[Fault]:
    """For every condition: what is asked always, and what is asked under it."""
    groups: dict[tuple[Clause, ...], list[ActionOnSetting]] = defaultdict(list)
    for item in asked(file.recipe, file.vocabulary):
        if item.action.does.is_bound:
            groups[item.rule.when].append(item)
    always = groups.pop((), [])
    spoken_of: set[tuple[int, int]] = set()
    for items in (always, *([*always, *some] for some in groups.values())):
        for first, second in _clashes(items):
            numbers = (first.rule.number, second.rule.number)
            if numbers not in spoken_of:
                spoken_of.add(numbers)
                by_default = "" if first.fixed and second.fixed else ", with the answers that the recipe supposes,"
                yield Fault(
                    f"{second.setting.id}: {second}{by_default} cannot be met together with {first}.",
                    second.rule.place.line,
                )


def _clashes(items: Iterable[ActionOnSetting]) -> Iterator[tuple[ActionOnSetting, ActionOnSetting]]:
    """For each setting the two rules that stand farthest apart, the earlier one first, if they do not meet."""
    for meeting in _by_setting(items).values():
        low = max(meeting.lows, key=lambda item: item.demand.low or 0, default=None)
        high = min(meeting.highs, key=lambda item: item.demand.high or 0, default=None)
        if (
            low is not None
            and high is not None
            and low.demand.low is not None
            and high.demand.high is not None
            and low.demand.low > high.demand.high
        ):
            yield (low, high) if low.rule.number <= high.rule.number else (high, low)
        first = meeting.words[0] if meeting.words else None
        other = next((item for item in meeting.words if first and item.demand.exact != first.demand.exact), None)
        if first is not None and other is not None:
            yield first, other


def _by_setting(items: Iterable[ActionOnSetting]) -> dict[str, _Meeting]:
    meetings: dict[str, _Meeting] = {}
    for item in items:
        meeting = meetings.setdefault(item.setting.id, _Meeting([], [], []))
        if item.demand.low is not None:
            meeting.lows.append(item)
        if item.demand.high is not None:
            meeting.highs.append(item)
        if item.demand.exact is not None:
            meeting.words.append(item)
    return meetings


RULES = (
    LintRule(
        "R301",
        "error",
        "Every value lies inside the vocabulary's range",
        (
            "The vocabulary's range is a hard limit: a bound outside it can never be met, or never "
            "binds. Most often its unit is another one."
        ),
        "Check the number and its unit; 'profilesmith vocabulary SETTING' shows the range.",
        _vocabulary,
    ),
    LintRule(
        "R302",
        "error",
        "The bounds of a recipe can be met together",
        "Bounds that do not meet are a conflict for everybody, and nothing is written.",
        "Change one of the two, or give each a condition with when.",
        _contradictions,
    ),
)
