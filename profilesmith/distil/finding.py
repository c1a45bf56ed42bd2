"""What was found: rules with their evidence, tweaks of single machines, and what no rule explains."""

from collections import Counter

from profilesmith.distil.bits import CLOSE
from profilesmith.distil.law import Law
from profilesmith.distil.sample import NotSeen, Sample, Seen
from profilesmith.distil.ways import ShareWay
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.words import plural


class DistilledRule(NamedTuple):
    """A rule. named, excluded: as the recipe writes them; settings: those that were seen.

    bits: of the rule; without: without a rule. rivals: laws that explain the same values as well.
    doubts: why it is not sure, "" for none; settle: which further pair would tell.
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
    doubts: tuple[str, ...] = ()
    settle: str = ""
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

    def evidence(self) -> str:
        """``3 pairs changed, 1 already met it, 0 exceptions``."""
        exceptions = len(self.exceptions)
        # Of a group one pair shows several values: without their number the exceptions would look too many.
        values = f" ({len(self.explained)} values)" if exceptions and len(self.explained) > len(self.changed) else ""
        aside = f", {len(self.aside)} without its condition" if self.aside else ""
        spread = ", each to a place of its own inside" if self.law.spread else ""
        return (
            f"{plural(len(self.changed), 'pair')} changed{values}{spread}, {len(self.met)} already met "
            f"it{aside}, {plural(exceptions, 'exception')}"
        )


class Tweak(NamedTuple):
    """What only one machine shows. rule: the finding that it departs from, or None; fits: whether both can hold
    together.
    """

    machine: str
    setting: str
    law: Law
    seen: tuple[Seen, ...]
    reason: str
    fits: bool = True


class NoRule(NamedTuple):
    """A setting that changed and that no rule explains shorter than a list of its values."""

    setting: str
    seen: tuple[Seen, ...]
    reason: str


class Distilled(NamedTuple):
    """All findings. ways: what shares did, by machine. not_seen: differences from which nothing can be learnt."""

    samples: tuple[Sample, ...]
    findings: tuple[DistilledRule, ...]
    tweaks: tuple[Tweak, ...]
    no_rule: tuple[NoRule, ...]
    not_seen: tuple[NotSeen, ...]
    ways: tuple[ShareWay, ...] = ()
