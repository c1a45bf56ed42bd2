"""What a mend costs, by the checks: time, plastic, stiffness and surface before and after, and what it spoils or heals.

Both sides are judged, each as a profile alone, and the one against the other as a change. Numbers are brackets, as the
checks have them; what no check can tell is left out, and what stays as it is, too.
"""

from collections.abc import Callable, Iterable
from typing import Literal

from profilesmith.checks.bar import Bar, bar_of, poses
from profilesmith.checks.beads import LaidBeads
from profilesmith.checks.case import Case
from profilesmith.checks.face import RIGID, RUBBER, dent
from profilesmith.checks.facts_agree import sound_facts
from profilesmith.checks.judge import findings_of
from profilesmith.checks.materials import flexible, modulus
from profilesmith.checks.print_time import path_changes, time_bracket
from profilesmith.checks.softness import NEEDED, tip_stiffness
from profilesmith.checks.stiffness import SETTINGS, Pair, bending_change, mass_change, strip_widths
from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.judgement import ALARMS, Finding
from profilesmith.physics.answer import Bracket, spanning
from profilesmith.profile.profile import Profile

Figure = Literal["print_time", "plastic", "bending_stiffness", "tip_stiffness", "dent"]
SAME = Bracket(1.0, 1.0)
ALIKE = 0.005  # half a per cent is no difference


class Cost(NamedTuple):
    """One figure of the checks, before and after. unit: mm, N/mm, or "" where it is a share of what it was before.

    partly: of the time: the path itself changes too, and that is not counted.
    """

    figure: Figure
    unit: str
    before: Bracket
    after: Bracket
    partly: bool = False

    @property
    def stays(self) -> bool:
        ends = (self.before.low, self.after.low), (self.before.high, self.after.high)
        return all(abs(one - other) <= ALIKE * max(abs(one), abs(other)) for one, other in ends)


class Costs(NamedTuple):
    """figures: all that can be told, also where they stay. worse: alarms that come with it; better: alarms that it
    ends.

    asks: facts that would tell more, of what is moved.
    """

    figures: tuple[Cost, ...] = ()
    worse: tuple[Finding, ...] = ()
    better: tuple[Finding, ...] = ()
    asks: tuple[str, ...] = ()

    @property
    def longer(self) -> bool:
        """Whether the print may take longer: its moves, or the plastic that they lay."""
        return any(item.figure in ("print_time", "plastic") and item.after.high > 1 + ALIKE for item in self.figures)


def costs_of(base: Profile, now: Profile, after: Profile, facts: Facts) -> Costs:
    """What changes from now to after. base: what both were derived from; against it each of them is judged."""
    sound, _ = sound_facts(facts)
    laid = LaidBeads()
    case = Case(now, after, sound, laid)
    figures = tuple(figure for draw in FIGURES if (figure := draw(case)) is not None)
    before, later = (_alarms(findings_of(base, side, facts, laid)) for side in (now, after))
    worse = tuple(item for key, item in later.items() if key not in before or _rank(before[key]) > _rank(item))
    better = tuple(item for key, item in before.items() if key not in later)
    shapes = any(now.values(name) != after.values(name) for name in SETTINGS)
    return Costs(figures, worse, better, ("part.thickness",) if shapes and not case.quantity("part.thickness") else ())


def _rank(finding: Finding) -> int:
    """0 for the worst."""
    return ALARMS.index(finding.verdict)


def _alarms(findings: Iterable[Finding]) -> dict[tuple[object, ...], Finding]:
    return {(item.check, item.settings, item.tools): item for item in findings if item.verdict in ALARMS}


def _time(case: Case) -> Cost | None:
    ratio = time_bracket(case)
    return None if ratio is None else Cost("print_time", "", SAME, ratio, bool(path_changes(case)))


def _pairs(case: Case) -> list[Pair]:
    """The strip of the part as both sides print it; [] where text or facts do not tell."""
    thickness = case.quantity("part.thickness")
    if thickness is None or case.derived is None:
        return []
    strips = []
    for pose in poses(case):
        old, new = bar_of(case.base, thickness, pose), bar_of(case.derived, thickness, pose)
        if not isinstance(old, Bar) or not isinstance(new, Bar):
            return []
        strips.append(Pair(old, new, pose))
    return strips


def _plastic(case: Case) -> Cost | None:
    changes = [
        mass_change(strip.old, strip.new, width) for strip in _pairs(case) for width in strip_widths(case, strip)
    ]
    known = [mass for mass in changes if mass is not None]
    return Cost("plastic", "", SAME, spanning(known)) if known and len(known) == len(changes) else None


def _bending(case: Case) -> Cost | None:
    changes = [
        bending_change(strip.old, strip.new, width) for strip in _pairs(case) for width in strip_widths(case, strip)
    ]
    known = [change for change in changes if change is not None]
    return Cost("bending_stiffness", "", SAME, spanning(known)) if known and len(known) == len(changes) else None


def _tip(case: Case) -> Cost | None:
    """How hard it pushes back, where the size of the strip is known."""
    own = modulus(case)
    if own is None or case.derived is None or not all(case.quantity(fact) for fact in NEEDED):
        return None
    before, after = (tip_stiffness(case, side, own) for side in (case.base, case.derived))
    return _cost("tip_stiffness", "N/mm", before, after)


def _dent(case: Case) -> Cost | None:
    """How far a face gives between the lines of the filling, under a finger or sanding paper."""
    own = modulus(case)
    if own is None or case.derived is None:
        return None
    poisson = RUBBER if flexible(case) else RIGID
    before, after = (dent(case, side, own, poisson) for side in (case.base, case.derived))
    return _cost("dent", "mm", before, after)


def _cost(figure: Figure, unit: str, before: object, after: object) -> Cost | None:
    """None where a side could not be worked out."""
    return Cost(figure, unit, before, after) if isinstance(before, Bracket) and isinstance(after, Bracket) else None


FIGURES: tuple[Callable[[Case], Cost | None], ...] = (_time, _plastic, _bending, _tip, _dent)
