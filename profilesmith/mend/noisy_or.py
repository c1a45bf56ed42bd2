"""What a set of matters would do to a print, by all that is known of causes: each trouble stays away with the product
of the chances that each matter leaves it alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import log
from operator import mul

from profilesmith.mend.troubles import Knowledge
from profilesmith.mend.world import LEAK, SIZES, Lever, Matter, PrintState, links, priors, shown_by, strength

SHARE_OF_SIZE = dict(SIZES)


class World:
    """The knowledge as the belief works with it: which troubles each lever causes, for each state of a setting."""

    def __init__(self, known: Knowledge, left_out: frozenset[tuple[str, int]] = frozenset()) -> None:
        self.known = known
        self.names = list(known.troubles)
        self.links = links(known, left_out)
        self.signs = shown_by(known)
        self.priors = priors(known)
        self._quiet: dict[tuple[Matter, float], tuple[float, ...]] = {}
        self._odds: dict[Matter, float] = {}

    def odds(self, matter: Matter) -> float:
        """The logarithm of the odds that a matter is one, before anything is seen."""
        if matter not in self._odds:
            share = self.priors[matter.lever] * (1.0 if matter.lever.do else SHARE_OF_SIZE[matter.steps])
            self._odds[matter] = log(share / (1 - share))
        return self._odds[matter]

    def quiet(self, matter: Matter, done: float) -> tuple[float, ...]:
        """For each trouble the chance that a matter leaves it alone. done: steps that its setting was moved; 1 for a
        doing done.
        """
        key = matter, done
        known = self._quiet.get(key)
        if known is None:
            known = self._quiet[key] = tuple(self._alone(matter, done, name) for name in self.names)
        return known

    def _alone(self, matter: Matter, done: float, name: str) -> float:
        lever = matter.lever
        if lever.do:
            return 1 - (0.0 if done else self.links[lever].get(name, 0.0))
        need = lever.sign * matter.steps - done
        side = Lever(setting=lever.setting, sign=1 if need > 0 else -1)
        return 1 - self.links.get(side, {}).get(name, 0.0) * strength(
            abs(need), past=need * lever.sign * matter.steps <= 0
        )

    def done(self, lever: Lever, state: PrintState) -> float:
        return float(lever.do in state.done) if lever.do else state.moved.get(lever.setting, 0.0)

    def away(self, matters: Sequence[Matter], state: PrintState) -> list[float]:
        """For each trouble the chance that it stays away."""
        return Made(self, state).away(matters)


class Made:
    """A state to which many sets of matters are held: what is the same for all of them is worked out once."""

    def __init__(self, world: World, state: PrintState) -> None:
        self._world, self._state = world, state
        self._quiet: dict[Matter, tuple[float, ...]] = {}
        self._moved: dict[tuple[str, ...], list[float]] = {}

    def away(self, matters: Sequence[Matter]) -> list[float]:
        """For each trouble the chance that it stays away."""
        moved = self._state.moved
        column = self._others(tuple([matter.lever.setting for matter in matters if matter.lever.setting in moved]))
        for matter in matters:
            quiet = self._quiet.get(matter)
            if quiet is None:
                quiet = self._quiet[matter] = self._world.quiet(matter, self._world.done(matter.lever, self._state))
            column = list(map(mul, column, quiet))
        return column

    def _others(self, named: tuple[str, ...]) -> list[float]:
        """The same of the settings that were moved and were not the matter: they stand wrong the other way."""
        column = self._moved.get(named)
        if column is None:
            column = [1 - LEAK] * len(self._world.names)
            for name, steps in self._state.moved.items():
                if name not in named:
                    quiet = self._world.quiet(Matter(Lever(setting=name, sign=1), 0), steps)
                    column = list(map(mul, column, quiet))
            self._moved[named] = column
        return column
