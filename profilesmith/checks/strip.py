"""Stiffness of a strip of the part in real numbers: its second moment with walls, closing layers and filling."""

from profilesmith.checks.bar import Bar, bar_of, poses, widths
from profilesmith.checks.case import Case
from profilesmith.physics.answer import Bracket, spanning
from profilesmith.physics.section import bending_bracket, solid_second_moment_mm4
from profilesmith.profile.profile import Profile


def bars(case: Case, profile: Profile, thickness: float) -> list[Bar] | str:
    """The bar in each pose that the facts leave open, or the setting that is missing for one."""
    bars = []
    for pose in poses(case):
        bar = bar_of(profile, thickness, pose)
        if isinstance(bar, str):
            return bar
        bars.append(bar)
    return bars


def second_moment_per_width_mm3(case: Case, held: list[Bar]) -> Bracket:
    """Second moment over width of all the bars that the part may be [mm3]."""
    width, form = case.quantity("part.width"), case.word("part.form")
    return spanning(_per_width(bar, strip) for bar in held for strip in widths(bar.thickness, (bar.wall,), width, form))


def _per_width(bar: Bar, width: float) -> Bracket:
    section = bar.section(width)
    share, solid = bending_bracket(section, bar.core_or_nothing()), solid_second_moment_mm4(section) / width
    return Bracket(share.low * solid, share.high * solid)
