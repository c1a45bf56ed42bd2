"""Outcome: what the file says of one setting; JudgedSetting: that, held against the ledger."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.motion.doubt import Doubt
from profilesmith.motion.figures import Figures, PathSpot
from profilesmith.vocabulary.setting import Value

Verdict = Literal["passed", "found", "not judged"]
Seen = float | str | bool


class Outcome(NamedTuple):
    """One judgement. code: the reason, for wording; seen: what the file does, in canonical units; data: more
    numbers.
    """

    verdict: Verdict
    code: str
    seen: tuple[Seen, ...] = ()
    spots: tuple[PathSpot, ...] = ()
    data: Mapping[str, float] = MappingProxyType({})


class JudgedSetting(NamedTuple):
    """A setting of the ledger. certainty: how much a motion file can say of it; changed: a rule changed it."""

    setting: str
    certainty: str
    promised: Value | None
    outcome: Outcome
    changed: bool = False
    doubts: tuple[Doubt, ...] = ()


class MotionCase(NamedTuple):
    """What a judge gets. promises: setting -> canonical value of the derived profile."""

    figures: Figures
    promises: Mapping[str, Value]
    filament_mm: float

    def size(self, setting: str) -> float | None:
        value = self.promises.get(setting)
        return None if value is None or isinstance(value, str | bool) else float(value)

    def switch(self, setting: str) -> bool | None:
        value = self.promises.get(setting)
        return value if isinstance(value, bool) else None


def not_judged(code: str, seen: tuple[Seen, ...] = (), **data: float) -> Outcome:
    return Outcome("not judged", code, seen, (), data)


def met(right: bool, seen: tuple[Seen, ...], code: str, spots: tuple[PathSpot, ...] = (), **data: float) -> Outcome:
    """Passed or found, by one test."""
    return Outcome("passed" if right else "found", f"{code}-met" if right else f"{code}-not-met", seen, spots, data)
