"""As soft as asked, by numbers: a force per millimetre, or a rubber sheet; which thickness and faces give it."""

from collections.abc import Callable

from profilesmith.checks.amounts import bracket, few, mm, span_mm
from profilesmith.checks.bar import Bar, bar_of
from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import not_judged, not_said
from profilesmith.checks.materials import Modulus, modulus, modulus_of_hardness, spool_name
from profilesmith.checks.other_faces import THICKNESSES_MM, Kind, kinds_of
from profilesmith.checks.strip import bars, second_moment_per_width_mm3
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.judgement import Amount, Finding, Verdict
from profilesmith.physics.answer import Bracket
from profilesmith.physics.section import tip_stiffness_n_per_mm
from profilesmith.physics.stiffness_change import solid_thickness_ratio

LIKE, LIKE_TITLE = "softness-like", "As soft as the rubber sheet"
ASKED, ASKED_TITLE = "softness-asked", "As soft as asked"
ALIKE = 0.05  # less is not felt by hand (own threshold)
HALVINGS, CLOSE_MM = 10, 0.05  # of the table's span, to 0.003 mm; nearer ends are one
FACES = (1, 2, 3, 4)  # walls or closing layers
LIKE_SOURCE = "E t^3 of both sheets; the rubber's modulus after Gent 1958 from its hardness, good to a factor of two"
ASKED_SOURCE = "strip held at one end, pushed at the other: k = 3 E I / L^3 (handbook beam formula)"
SETTINGS = ("wall.count", "top.layers", "bottom.layers", "infill.density", "layer.height")


class Wanted(NamedTuple):
    """per_width: the bending stiffness over the width that was asked for [N mm]. name: what it is, after "as"."""

    check: str
    title: str
    per_width: Bracket
    name: str
    source: str
    rubber: Modulus | None = None
    sheet: float = 0.0


class Reached(NamedTuple):
    """With so many faces it may be reached from ``low`` to ``high`` mm; ``nearest`` is at the bracket's middle."""

    faces: int
    low: float
    nearest: float
    high: float


def check(case: Case) -> tuple[Finding, ...]:
    """None where nobody asked for a softness."""
    asked = wanted(case)
    if asked is None:
        return ()
    if isinstance(asked, Finding):
        return (asked,)
    own, thickness = modulus(case), case.quantity("part.thickness")
    if own is None:
        return (not_said(asked.check, asked.title, "how soft the filament is", ask("spool.hardness"), SETTINGS),)
    if thickness is None:
        return (not_said(asked.check, asked.title, "how thick the part is", ask("part.thickness"), SETTINGS),)
    held = bars(case, case.now, thickness)
    if isinstance(held, str):
        return (not_judged(asked.check, asked.title, f"the text does not tell {held}", settings=(held,)),)
    return (_finding(case, asked, own, held),)


def wanted(case: Case) -> Wanted | Finding | None:
    """What was asked for; a finding where half of it is not known. A force per millimetre goes before a sheet."""
    if case.quantity("part.softness") is not None:
        return _by_force(case, case.quantity("part.softness") or 0.0)
    hardness, sheet = case.hardness("part.like_hardness"), case.quantity("part.like_thickness")
    if hardness is None and sheet is None:
        return None
    if hardness is None or sheet is None:
        missing = "part.like_hardness" if hardness is None else "part.like_thickness"
        return not_judged(LIKE, LIKE_TITLE, "the rubber sheet is known by half only", ask(missing))
    rubber = modulus_of_hardness(hardness)
    if rubber is None:
        return not_judged(LIKE, LIKE_TITLE, "no law reaches that hardness", ask("part.like_hardness"))
    asked = Bracket(rubber.mpa.low * sheet**3 / 12, rubber.mpa.high * sheet**3 / 12)
    name = f"{mm(sheet)} of rubber of {few(float(hardness.number))} Shore {hardness.scale}"
    return Wanted(LIKE, LIKE_TITLE, asked, name, LIKE_SOURCE, rubber, sheet)


def _by_force(case: Case, force: float) -> Wanted | Finding:
    for fact in ("part.free_length", "part.width"):
        if not case.quantity(fact):
            return not_judged(ASKED, ASKED_TITLE, "the size of the strip that bends is not known", ask(fact), SETTINGS)
    length, width = case.quantity("part.free_length") or 0.0, case.quantity("part.width") or 0.0
    needed = force / tip_stiffness_n_per_mm(1.0, width, length)
    return Wanted(ASKED, ASKED_TITLE, Bracket(needed, needed), f"{few(force)} N/mm", ASKED_SOURCE)


def times(case: Case, held: list[Bar], own: Modulus, asked: Wanted) -> Bracket:
    """How many times as hard as asked the bars bend."""
    moment = second_moment_per_width_mm3(case, held)
    return Bracket(own.mpa.low * moment.low, own.mpa.high * moment.high).over(asked.per_width)


def reached(case: Case, kind: Kind, own: Modulus, asked: Wanted) -> list[Reached]:
    """For each number of faces the thicknesses whose bracket holds what was asked for."""
    ways = (_reached(case, kind, own, asked, faces) for faces in _tried(kind))
    return [way for way in ways if way is not None]


def _tried(kind: Kind) -> tuple[int, ...]:
    """Numbers of faces that come out closed: one wall may do, one closing layer does not."""
    return FACES if kind.pose.standing else FACES[1:]


def _reached(case: Case, kind: Kind, own: Modulus, asked: Wanted, faces: int) -> Reached | None:
    bar = bar_of(kind.faces(case.now, faces), THICKNESSES_MM[0], kind.pose)
    if not isinstance(bar, Bar):
        return None

    def at(thickness: float) -> Bracket:
        return times(case, [bar._replace(thickness=thickness)], own, asked)

    ends = THICKNESSES_MM[0], THICKNESSES_MM[-1]
    if at(ends[0]).low > 1 or at(ends[1]).high < 1:
        return None
    low, high = _first(lambda size: at(size).high >= 1), _first(lambda size: at(size).low > 1)
    return Reached(faces, low, _first(lambda size: at(size).low * at(size).high >= 1), high)


def _first(holds: Callable[[float], bool]) -> float:
    """The smallest thickness in the table's span from which something holds (it gets stiffer all the way)."""
    low, high = THICKNESSES_MM[0], THICKNESSES_MM[-1]
    if holds(low):
        return low
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if holds(middle) else (middle, high)
    return high


def _finding(case: Case, asked: Wanted, own: Modulus, held: list[Bar]) -> Finding:
    now, kinds = times(case, held, own, asked), kinds_of(case)
    met = now.low <= 1 + ALIKE and now.high >= 1 - ALIKE
    verdict: Verdict = "passed" if met else "note"
    text = f"It bends {bracket(now)} times as hard as {asked.name}."
    if asked.rubber is not None:
        solid = solid_thickness_ratio(asked.rubber.mpa, own.mpa)
        text += f" Printed solid in {spool_name(case)}, {bracket(solid, 'mm', asked.sheet)} would feel like it."
    if len(kinds) == 1:
        text += f" {_ways(reached(case, kinds[0], own, asked), kinds[0], now)}"
    return Finding(
        asked.check,
        verdict,
        asked.title,
        text,
        after=f"{bracket(now)} times",
        limit="1 times",
        source=f"{asked.source}; modulus of {spool_name(case)}: {own.source}",
        ask="" if len(kinds) == 1 else ask("part.orientation"),
        settings=SETTINGS,
        reason="as-soft-as-asked" if met else "harder-than-asked" if now.low > 1 else "softer-than-asked",
        amounts=(Amount("after", now.low, now.high),),
        misses_aim=case.derived is not None and not met,
    )


def _ways(found: list[Reached], kind: Kind, now: Bracket) -> str:
    """Which thickness and faces may give it, the nearest named."""
    span = f"{few(THICKNESSES_MM[0])} to {mm(THICKNESSES_MM[-1])}"
    if not found:
        off = "harder" if now.low > 1 else "softer"
        return f"Nothing of {span} with {_tried(kind)[0]} to {FACES[-1]} {kind.word} reaches it: all of it is {off}."
    return f"Of {span} it may be reached with {'; '.join(_way(way, kind) for way in found)}."


def _way(way: Reached, kind: Kind) -> str:
    word = kind.word.removesuffix("s") if way.faces == 1 else kind.word
    nearest, ends = mm(round(way.nearest, 1)), span_mm(round(way.low, 1), round(way.high, 1))
    return f"{way.faces} {word} and {nearest}" + (f" ({ends})" if way.high - way.low > CLOSE_MM else "")
