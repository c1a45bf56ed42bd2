"""What was found: rules with their evidence, tweaks of single machines, and what no rule explains."""

from typing import NamedTuple

from profilesmith.distil.law import Law
from profilesmith.distil.sample import NotSeen, Sample, Seen


class Finding(NamedTuple):
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
    def changed(self) -> set[int]:
        """The pairs in which it changed something."""
        return {item.pair for item in self.seen if item.touched} - {item.pair for item in self.exceptions}

    @property
    def met(self) -> set[int]:
        """The pairs that met it already."""
        return {item.pair for item in self.seen} - {item.pair for item in self.seen if item.touched} - {item.pair for item in self.exceptions} - self.aside

    def evidence(self) -> str:
        """``3 pairs changed, 1 already met it, 0 exceptions``."""
        changed, exceptions = len(self.changed), len(self.exceptions)
        pairs, plural = "pair" if changed == 1 else "pairs", "exception" if exceptions == 1 else "exceptions"
        aside = f", {len(self.aside)} without its condition" if self.aside else ""
        return f"{changed} {pairs} changed, {len(self.met)} already met it{aside}, {exceptions} {plural}"


class Tweak(NamedTuple):
    """What only one machine shows. rule: the finding that it departs from, or None; fits: whether both can hold together."""

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
    """All findings. unread: differences from which nothing can be learnt."""

    samples: tuple[Sample, ...]
    findings: tuple[Finding, ...]
    tweaks: tuple[Tweak, ...]
    no_rule: tuple[NoRule, ...]
    not_seen: tuple[NotSeen, ...]
