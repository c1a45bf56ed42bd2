"""In which unit a text writes its bare numbers: what it states, what it did elsewhere, and one unit for all speeds."""

from collections import defaultdict
from math import exp, log

from profilesmith.suggest.ideas import Schema
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.values import SHARES, USUAL, Fit, Way

WRITTEN = 2.0  # a unit behind the value that measures this kind
NOT_NAMED = -2.8  # any unit but the one that the key or the remark behind the value names
SHARED, NOT_SHARED = 3.0, -2.0  # what a remark that speaks of shares says for a share, and against a plain value
TRUST = 1.5  # keys' worth of what is usual elsewhere
# Of speeds and accelerations a text writes nearly all in one unit, or as shares of one that is so written. How many are
# shares is learnt from the text; where a remark says that they are, most are.
STRAY, SHARES_MOSTLY, FEWEST_SHARES, MOST_SHARES = 0.04, 0.24, 0.06, 0.8
ONE_UNIT = frozenset({"speed", "acceleration"})


class UnitHabits:
    """How likely each way of reading a bare number is; by document first, then in all."""

    def __init__(self, stated: dict[str, float]) -> None:
        self.counts: dict[tuple[int, str], dict[Way, float]] = defaultdict(lambda: defaultdict(float))
        self.stated = stated
        self.cache: dict[tuple[int, str, Way], float] = {}
        self.seen: dict[str, list[tuple[float, list[Fit]]]] = defaultdict(list)
        self.main: dict[str, str] = {}
        self.shares: dict[str, float] = {}
        self.priors: dict[tuple[int, bool, bool, tuple[str, ...], str, str], Priors] = {}

    def add(self, slot: Slot, schema: Schema, way: Way, ways: list[Fit], weight: float) -> None:
        """Count one slot as so likely a setting, read in one way."""
        if slot.unit is not None:
            return
        family = schema.family
        self.counts[slot.document, family][way] += weight
        self.counts[-1, family][way] += weight
        if family in ONE_UNIT and not slot.share and not slot.units:
            self.seen[family].append((weight, ways))

    def settle(self) -> None:
        """Find the one unit of each family that has one."""
        for family, seen in self.seen.items():
            if sum(weight for weight, _ in seen) >= 2:
                units = list(USUAL[family])
                main = self.main[family] = max(units, key=lambda unit: self._likelihood(family, unit, seen))
                self.shares[family] = self._share_of(family, main, seen)

    def _likelihood(self, family: str, unit: str, seen: list[tuple[float, list[Fit]]]) -> float:
        total = log(USUAL[family][unit]) + self.stated.get(unit, 0.0)
        for weight, ways in seen:
            total += weight * max(fit.gain + log(self._one_unit(family, fit.way, unit)) for fit in ways)
        return total

    def _share_of(self, family: str, main: str, seen: list[tuple[float, list[Fit]]]) -> float:
        """How large a part of the family's values reads better as a share."""
        if f"share:{family}" in self.stated:
            return MOST_SHARES
        shared = plain = 0.0
        for weight, ways in seen:
            best = max(ways, key=lambda fit: fit.gain + log(self._one_unit(family, fit.way, main)))
            shared, plain = shared + weight * best.way.share, plain + weight * (not best.way.share)
        return max(FEWEST_SHARES, min(MOST_SHARES, (0.5 + shared) / (2.0 + shared + plain)))

    def _one_unit(self, family: str, way: Way, main: str) -> float:
        """How likely a way is in a text whose unit is known."""
        usual = MOST_SHARES if f"share:{family}" in self.stated else SHARES_MOSTLY
        shares = self.shares.get(family, usual)
        if way.share:
            return shares * (0.75 if way.unit == "%" else 0.25)
        return (
            1.0 - shares - STRAY
            if way.unit == main
            else STRAY * USUAL[family].get(way.unit, 0.01) * exp(self.stated.get(way.unit, 0.0))
        )

    def prior(self, slot: Slot, schema: Schema, way: Way) -> float:
        """The logarithm of how likely a unit is for a bare number; a written one is worth something by itself."""
        kind = schema.setting.kind
        if slot.unit is not None:
            return WRITTEN if not way.share else 1.0
        if kind in ("switch", "choice", "count"):
            return 0.0
        if slot.share:
            return (SHARED if way.share else NOT_SHARED) + self._habit(slot.document, schema, way)
        named = [name for name in slot.units if name in USUAL[kind]]
        if named:
            return (
                0.0 if way.unit in named and not way.share else NOT_NAMED + 0.3 * log(USUAL[kind].get(way.unit, 0.01))
            )
        return self._habit(slot.document, schema, way)

    def of_slot(self, slot: Slot, schema: Schema) -> "Priors":
        """The same for all ways, each reckoned once for all slots and settings that it is alike for."""
        alike = (slot.document, slot.unit is None, slot.share, slot.units, schema.family, schema.setting.kind)
        priors = self.priors.get(alike)
        if priors is None:
            priors = self.priors[alike] = Priors(self, slot, schema)
        return priors

    def _habit(self, document: int, schema: Schema, way: Way) -> float:
        family = schema.family
        habit = self.cache.get((document, family, way))
        if habit is None:
            main = self.main.get(family)
            if main is not None:
                habit = log(self._one_unit(family, way, main))
            else:
                habit = self._count(document, family, schema.setting.kind, way)
            self.cache[document, family, way] = habit
        return habit

    def _count(self, document: int, family: str, kind: str, way: Way) -> float:
        shared = f"share:{kind}" in self.stated
        if way.share:
            usual = SHARES[way.unit] * (exp(4.0) if shared else 1.0)
        else:  # a unit named beside such a remark is that of the value which the shares are of
            usual = USUAL[kind].get(way.unit, 0.01) * (1.0 if shared else exp(self.stated.get(way.unit, 0.0)))
        here, everywhere = self.counts[document, family], self.counts[-1, family]
        amount = usual * TRUST + here.get(way, 0.0) + 0.3 * everywhere.get(way, 0.0)
        total = TRUST + sum(here.values()) + 0.3 * sum(everywhere.values())
        return log(amount / total)


class Priors(dict[Way, float]):
    """How likely each way is of reading a slot's bare number as a setting; reckoned when it is first asked for."""

    def __init__(self, habits: UnitHabits, slot: Slot, schema: Schema) -> None:
        self.habits, self.slot, self.schema = habits, slot, schema

    def __missing__(self, way: Way) -> float:
        prior = self[way] = self.habits.prior(self.slot, self.schema, way)
        return prior
