"""What holds up what hangs: the distance between support lines, and overhangs without support; and whether a soft part
comes off bed or raft whole, by common practice alone: no fact tells how smooth a bed is.
"""

import math

from profilesmith.checks.amounts import amount, choice, count, number, size, switch
from profilesmith.checks.beads import bead_width
from profilesmith.checks.case import Case, ask
from profilesmith.checks.materials import flexible, of_spool, spool_name
from profilesmith.ledger.judgement import Amount, Finding, Verdict
from profilesmith.physics.answer import Bracket
from profilesmith.physics.infill import density_at_spacing_share, line_spacing_mm
from profilesmith.physics.surface import angle_at_overlap_deg, overlap_share
from profilesmith.profile.profile import Profile

SPACING = "support-spacing"
# How far a fresh bead is laid across a gap without sagging: common practice, no source.
SOFT_MM, SOFT_MOST_MM, RIGID_MM = 2.0, 3.0, 6.0
SOURCE = (
    "distance = bead width / density (times 2 for a crossed grid): geometry; 2 mm for soft plastic: common "
    "practice, no source"
)
DIRECTIONS = {"lines": 1, "concentric": 1, "grid": 2, "triangles": 3}
SETTINGS = ("support.density", "support.contact_density", "support.contact_layers", "support.pattern", "bead.width")


def check_spacing(case: Case) -> tuple[Finding, ...]:
    """None where the text tells no density of supports; where supports are off, at most a note."""
    now = spacing_mm(case.now)
    if now is None:
        return ()
    soft = flexible(case)
    here = Amount("after", now.low, now.high, "mm")
    if soft is None and now.high > SOFT_MM:
        asked = ask("spool.material")
        return (
            Finding(SPACING, "not judged", reason="softness-not-said", amounts=(here,), ask=asked, settings=SETTINGS),
        )
    before = spacing_mm(case.base) if case.derived is not None else None
    verdict, reason = _reason(case, now, soft is not False)
    near = SOFT_MM if soft is not False else RIGID_MM
    return (
        Finding(
            SPACING,
            verdict,
            reason=reason,
            amounts=(
                *((Amount("before", before.low, before.high, "mm"),) if before else ()),
                here,
                *amount("most", near, "mm"),
                *amount("headroom", near - now.high if now.high < near else None, "mm"),
                *amount("crossed", now.high, "mm"),
                *amount("enough-density", math.ceil(_density(case, near) * 100 - 1e-9), "%"),
                *amount("contact-layers", count(case.now, "support.contact_layers")),
            ),
            source=SOURCE,
            settings=SETTINGS,
        ),
    )


def spacing_mm(profile: Profile) -> Bracket | None:
    """Distance between the lines that carry the face; a range where the pattern is not known."""
    density, width = _face_density(profile), size(profile, "bead.width")
    if density is None or width is None or density > 100:
        return None
    directions = DIRECTIONS.get(choice(profile, "support.pattern"))
    fewest, most = (directions, directions) if directions else (1, 2)
    return Bracket(line_spacing_mm(width, density / 100, fewest), line_spacing_mm(width, density / 100, most))


def _face_density(profile: Profile) -> float | None:
    """The density of what lies right below the face: of the contact layers, where there are any that tell theirs."""
    contact = size(profile, "support.contact_density") if count(profile, "support.contact_layers") else None
    return contact or size(profile, "support.density")


def _reason(case: Case, now: Bracket, soft: bool) -> tuple[Verdict, str]:
    near, far = (SOFT_MM, SOFT_MOST_MM) if soft else (RIGID_MM, RIGID_MM)
    if now.high <= near:
        return "passed", "lines-close"
    if now.low <= near:
        return "note", "lines-close-if-parallel"
    apart = "soft-sags-between-lines" if soft else "sags-between-lines"
    helped = now.low > far and count(case.now, "support.contact_layers")
    if switch(case.now, "support.on") is False:
        return "note", f"{apart}-contact-off" if helped else f"{apart}-off"
    return ("note", f"{apart}-contact") if helped else ("caution" if now.low > far else "note", apart)


def _density(case: Case, distance: float) -> float:
    """The share at which the lines stand this far apart."""
    now, density, width = spacing_mm(case.now), _face_density(case.now), case.size("bead.width")
    assert now is not None  # it was judged
    assert density is not None
    assert width is not None
    lines = max(1, round(now.low * density / 100 / width))
    return density_at_spacing_share(width, distance, lines)


OVERHANG = "overhang"
LEAST, HANGING = 0.25, 0.02  # of the bead's width; common practice and own threshold, no source
OVERHANG_SOURCE = (
    "overlap = 1 - layer height x tan(lean) / bead width: geometry; at least a quarter: common practice, no source"
)
OVERHANG_SETTINGS = ("support.overhang_angle", "layer.height", "bead.width")


def check_overhang(case: Case) -> tuple[Finding, ...]:
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
            OVERHANG,
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
            source=OVERHANG_SOURCE,
            settings=OVERHANG_SETTINGS,
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


RELEASE = "release"
RELEASE_SOURCE = "common practice, no source"
RELEASE_SETTINGS = ("raft.on",)


def check_release(case: Case) -> tuple[Finding, ...]:
    """None for a rigid spool, or where the text does not tell whether there is a raft."""
    raft = switch(case.now, "raft.on")
    if not flexible(case) or raft is None:
        return ()
    if raft:
        return (Finding(RELEASE, "passed", reason="on-a-raft", source=RELEASE_SOURCE, settings=RELEASE_SETTINGS),)
    plastic = of_spool(case)
    rubbery = plastic is not None and plastic.rubbery
    return (
        Finding(
            RELEASE,
            "note",
            reason="on-a-bare-bed",
            names=(spool_name(case),),
            source=RELEASE_SOURCE,
            settings=RELEASE_SETTINGS,
            unsuited=rubbery and case.derived is not None,
        ),
    )
