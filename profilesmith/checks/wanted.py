"""How soft the part was asked to be, and which thickness and faces would make it so."""

from collections.abc import Callable
from fractions import Fraction

from profilesmith.checks.amounts import amount, between
from profilesmith.checks.bar import Bar, Pose, bar_of, pose_code, poses
from profilesmith.checks.case import Case, ask
from profilesmith.checks.materials import Modulus, modulus, modulus_of_hardness, spool_name
from profilesmith.checks.softness import bars, second_moment_per_width_mm3
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.judgement import Amount, Finding
from profilesmith.physics.answer import Bracket
from profilesmith.physics.section import solid_thickness_ratio, tip_stiffness_n_per_mm
from profilesmith.profile.profile import Profile

THICKNESSES_MM = (1.2, 1.6, 2.0, 2.4, 2.8, 3.2, 3.6, 4.0)


class Kind(NamedTuple):
    """A pose with what its faces are: walls where it stands, closing layers where it lies."""

    pose: Pose
    setting: str

    def faces(self, profile: Profile, faces: int) -> Profile:
        """The profile with so many of them, where it says how many it has."""
        names = (self.setting,) if self.pose.standing else ("top.layers", "bottom.layers")
        there = [profile.entries[name] for name in names if name in profile.entries]
        changed = {entry.setting: entry._replace(values=(Fraction(faces),)) for entry in there}
        return profile._replace(entries={**profile.entries, **changed})


def kinds_of(case: Case) -> list[Kind]:
    """One for each pose that the facts leave open."""
    return [Kind(pose, "wall.count" if pose.standing else "top.layers") for pose in poses(case)]


LIKE, ASKED = "softness-like", "softness-asked"
ALIKE = 0.05  # less is not felt by hand (own threshold)
HALVINGS = 10  # of the table's span, to 0.003 mm
FACES = (1, 2, 3, 4)  # walls or closing layers
LIKE_SOURCE = "E t^3 of both sheets; the rubber's modulus after Gent 1958 from its hardness, good to a factor of two"
ASKED_SOURCE = "strip held at one end, pushed at the other: k = 3 E I / L^3 (handbook beam formula)"
SETTINGS = ("wall.count", "top.layers", "bottom.layers", "infill.density", "layer.height")


class Wanted(NamedTuple):
    """per_width: the bending stiffness over the width that was asked for [N mm]. said: what was asked, as numbers."""

    check: str
    per_width: Bracket
    source: str
    said: tuple[Amount, ...]
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
        return (_not_judged(asked.check, "filament-softness-not-said", "spool.hardness"),)
    if thickness is None:
        return (_not_judged(asked.check, "thickness-not-said", "part.thickness"),)
    held = bars(case, case.now, thickness)
    if isinstance(held, str):
        return (Finding(asked.check, "not judged", reason="bar-not-told", settings=(held,)),)
    return (_finding(case, asked, own, held),)


def _not_judged(check: str, reason: str, fact: str) -> Finding:
    return Finding(check, "not judged", reason=reason, ask=ask(fact), settings=SETTINGS)


def wanted(case: Case) -> Wanted | Finding | None:
    """What was asked for; a finding where half of it is not known. A force per millimetre goes before a sheet."""
    if case.quantity("part.softness") is not None:
        return _by_force(case, case.quantity("part.softness") or 0.0)
    hardness, sheet = case.hardness("part.like_hardness"), case.quantity("part.like_thickness")
    if hardness is None and sheet is None:
        return None
    if hardness is None or sheet is None:
        missing = "part.like_hardness" if hardness is None else "part.like_thickness"
        return Finding(LIKE, "not judged", reason="sheet-known-by-half", ask=ask(missing))
    rubber = modulus_of_hardness(hardness)
    if rubber is None:
        return Finding(LIKE, "not judged", reason="no-law-reaches", ask=ask("part.like_hardness"))
    asked = Bracket(rubber.mpa.low * sheet**3 / 12, rubber.mpa.high * sheet**3 / 12)
    said = (*amount("sheet", sheet, "mm"), *amount("sheet-hardness", float(hardness.number), f"Shore {hardness.scale}"))
    return Wanted(LIKE, asked, LIKE_SOURCE, said, rubber, sheet)


def _by_force(case: Case, force: float) -> Wanted | Finding:
    for fact in ("part.free_length", "part.width"):
        if not case.quantity(fact):
            return _not_judged(ASKED, "strip-size-not-known", fact)
    length, width = case.quantity("part.free_length") or 0.0, case.quantity("part.width") or 0.0
    needed = force / tip_stiffness_n_per_mm(1.0, width, length)
    return Wanted(ASKED, Bracket(needed, needed), ASKED_SOURCE, amount("asked", force, "N/mm"))


def times(case: Case, held: list[Bar], own: Modulus, asked: Wanted) -> Bracket:
    """How many times as hard as asked the bars bend."""
    moment = second_moment_per_width_mm3(case, held)
    return Bracket(own.mpa.low * moment.low, own.mpa.high * moment.high).over(asked.per_width)


def reached(case: Case, kind: Kind, own: Modulus, asked: Wanted) -> list[Reached]:
    """For each number of faces the thicknesses whose bracket holds what was asked for."""
    ways = (_reached(case, kind, own, asked, faces) for faces in tried(kind.pose.standing))
    return [way for way in ways if way is not None]


def tried(standing: bool) -> tuple[int, ...]:
    """Numbers of faces that come out closed: one wall may do, one closing layer does not."""
    return FACES if standing else FACES[1:]


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
    solid = None if asked.rubber is None else solid_thickness_ratio(asked.rubber.mpa, own.mpa)
    return Finding(
        asked.check,
        "passed" if met else "note",
        reason="as-soft-as-asked" if met else "harder-than-asked" if now.low > 1 else "softer-than-asked",
        also=tuple(pose_code(kind.pose) for kind in kinds),
        names=(spool_name(case),),
        amounts=(
            *between("after", now),
            *asked.said,
            *between("solid", solid, "mm", asked.sheet),
            *(_ways(reached(case, kinds[0], own, asked)) if len(kinds) == 1 else ()),
        ),
        source=f"{asked.source}; modulus of {spool_name(case)}: {own.source}",
        ask="" if len(kinds) == 1 else ask("part.orientation"),
        settings=SETTINGS,
        misses_aim=case.derived is not None and not met,
    )


def _ways(reached: list[Reached]) -> tuple[Amount, ...]:
    """Thicknesses by the number of faces that they take: all of them, and the nearest."""
    return tuple(
        part
        for way in reached
        for part in (
            Amount(f"with-{way.faces}", way.low, way.high, "mm"),
            Amount(f"nearest-with-{way.faces}", way.nearest, way.nearest, "mm"),
        )
    )
