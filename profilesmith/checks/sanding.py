"""Sanding: what is left of the wall and of the closing layers, and whether the layer lines can go at all."""

from profilesmith.checks.amounts import amount
from profilesmith.checks.beads import bead_width, wall_mm
from profilesmith.checks.case import Case, ask
from profilesmith.checks.materials import flexible, of_spool
from profilesmith.checks.skins import thickness
from profilesmith.ledger.judgement import Amount, Finding, Verdict
from profilesmith.physics.surface import (
    beads_for_thickness,
    stair_cusp_mm,
    thickness_left_mm,
    wall_valley_mm,
)
from profilesmith.profile.profile import Profile

WALL, SKIN, LINES = "sanding-wall", "sanding-skin", "sanding-lines"
SOURCE = "wall of n beads = w + (n - 1) s, minus what is sanded off one face: geometry"
LINES_SOURCE = "valleys between layers of an upright wall are up to half a layer deep: geometry of round bead edges"
SANDABLE_SHORE_A, SANDABLE_MPA = 90, 50.0  # softer plastic smears: common practice; the modulus is our own guess at it
SMEARS_SOURCE = "smears below about 90 Shore A: common practice, no source"
SETTINGS = ("wall.count", "bead.width", "layer.height")


def check(case: Case) -> tuple[Finding, ...]:
    """None for a part that is not sanded (an allowance of 0)."""
    off = case.quantity("part.sanding_allowance")
    if off is None:
        asked = ask("part.sanding_allowance")
        return (Finding(WALL, "not judged", reason="allowance-not-said", ask=asked, settings=SETTINGS),)
    if off == 0:
        return ()
    findings = (_wall(case, off), _skin(case, off), _lines(case, off))
    soft = smears(case)
    return tuple(_of_soft(finding) if soft else finding for finding in findings if finding is not None)


def smears(case: Case) -> bool:
    """Whether the plastic is too soft for paper: below 90 Shore A, or one of whose kind nobody sands."""
    hardness, plastic = case.hardness(), of_spool(case)
    if hardness is not None:
        return hardness.scale == "A" and hardness.number < SANDABLE_SHORE_A
    return plastic is not None and plastic.rubbery and plastic.ranges["modulus"].high < SANDABLE_MPA


def _of_soft(finding: Finding) -> Finding:
    """Geometry alone does not pass it."""
    if finding.verdict not in ("passed", "note"):
        return finding
    return finding._replace(
        verdict="note",
        also=(*finding.also, "smears"),
        source=f"{finding.source}; {SMEARS_SOURCE}",
        unsuited=finding.check == WALL,
    )


def _wall(case: Case, off: float) -> Finding:
    wall = wall_mm(case.now)
    if not wall:
        return Finding(WALL, "not judged", reason="wall-not-told", settings=SETTINGS)
    left, asked = thickness_left_mm(wall, off), case.quantity("part.minimum_wall")
    before = wall_mm(case.base) if case.derived is not None else None
    least = asked if asked is not None else bead_width(case.now, "outer_wall") or 0.0
    verdict, reason = _leaves(left, least)
    return Finding(
        WALL,
        verdict,
        reason=reason,
        also=() if asked is not None else ("least-is-one-bead",),
        amounts=(
            *amount("before", thickness_left_mm(before, off) if before else None, "mm"),
            *amount("after", left, "mm"),
            *amount("least", least, "mm"),
            *amount("headroom", left - least if left > least else None, "mm"),
            *amount("wall", wall, "mm"),
            *amount("sanded", off, "mm"),
            *amount("walls-needed", _walls(case, least + off) if left < least or not left else None),
        ),
        source=SOURCE,
        settings=SETTINGS,
    )


def _leaves(left: float, least: float) -> tuple[Verdict, str]:
    if left == 0:
        return "stop", "wall-sanded-through"
    return ("caution", "wall-too-thin") if left < least else ("passed", "wall-left")


def _walls(case: Case, wanted: float) -> int:
    width, height = case.size("bead.width") or bead_width(case.now, "outer_wall"), case.size("layer.height")
    assert width is not None  # there is a wall
    assert height is not None
    outer = bead_width(case.now, "outer_wall") or width
    return beads_for_thickness(max(wanted - (outer - width), width), width, height)


def _skin(case: Case, off: float) -> Finding | None:
    """The thinner of the closing layers."""
    now = thinnest(case.now)
    if not now:
        return None
    left = thickness_left_mm(now, off)
    before = thinnest(case.base) if case.derived is not None else None
    verdict, reason = _opens(left, case.size("layer.height") or 0.0)
    return Finding(
        SKIN,
        verdict,
        reason=reason,
        amounts=(
            *amount("before", thickness_left_mm(before, off) if before else None, "mm"),
            *amount("after", left, "mm"),
            *amount("skin", now, "mm"),
            *amount("sanded", off, "mm"),
        ),
        source="layers times layer height, minus what is sanded off",
        settings=("top.layers", "bottom.layers", "layer.height"),
    )


def _opens(left: float, layer: float) -> tuple[Verdict, str]:
    if left == 0:
        return "stop", "skin-sanded-through"
    return ("caution", "skin-too-thin") if left <= layer else ("passed", "skin-left")


def thinnest(profile: Profile) -> float | None:
    skins = [float(held) for side in ("top", "bottom") if (held := thickness(profile, side))]
    return min(skins, default=None)


def _lines(case: Case, off: float) -> Finding | None:
    height = case.size("layer.height")
    if height is None:
        return None
    valley, before, soft = wall_valley_mm(height), case.before("layer.height"), flexible(case)
    cusp, reached = stair_cusp_mm(height, 45), valley <= off
    return Finding(
        LINES,
        "passed" if reached else "note",
        reason="lines-reached" if reached else "lines-too-deep",
        also=(*(("slope-not-reached",) if cusp > off else ()), *(("heat-does-not-smooth",) if soft else ())),
        amounts=(
            *amount("before", before / 2 if before else None, "mm"),
            *amount("after", valley, "mm"),
            *amount("most", off, "mm"),
            *((Amount("headroom", off - valley, off - valley, "mm"),) if off > valley else ()),
            *amount("slope-steps", cusp, "mm"),
        ),
        source=f"{LINES_SOURCE}; heat: common practice" if soft else LINES_SOURCE,
        settings=("layer.height",),
    )
