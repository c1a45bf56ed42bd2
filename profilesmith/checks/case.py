"""Case: the two profiles and the facts that the checks judge, seen as one tool's plain numbers.

What was measured on the print or in its motion file takes the place of brackets.
"""

from collections.abc import Callable, Iterator
from fractions import Fraction
from operator import is_
from typing import Any, Self, TypeVar

from profilesmith.checks.amounts import number, size
from profilesmith.checks.beads import LaidBeads
from profilesmith.facts.facts import Facts, Hardness, fact_kinds
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.judgement import Figures
from profilesmith.physics.answer import Bracket
from profilesmith.profile.profile import Entry, Profile


class Measure(NamedTuple):
    """One print. hours: on the machine; grams: of filament; flow_mm3_s: the most of any line. None: not known."""

    hours: Bracket | None = None
    grams: float | None = None
    flow_mm3_s: float | None = None


class Measured(NamedTuple):
    """The print as the old profile and as the new one make it.

    time_ratio: new over old on one machine, where it is known more narrowly than the two times tell it.
    figures: what was measured over the layers, to be drawn beside the checks' own.
    """

    before: Measure = Measure()
    after: Measure = Measure()
    time_ratio: Bracket | None = None
    figures: Figures = ()


UNKNOWN = Measured()


MOST_TOOLS = 16  # no machine has more; a longer list is a mistake, and must not become work


Answer = TypeVar("Answer")


class CaseAnswers:
    """What several checks ask of one case, worked out once. Whoever judges the case makes one for it."""

    def __init__(self) -> None:
        self._answers: dict[Callable[..., Any], tuple[tuple[object, ...], Any]] = {}

    def of(self, case: "Case", work: "Callable[[Case], Answer]") -> Answer:
        """What ``work`` makes of a case."""
        base, derived, facts, _, measured, _ = case
        asked = (base, derived, facts, measured)  # without itself: a circle would keep all of it for the collector
        known, answer = self._answers.get(work, ((), None))
        if not known or not all(map(is_, known, asked)):  # as where the case was made of another one, with its answers
            answer = work(case)
            self._answers[work] = asked, answer
        return answer  # type: ignore[no-any-return]


class Case(NamedTuple):
    """derived: None when the base is judged alone. facts: sound ones only (``sound_facts``). laid: the beads that were
    worked out so far; cases of the same profiles may share it.

    measured: of the print or its motion file; where something stands there, it goes before every bracket.
    known: what was worked out of it; None: nothing is kept.
    """

    base: Profile
    derived: Profile | None
    facts: Facts
    laid: LaidBeads
    measured: Measured = UNKNOWN
    known: CaseAnswers | None = None

    def once(self, work: "Callable[[Case], Answer]") -> Answer:
        """What some work makes of the case."""
        return work(self) if self.known is None else self.known.of(self, work)

    @property
    def now(self) -> Profile:
        """The profile that is going to be printed with."""
        return self.base if self.derived is None else self.derived

    @property
    def sides(self) -> tuple[tuple[str, Profile], ...]:
        """("before", base), ("after", derived); of a profile alone only ("after", it)."""
        return (("after", self.base),) if self.derived is None else (("before", self.base), ("after", self.derived))

    def number(self, setting: str) -> float | None:
        return number(self.now, setting)

    def before(self, setting: str) -> float | None:
        """The base's number; None when there is no derived profile to compare it with."""
        return None if self.derived is None else number(self.base, setting)

    def size(self, setting: str) -> float | None:
        """A number above zero; None for zero, as for what is not known."""
        return size(self.now, setting)

    def quantity(self, fact: str) -> float | None:
        if fact not in self.facts:
            return None
        value = self.facts[fact].value
        return float(value) if isinstance(value, Fraction) else None

    def window(self, fact: str) -> tuple[float, float] | None:
        value = self.facts[fact].value if fact in self.facts else None
        if not isinstance(value, tuple) or isinstance(value, Hardness):
            return None
        return float(value[0]), float(value[1])

    def word(self, fact: str) -> str:
        """A text or choice; "" when not known."""
        value = self.facts[fact].value if fact in self.facts else None
        return value if isinstance(value, str) else ""

    def hardness(self, fact: str = "spool.hardness") -> Hardness | None:
        value = self.facts[fact].value if fact in self.facts else None
        return value if isinstance(value, Hardness) else None

    def nozzle(self) -> float | None:
        """The nozzle's diameter, when text and facts do not contradict each other; None also when neither has it."""
        named, fitted = self.size("nozzle.diameter"), self.quantity("machine.nozzle_diameter")
        return None if self.nozzles_differ() else named or fitted

    def nozzles_differ(self) -> bool:
        """Whether the text is for another nozzle than the facts name."""
        named, fitted = self.size("nozzle.diameter"), self.quantity("machine.nozzle_diameter")
        return named is not None and fitted is not None and named != fitted

    def tools(self) -> Iterator[tuple[int, Self]]:
        """The case as each tool sees it, from 1; tools with the same settings once, and no more than MOST_TOOLS."""
        count = max((len(entry.values) for _, side in self.sides for entry in side.entries.values()), default=1)
        if count == 1:
            yield 1, self
            return
        seen = set()
        for tool in range(min(count, MOST_TOOLS)):
            base = _of_tool(self.base, tool)
            derived = None if self.derived is None else _of_tool(self.derived, tool)
            key = tuple(entry.values for side in (base, derived) if side for entry in side.entries.values())
            if key not in seen:
                seen.add(key)
                yield tool + 1, self._replace(base=base, derived=derived)


def ask(fact: str) -> str:
    """The question that would settle a fact."""
    return fact_kinds()[fact].ask


def _of_tool(profile: Profile, tool: int) -> Profile:
    entries: dict[str, Entry] = {
        name: entry
        if len(entry.values) == 1
        else entry._replace(values=(entry.values[min(tool, len(entry.values) - 1)],))
        for name, entry in profile.entries.items()
    }
    return profile._replace(entries=entries)
