"""What was found, as data: rules with their evidence, tweaks of single machines, and what no rule explains."""

from collections import Counter
from fractions import Fraction
from typing import Literal

from profilesmith.distil.bits import CLOSE
from profilesmith.distil.law import Law
from profilesmith.distil.sample import NotSeen, Sample, Seen
from profilesmith.distil.ways import ShareWay
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.recipe.recipe import FactRef, FlowRef
from profilesmith.vocabulary.setting import Value


class RuleDoubt(NamedTuple):
    """Why a rule is not sure.

    met, aside, against: of one that one pair or one machine changed alone, how many other pairs met it already, lack
    its condition, depart from it. laws: the names of those that the pairs cannot tell apart.
    """

    code: Literal["one pair", "a guess", "by one pair", "by one machine", "rivals"]
    met: int = 0
    aside: int = 0
    against: int = 0
    laws: tuple[str, ...] = ()


class SettlingPair(NamedTuple):
    """The further pair that would tell laws apart.

    operand: what must have another value there, None where the base must. base: such a value; None for any other one.
    side: where it lies of ``end``, beyond which the laws part; "" where that says nothing. outcomes: what each law,
    by its operation's name, makes of it.
    """

    operand: FactRef | FlowRef | None = None
    base: Fraction | None = None
    side: Literal["below", "above", ""] = ""
    end: Fraction = Fraction(0)
    outcomes: tuple[tuple[str, Value | None], ...] = ()


class DistilledRule(NamedTuple):
    """A rule. named, excluded: as the recipe writes them; settings: those that were seen.

    bits: of the rule; without: without a rule. rivals: laws that explain the same values as well.
    doubts: why it is not sure; settle: which further pair would tell, None where nothing is in doubt.
    aside: the pairs in which its condition is not met.
    """

    named: tuple[str, ...]
    excluded: tuple[str, ...]
    settings: tuple[str, ...]
    law: Law
    seen: tuple[Seen, ...]
    exceptions: tuple[Seen, ...]
    bits: float
    without: float
    rivals: tuple[Law, ...] = ()
    doubts: tuple[RuleDoubt, ...] = ()
    settle: SettlingPair | None = None
    aside: frozenset[int] = frozenset()

    @property
    def explained(self) -> tuple[Seen, ...]:
        """The changes that it gives."""
        missed = set(self.exceptions)
        return tuple(item for item in self.seen if item.touched and item not in missed)

    @property
    def changed(self) -> set[int]:
        """The pairs in which it changed something."""
        return {item.pair for item in self.explained}

    @property
    def longer(self) -> bool:
        """Whether it says no less than a plain list of the values does."""
        return self.bits > self.without - CLOSE

    @property
    def contradicted(self) -> bool:
        """Whether its own pairs speak as much against it as for it. A pair speaks for what most of its values say."""
        against = Counter(item.pair for item in self.exceptions)
        speak = Counter(item.pair for item in self.explained)
        votes = [
            (speak[number] > against[number]) - (against[number] >= speak[number]) for number in {**speak, **against}
        ]
        return self.longer or sum(votes) <= 0

    @property
    def met(self) -> set[int]:
        """The pairs that met it already."""
        return (
            {item.pair for item in self.seen}
            - {item.pair for item in self.seen if item.touched}
            - {item.pair for item in self.exceptions}
            - self.aside
        )


class Tweak(NamedTuple):
    """What only one machine shows. rule: the finding that it departs from, or None; fits: whether both can hold
    together.
    """

    machine: str
    setting: str
    law: Law
    seen: tuple[Seen, ...]
    reason: Literal["departs", "others left it", "others lack it"]
    fits: bool = True


class NoRule(NamedTuple):
    """A setting that changed and that no rule explains shorter than a list of its values. seen: the changes."""

    setting: str
    seen: tuple[Seen, ...]
    reason: Literal["one pair alone", "one pair", "as many exceptions", "each its way"]


class Distilled(NamedTuple):
    """All findings. ways: what shares did, by machine. not_seen: differences from which nothing can be learnt."""

    samples: tuple[Sample, ...]
    findings: tuple[DistilledRule, ...]
    tweaks: tuple[Tweak, ...]
    no_rule: tuple[NoRule, ...]
    not_seen: tuple[NotSeen, ...]
    ways: tuple[ShareWay, ...] = ()
