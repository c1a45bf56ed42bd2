"""What changed from one version of a recipe to another, as data. deepdiff compares what is matched.

Comes in: two recipes. Goes out: RecipeChanges. Words for it are made elsewhere.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import combinations
from typing import Any

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.recipe.recipe import Recipe, Rule
from profilesmith.revision.match_rules import Match, match_rules
from profilesmith.revision.meaning import recipe_data, rule_data


class RuleChange(NamedTuple):
    """A rule in both versions. parts: what of it changed: settings, bound, condition, why, source."""

    old: Rule
    new: Rule
    parts: frozenset[str]


class ItemChange(NamedTuple):
    """A line of the head, or of a question. old, new: texts or lists; None where it was or is not there."""

    name: str
    old: Any
    new: Any


class RecipeChanges(NamedTuple):
    """reordered: pairs of aims whose order turned round, and counts. moved: whether rules stand in another order at
    all.

    head, inputs: by name; examples_came, examples_went: how many.
    """

    old: Recipe
    new: Recipe
    came: tuple[Rule, ...] = ()
    went: tuple[Rule, ...] = ()
    changed: tuple[RuleChange, ...] = ()
    reordered: tuple[tuple[Match, Match], ...] = ()
    moved: bool = False
    head: tuple[ItemChange, ...] = ()
    inputs: tuple[ItemChange, ...] = ()
    examples_came: int = 0
    examples_went: int = 0

    @property
    def does(self) -> bool:
        """Whether the new version can do something else to a profile."""
        bounds = any(change.parts & {"settings", "bound", "condition"} for change in self.changed)
        return bool(bounds or self.came or self.went or self.reordered or self.inputs)

    @property
    def any(self) -> bool:
        """Whether there is something to be told: another order that does not count is nothing."""
        return bool(self.does or self.changed or self.head or self.examples_came or self.examples_went)


def recipe_changes(old: Recipe, new: Recipe) -> RecipeChanges:
    """Everything that differs but the version and the order of rules, where that does not count."""
    before = [(rule, rule_data(rule, old.inputs)) for rule in old.rules]
    after = [(rule, rule_data(rule, new.inputs)) for rule in new.rules]
    matched = match_rules(before, after)
    was, is_now = ({rule.number: data for rule, data in side} for side in (before, after))
    parts = _parts(matched.both, was, is_now)
    old_rest, new_rest = recipe_data(old), recipe_data(new)
    numbers = [match.old.number for match in matched.both]
    examples = [Counter(repr(item) for item in rest["examples"]) for rest in (old_rest, new_rest)]
    return RecipeChanges(
        old=old,
        new=new,
        came=matched.came,
        went=matched.went,
        changed=tuple(RuleChange(*match, parts[match]) for match in matched.both if parts[match]),
        reordered=_reordered(matched.both),
        moved=numbers != sorted(numbers),
        head=_items(old_rest["head"], new_rest["head"]),
        inputs=_items(old_rest["inputs"], new_rest["inputs"]),
        examples_came=(examples[1] - examples[0]).total(),
        examples_went=(examples[0] - examples[1]).total(),
    )


def _parts(
    matches: Sequence[Match], was: Mapping[int, Mapping[str, Any]], is_now: Mapping[int, Mapping[str, Any]]
) -> dict[Match, frozenset[str]]:
    """For each matched rule which parts of it differ."""
    differ = {
        number: match for number, match in enumerate(matches) if was[match.old.number] != is_now[match.new.number]
    }
    parts: dict[int, set[str]] = {number: set() for number in differ}
    if differ:
        from deepdiff import DeepDiff  # 70 to 90 ms: only where something differs

        before = {number: was[match.old.number] for number, match in differ.items()}
        after = {number: is_now[match.new.number] for number, match in differ.items()}
        for differences in DeepDiff(before, after, view="tree").values():
            for difference in differences:
                number, part = difference.path(output_format="list")[:2]
                parts[number].add(part)
    return {match: frozenset(parts.get(number, ())) for number, match in enumerate(matches)}


def _items(old: Mapping[str, Any], new: Mapping[str, Any]) -> tuple[ItemChange, ...]:
    names = dict.fromkeys((*old, *new))
    return tuple(ItemChange(name, old.get(name), new.get(name)) for name in names if old.get(name) != new.get(name))


def _reordered(matches: Sequence[Match]) -> tuple[tuple[Match, Match], ...]:
    """Aims on one setting of which another one is the later now, and so the one that counts."""
    aims = [match for match in matches if any(action.does.is_aim for action in match.new.actions)]
    return tuple(
        (one, other)
        for one, other in combinations(aims, 2)
        if one.old.number > other.old.number and not set(one.new.settings).isdisjoint(other.new.settings)
    )
