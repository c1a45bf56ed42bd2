"""Overhang: how much of a bead rests on the layer below on the steepest face that gets no support."""

from profilesmith.checks.beads import bead_width
from profilesmith.checks.case import Case
from profilesmith.checks.finding import amount
from profilesmith.checks.plain_numbers import number, size, switch
from profilesmith.ledger.judgement import Finding
from profilesmith.physics.overhang import angle_at_overlap_deg, overlap_share
from profilesmith.profile.profile import Profile

CHECK = "overhang"
LEAST, HANGING = 0.25, 0.02  # of the bead's width; common practice and own threshold, no source
SOURCE = "overlap = 1 - layer height x tan(lean) / bead width: geometry; at least a quarter: common practice, no source"
SETTINGS = ("support.overhang_angle", "layer.height", "bead.width")


def check(case: Case) -> tuple[Finding, ...]:
    """None where the text has no angle from which support is made, or supports are off.

    An alarm only where it got worse: what a profile has always done, its owner knows better than a rule of thumb.
    """
    now = _overlap(case.now)
    if now is None or switch(case.now, "support.on") is False:
        return ()
    before = _overlap(case.base) if case.derived is not None else None
    worse = now <= HANGING and before is not None and now < before
    low = now < LEAST
    return (
        Finding(
            CHECK,
            "passed" if not low else "caution" if worse else "note",
            reason="overhang-droops" if low else "overhang-rests",
            amounts=(
                *amount("before", None if before is None else before * 100, "%"),
                *amount("after", now * 100, "%"),
                *amount("least", LEAST * 100, "%"),
                *amount("headroom", None if now <= LEAST else (now - LEAST) * 100, "%"),
                *amount("lean", case.number("support.overhang_angle") or 0.0, "°"),
                *amount("better-lean", _angle(case) if low else None, "°"),
            ),
            source=SOURCE,
            settings=SETTINGS,
        ),
    )


def _overlap(profile: Profile) -> float | None:
    angle, height = number(profile, "support.overhang_angle"), size(profile, "layer.height")
    width = bead_width(profile, "outer_wall")
    if angle is None or height is None or width is None or not 0 <= angle <= 90:
        return None
    return overlap_share(width, height, angle)


def _angle(case: Case) -> float:
    height, width = case.size("layer.height"), bead_width(case.now, "outer_wall")
    assert height is not None  # there is an overlap
    assert width is not None
    return int(angle_at_overlap_deg(width, height, LEAST))
