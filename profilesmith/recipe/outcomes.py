"""What the rules on a setting came to, remembered for the many derivations of one run.

A setting's outcome follows from its own entry, what the text says of it where it has none, and the values of the
settings that its rules look at. Profiles of one workshop say mostly the same, so most outcomes are known already.
"""

from collections.abc import Hashable, Mapping, Sequence
from fractions import Fraction

from profilesmith.facts.facts import Facts
from profilesmith.profile.profile import Entry, Profile
from profilesmith.recipe.constants import Constants
from profilesmith.recipe.order import Links, links, needs, working_order
from profilesmith.recipe.recipe import Recipe
from profilesmith.recipe.rule_on_setting import RuleOnSetting
from profilesmith.recipe.setting_work import WorkedOut
from profilesmith.recipe.tool import BORE
from profilesmith.vocabulary.setting import Value

MOST = 50_000


OutcomeKey = tuple[Hashable, ...]
"""All that an outcome follows from: the setting, its entry without its place in the text, the values that count."""


class Outcomes:
    """For one list of recipes with the same facts and answers: whoever keeps it takes care of that."""

    def __init__(self) -> None:
        self._known: dict[OutcomeKey, WorkedOut] = {}
        self._needs: dict[str, tuple[str, ...]] = {}
        self._orders: dict[Links, tuple[list[str], list[str]]] = {}
        self._constants: dict[tuple[Value, ...], Constants] = {}

    def order(self, base: Profile, recipes: Sequence[Recipe]) -> tuple[list[str], list[str]]:
        """The working order of the settings, which hangs on how those of a text hang together."""
        linked = links(base)
        if linked not in self._orders:
            self._orders[linked] = working_order(linked, recipes)
        return self._orders[linked]

    def constants(self, base: Profile, facts: Facts) -> Constants:
        """What rules come to in every profile whose text names the same bore: that is a fact where no file says one."""
        bore = base.values(BORE)
        if bore not in self._constants:
            self._constants[bore] = Constants(facts)
        return self._constants[bore]

    def seen(
        self,
        setting: str,
        rulings: Sequence[RuleOnSetting],
        base: Profile,
        before: "PlainValues",
        after: "PlainValues",
    ) -> OutcomeKey:
        """What the outcome of a setting will follow from. before, after: the base's values, and the derived ones as far
        as they are worked out.

        One flat tuple, quick to hash and one thing to the collector: how many items follow stands before each list.
        """
        if setting not in self._needs:
            named = {name for ruling in rulings for action in ruling.rule.actions for name in needs(action, setting)}
            self._needs[setting] = (BORE, *sorted(named))  # the bore answers conditions on the nozzle that is fitted
        entry, needed = base.entries.get(setting), self._needs[setting]
        if entry is None:
            key: list[Hashable] = [setting, None, base.addable.get(setting), base.absent.get(setting)]
        else:
            key = [setting, *before[setting], *numbers(entry.shares), len(entry.grids)]
            for step, zero, whole in entry.grids:
                key += (*step.as_integer_ratio(), *zero.as_integer_ratio(), whole)
            key += (entry.writable, entry.coupling, entry.relative_to, entry.held)
            if entry.relative_to:
                needed = (*needed, entry.relative_to)
            if entry.coupling:
                needed = (*needed, entry.coupling.switch)
        for name in needed:
            key += before[name]
            key += after[name]
        return tuple(key)

    def get(self, seen: OutcomeKey, entry: Entry | None) -> WorkedOut | None:
        """A known outcome, at the place where this text has the setting."""
        known = self._known.get(seen)
        if known is None or known.entry is None or entry is None:
            return known
        return WorkedOut(entry.holding(known.entry.values, known.entry.shares), known.rows, known.problems)

    def keep(self, seen: OutcomeKey, outcome: WorkedOut) -> None:
        if len(self._known) >= MOST:
            self._known.clear()
        self._known[seen] = outcome


class PlainValues(dict[str, tuple[Hashable, ...]]):
    """The values of some entries by their settings, as ``numbers`` has them, each made when it is first asked for.

    Who changes an entry takes it out.
    """

    def __init__(self, entries: Mapping[str, Entry]) -> None:
        super().__init__()
        self.entries = entries

    def __missing__(self, setting: str) -> tuple[Hashable, ...]:
        entry = self.entries.get(setting)
        values = self[setting] = _NONE if entry is None else numbers(entry.values)
        return values


_NONE: tuple[Hashable, ...] = (0,)


def numbers(values: Sequence[Value | None]) -> tuple[Hashable, ...]:
    """How many values there are, and they, with two whole numbers for a fraction, whose hash takes ten times as
    long.
    """
    flat: list[Hashable] = [len(values)]
    for value in values:
        if type(value) is Fraction:
            flat += value.as_integer_ratio()
        else:
            flat.append(value)
    return tuple(flat)
