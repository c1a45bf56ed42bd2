"""A motion file's bytes to a Review: no paths, no files, so that every door can use it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from profilesmith.checks.case import Measure
from profilesmith.facts.facts import Facts
from profilesmith.foundation.binary_file import kind_of_file
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.ledger import Ledger
from profilesmith.ledger.read import Stored
from profilesmith.motion.clock import Pace
from profilesmith.motion.columns import best_columns
from profilesmith.motion.figures import PREPARATION, Figures
from profilesmith.motion.judging.judge import FILAMENT_MM, judge
from profilesmith.motion.judging.outcome import JudgedSetting
from profilesmith.motion.lines import LineTooLong
from profilesmith.motion.measure import measure
from profilesmith.motion.practice import Practice
from profilesmith.physics.answer import Bracket
from profilesmith.physics.bead import filament_area_mm2
from profilesmith.review.motion.totals import Spool, doubted
from profilesmith.vocabulary.setting import Value


class Known(NamedTuple):
    """All that is known beside the file. stored: the ledger's file, where there is one."""

    ledger: Ledger | None = None
    practice: Practice = Practice()
    facts: Facts = {}  # noqa: RUF012 - never written to
    stored: Stored | None = None

    def all_facts(self) -> Facts:
        """The ledger's, and over them those of the call."""
        return {**(self.ledger.facts if self.ledger else {}), **self.facts}

    def promises(self) -> dict[str, Value]:
        """Setting -> the value of the derived profile; of several tools the first."""
        entries = self.ledger.derived.entries if self.ledger else {}
        return {name: entry.values[0] for name, entry in entries.items() if entry.values}

    def quantity(self, fact: str) -> float | None:
        known = self.all_facts().get(fact)
        return float(known.value) if known is not None and not isinstance(known.value, str | tuple) else None


def read_figures(portions: Iterable[bytes], name: str, known: Known, pace: Pace | None = None) -> Figures:
    """Raises Refused for what is no motion file."""
    try:
        figures = measure(only_text(portions, name), known.practice, pace or pace_of(known), best_columns())
    except LineTooLong as error:
        raise Refused([_no_motion_file(name, "its lines do not end")]) from error
    refuse_other_text(figures, name)
    return figures


def refuse_other_text(figures: Figures, name: str) -> None:
    """Raises Refused where most lines are no words of a motion file."""
    strange = sum(
        doubt.times for doubt in figures.doubts if doubt.code in ("unread", "expression", "no-number", "more")
    )
    if 2 * strange > figures.lines:
        raise Refused([_no_motion_file(name, "most of its lines are no words of that kind")])


def only_text(portions: Iterable[bytes], name: str) -> Iterator[bytes]:
    """The portions of a file as they come. Raises Refused where its first bytes are those of a picture and the like."""
    for number, portion in enumerate(portions):
        kind = kind_of_file(portion) if number == 0 else ""
        if kind:
            raise Refused([_no_motion_file(name, f"it seems to be {kind}")])
        yield portion


def _no_motion_file(name: str, why: str) -> Problem:
    hint = "Name the file that your slicing software wrote for the printer."
    return Problem("no-motion-file", f"This is no motion file: {why}.", Place(name), hint)


def pace_of(known: Known) -> Pace:
    """The bracket of time, narrowed by what ledger and facts tell."""
    promises = known.promises()
    laying = _number(promises, "print.acceleration") or known.quantity("machine.acceleration")
    return Pace.of(laying, _number(promises, "travel.acceleration"))


def _number(promises: Mapping[str, Value], setting: str) -> float | None:
    value = promises.get(setting)
    return None if value is None or isinstance(value, str | bool) else float(value)


def spool_of(known: Known, figures: Figures | None = None) -> Spool:
    diameter = known.practice.filament_diameter_mm or (figures.diameter_told if figures else None)
    diameter = diameter or _number(known.promises(), "filament.diameter") or FILAMENT_MM
    return Spool(diameter, known.quantity("spool.density"), known.quantity("spool.left"), known.quantity("spool.price"))


def measured_by(figures: Figures, spool: Spool) -> Measure:
    """What the checks of a profile take in place of their brackets; what a doubt or a missing end touches is left
    out.
    """
    whole = figures.end_told
    timed = whole and not doubted(figures, "time", "speed", "path")
    fed = whole and not doubted(figures, "strand")
    fast = fed and not doubted(figures, "speed", "path")
    moving = figures.times.moving
    flows = [spot.value for kind, spot in figures.flows.items() if kind != PREPARATION]
    return Measure(
        hours=Bracket(moving.low / 3600, moving.high / 3600) if timed else None,
        grams=spool.grams(figures.fed) if fed else None,
        flow_mm3_s=max(flows) * filament_area_mm2(spool.diameter_mm) if fast and flows else None,
    )


def judge_motion(portions: Iterable[bytes], name: str, known: Known) -> tuple[Figures, tuple[JudgedSetting, ...]]:
    """A motion file's figures, and every promised setting judged. name: as the user knows it. Raises Refused."""
    figures = read_figures(portions, name, known)
    changed = frozenset(known.ledger.changed_settings()) if known.ledger else frozenset()
    return figures, judge(figures, known.promises(), spool_of(known, figures).diameter_mm, changed)
