"""Softness over thickness: what another thickness, and more or fewer walls or closing layers, do to its bending.

All in per cent of today's part in one and the same plastic, so that no modulus is needed: it cancels.
"""

from fractions import Fraction
from typing import Any, NamedTuple

from profilesmith.checks.bar import WIDE, Bar, Pose, bar_of, poses
from profilesmith.checks.case import Case, count
from profilesmith.physics.answer import Bracket, spanning
from profilesmith.physics.section import bending_ratio
from profilesmith.profile.profile import Profile

Figure = dict[str, Any]
THICKNESSES_MM = (1.2, 1.6, 2.0, 2.4, 2.8, 3.2, 3.6, 4.0)
ALIKE = 0.02  # ends of a bracket that look like one line
DIGITS = 3


class Kind(NamedTuple):
    """A pose with what its faces are: walls where it stands, closing layers where it lies."""

    pose: Pose
    setting: str
    word: str

    def faces(self, profile: Profile, faces: int) -> Profile:
        """The profile with so many of them."""
        names = (self.setting,) if self.pose.standing else ("top.layers", "bottom.layers")
        changed = {name: profile.entries[name]._replace(values=(Fraction(faces),)) for name in names}
        return profile._replace(entries={**profile.entries, **changed})


def softness_figure(case: Case) -> Figure | None:
    """The curves of two or three numbers of faces around today's, with both sides marked."""
    thickness, kinds = case.quantity("part.thickness"), _kinds(case)
    if thickness is None or len(kinds) != 1:
        return None  # lying and standing in one picture would tell nothing
    kind, base = kinds[0], bar_of(case.base, thickness, kinds[0].pose)
    if not isinstance(base, Bar):
        return None
    series = [item for faces in _faces(case, kind) for item in _curves(case, kind, base, faces)]
    marks = [mark for role, side in case.sides if (mark := _mark(case, kind, base, side, role)) is not None]
    if not series:
        return None
    return {
        "id": "softness",
        "title": "Softness over thickness",
        "kind": "line",
        "unit": "%",
        "series": series,
        "limits": [{"name": "the part as it was", "value": 100}],
        "marks": marks,
        "note": (
            "Bending stiffness in one and the same plastic, against the part as it was; another "
            "plastic moves all alike."
        ),
        "x_name": "thickness",
        "x_unit": "mm",
        "y_name": "bending stiffness",
    }


def _kinds(case: Case) -> list[Kind]:
    words = {True: ("wall.count", "walls"), False: ("top.layers", "closing layers")}
    return [Kind(pose, *words[pose.standing]) for pose in poses(case)]


def _faces(case: Case, kind: Kind) -> list[int]:
    """Numbers of faces that are drawn: both sides' own, and two."""
    own = [found for _, side in case.sides if (found := count(side, kind.setting)) is not None]
    return sorted({2, *own} - {0})[:3]


def _curves(case: Case, kind: Kind, base: Bar, faces: int) -> list[Figure]:
    bar = bar_of(kind.faces(case.now, faces), base.thickness, kind.pose)
    if not isinstance(bar, Bar):
        return []
    lefts = [_left(case, base, bar._replace(thickness=at)) for at in THICKNESSES_MM]
    points = [(at, left) for at, left in zip(THICKNESSES_MM, lefts, strict=True) if left is not None]
    name = f"{faces} {kind.word}"
    low = [[at, _rounded(left.low)] for at, left in points]
    high = [[at, _rounded(left.high)] for at, left in points]
    if not points or all(left.high <= left.low * (1 + ALIKE) for _, left in points):
        return [{"name": name, "points": high}] if points else []
    return [{"name": f"{name}, at least", "points": low}, {"name": f"{name}, at most", "points": high}]


def _mark(case: Case, kind: Kind, base: Bar, side: Profile, role: str) -> Figure | None:
    bar = bar_of(side, base.thickness, kind.pose)
    left = _left(case, base, bar) if isinstance(bar, Bar) else None
    if left is None:
        return None
    return {"name": role if case.derived else "now", "role": role, "x": base.thickness, "y": _rounded(left.high)}


def _left(case: Case, base: Bar, bar: Bar) -> Bracket | None:
    """Bending stiffness of a bar over that of the base, both with one filling; of the part's width, or a wide strip."""
    width = case.quantity("part.width") or base.thickness * WIDE
    old, new, cubed = base.section(width), bar.section(width), (bar.thickness / base.thickness) ** 3
    core = spanning((base.core_or_nothing(), bar.core_or_nothing()))
    if bending_ratio(old, core.low) <= 0:
        return None
    ends = [cubed * bending_ratio(new, end) / bending_ratio(old, end) for end in (core.low, core.high)]
    return Bracket(min(ends), max(ends))


def _rounded(share: float) -> float:
    return float(f"{share * 100:.{DIGITS}g}")
