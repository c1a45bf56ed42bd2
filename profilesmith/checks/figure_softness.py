"""Softness over thickness: what another thickness, and more or fewer walls or closing layers, do to its bending.

All in per cent of today's part in one and the same plastic, so that no modulus is needed: it cancels.
"""

from collections.abc import Callable
from typing import Any

from profilesmith.checks.amounts import count
from profilesmith.checks.bar import WIDE, Bar, bar_of, pose_code
from profilesmith.checks.case import Case
from profilesmith.checks.materials import modulus
from profilesmith.checks.softness import second_moment_per_width_mm3
from profilesmith.checks.wanted import THICKNESSES_MM, Kind, Wanted, kinds_of, reached, wanted
from profilesmith.physics.answer import Bracket, spanning
from profilesmith.physics.section import bending_ratios
from profilesmith.profile.profile import Profile

Figure = dict[str, Any]
ALIKE = 0.02  # ends of a bracket that look like one line
DIGITS = 3
SHOWN = (0.001, 5.0)  # shares of the part as it was that still fit into the picture


def softness_figure(case: Case) -> Figure | None:
    """The curves of two or three numbers of faces around today's, with both sides marked."""
    thickness, kinds = case.quantity("part.thickness"), kinds_of(case)
    if thickness is None or len(kinds) != 1:
        return None  # lying and standing in one picture would tell nothing
    kind, base = kinds[0], bar_of(case.base, thickness, kinds[0].pose)
    if not isinstance(base, Bar):
        return None
    series = [item for faces in _faces(case, kind) for item in _curves(case, kind, base, faces)]
    marks = [mark for role, side in case.sides if (mark := _mark(case, kind, base, side, role)) is not None]
    if not series:
        return None
    limits, nearest = _asked(case, kind, base)
    return {
        "id": "softness",
        "kind": "line",
        "unit": "%",
        "series": series,
        "limits": [{"name": ("as-it-was",), "value": 100}, *limits],
        "marks": [*marks, *nearest],
        "x_unit": "mm",
    }


def _faces(case: Case, kind: Kind) -> list[int]:
    """Numbers of faces that are drawn: both sides' own, and two."""
    own = [layers for _, side in case.sides if (layers := count(side, kind.setting)) is not None]
    return sorted({2, *own} - {0})[:3]


def _curves(case: Case, kind: Kind, base: Bar, faces: int) -> list[Figure]:
    bar = bar_of(kind.faces(case.now, faces), base.thickness, kind.pose)
    if not isinstance(bar, Bar):
        return []
    left_of = _softened(case, base)
    lefts = [left_of(Bar(at, *bar[1:])) for at in THICKNESSES_MM]
    points = [(at, left) for at, left in zip(THICKNESSES_MM, lefts, strict=True) if left is not None]
    name = _counted(kind, faces)
    low = [[at, _rounded(left.low)] for at, left in points]
    high = [[at, _rounded(left.high)] for at, left in points]
    if not points or all(left.high <= left.low * (1 + ALIKE) for _, left in points):
        return [{"name": (name,), "points": high}] if points else []
    return [{"name": (name, "at-least"), "points": low}, {"name": (name, "at-most"), "points": high}]


def _counted(kind: Kind, faces: int) -> tuple[int, str]:
    """So many faces of a pose."""
    return faces, pose_code(kind.pose)


def _asked(case: Case, kind: Kind, base: Bar) -> tuple[list[Figure], list[Figure]]:
    """Lines at what was asked for, where they lie in the picture, and marks at what comes nearest."""
    asked, own = wanted(case), modulus(case)
    if not isinstance(asked, Wanted) or own is None:
        return [], []
    ends = asked.per_width.over(_per_width(case, base, own.mpa))
    named = (("at-least", ends.low), ("at-most", ends.high))
    limits = [
        {"name": ("asked", end), "value": _rounded(share)} for end, share in named if SHOWN[0] <= share <= SHOWN[1]
    ]
    marks = []
    for way in reached(case, kind, own, asked):
        bar = bar_of(kind.faces(case.now, way.faces), way.nearest, kind.pose)
        left = _left(case, base, bar) if isinstance(bar, Bar) else None
        if left is not None:
            name = ("asked", _counted(kind, way.faces))
            marks.append({"name": name, "x": round(way.nearest, 2), "y": _rounded(left.high)})
    return limits, marks


def _per_width(case: Case, bar: Bar, mpa: Bracket) -> Bracket:
    moment = second_moment_per_width_mm3(case, [bar])
    return Bracket(mpa.low * moment.low, mpa.high * moment.high)


def _mark(case: Case, kind: Kind, base: Bar, side: Profile, role: str) -> Figure | None:
    bar = bar_of(side, base.thickness, kind.pose)
    left = _left(case, base, bar) if isinstance(bar, Bar) else None
    if left is None:
        return None
    return {"name": (role if case.derived else "now",), "role": role, "x": base.thickness, "y": _rounded(left.high)}


def _left(case: Case, base: Bar, bar: Bar) -> Bracket | None:
    """Bending stiffness of one bar over that of the base."""
    return _softened(case, base)(bar)


def _softened(case: Case, base: Bar) -> Callable[[Bar], Bracket | None]:
    """Bending stiffness of bars over that of the base, both with one filling; of the part's width, or a wide strip."""
    width = case.quantity("part.width") or base.thickness * WIDE
    old, filling = base.section(width), base.core_or_nothing()

    def left(bar: Bar) -> Bracket | None:
        cubed, core = (bar.thickness / base.thickness) ** 3, spanning((filling, bar.core_or_nothing()))
        least, most = bending_ratios(old, core)
        if least <= 0:
            return None
        low, high = bending_ratios(bar.section(width), core)
        ends = cubed * low / least, cubed * high / most
        return Bracket(min(ends), max(ends))

    return left


def _rounded(share: float) -> float:
    return float(f"{share * 100:.{DIGITS}g}")
