"""Which rule of an old version is which of the new one: by settings, operation and condition, never by number."""

from collections import defaultdict
from collections.abc import Callable, Hashable, Mapping, Sequence
from typing import Any

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.recipe.recipe import Rule

Known = tuple[Rule, Mapping[str, Any]]
"""A rule, and all of it as data."""


class Match(NamedTuple):
    """The same rule in both versions."""

    old: Rule
    new: Rule


class Matched(NamedTuple):
    """Every rule of both versions is in one of these."""

    both: tuple[Match, ...]
    went: tuple[Rule, ...]
    came: tuple[Rule, ...]


def match_rules(old: Sequence[Known], new: Sequence[Known]) -> Matched:
    """What is alike in most is matched first; of equals the earlier with the earlier. Nearly linear in rules."""
    both: list[Match] = []
    for likeness in (_all, _asks, _operation, _bound):
        old, new, matches = _by(likeness, old, new)
        both += matches
    for alike in (_same_end, _overlap):
        old, new, matches = _loosely(alike, old, new)
        both += matches
    both.sort(key=lambda match: match.new.number)
    return Matched(tuple(both), tuple(rule for rule, _ in old), tuple(rule for rule, _ in new))


def _all(known: Known) -> Hashable:
    return repr(known[1])


def _asks(known: Known) -> Hashable:
    """But for its reason and source."""
    return repr((known[1]["settings"], known[1]["bound"], sorted(known[1]["condition"].items())))


def _operation(known: Known) -> Hashable:
    return repr((known[1]["settings"], sorted(known[1]["bound"]), sorted(known[1]["condition"].items())))


def _bound(known: Known) -> Hashable:
    """The same of the same settings, under another condition."""
    return repr((known[1]["settings"], known[1]["bound"]))


def _by(
    likeness: Callable[[Known], Hashable], old: Sequence[Known], new: Sequence[Known]
) -> tuple[list[Known], list[Known], list[Match]]:
    """(what is left of old, of new, the matches)"""
    waiting: dict[Hashable, list[Known]] = defaultdict(list)
    for known in reversed(old):
        waiting[likeness(known)].append(known)
    matches, left = [], []
    for known in new:
        alike = waiting.get(likeness(known))
        if alike:
            matches.append(Match(alike.pop()[0], known[0]))
        else:
            left.append(known)
    taken = {match.old.number for match in matches}
    return [known for known in old if known[0].number not in taken], left, matches


def _loosely(
    alike: Callable[[Known, Known], float], old: Sequence[Known], new: Sequence[Known]
) -> tuple[list[Known], list[Known], list[Match]]:
    """The likest of what is left, as far as it is like at all."""
    near = (
        sorted(
            (-share, one[0].number, other[0].number, one, other)
            for one in old
            for other in new
            if (share := alike(one, other)) > 0
        )
        if old and new
        else []
    )
    gone: set[int] = set()
    here: set[int] = set()
    matches = []
    for _, first, second, one, other in near:
        if first not in gone and second not in here:
            gone.add(first)
            here.add(second)
            matches.append(Match(one[0], other[0]))
    left = [known for known in old if known[0].number not in gone]
    return left, [known for known in new if known[0].number not in here], matches


def _same_end(one: Known, other: Known) -> float:
    """A cap that became a window still bounds from above: the same settings and condition, and an end in common."""
    if one[1]["settings"] != other[1]["settings"] or one[1]["condition"] != other[1]["condition"]:
        return 0
    ends, others = ({field for action in rule.actions for field in action.does.asks} for rule, _ in (one, other))
    return len(ends & others)


def _overlap(one: Known, other: Known) -> float:
    """A rule on more or fewer settings: the same operation and condition, and half of the settings in common."""
    if sorted(one[1]["bound"]) != sorted(other[1]["bound"]) or one[1]["condition"] != other[1]["condition"]:
        return 0
    settings, others = set(one[0].settings), set(other[0].settings)
    share = len(settings & others) / max(1, len(settings | others))
    return share + (one[1]["bound"] == other[1]["bound"]) if share >= 0.5 else 0
