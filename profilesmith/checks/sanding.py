"""Sanding: what is left of the wall and of the closing layers, and whether the layer lines can go at all."""

from profilesmith.checks.amounts import mm
from profilesmith.checks.beads import bead_width, wall_mm
from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import amount, not_judged, not_said
from profilesmith.checks.materials import flexible, of_spool
from profilesmith.checks.skins import thickness
from profilesmith.foundation.words import plural
from profilesmith.ledger.judgement import Finding, Verdict
from profilesmith.physics.finish import (
    beads_for_thickness,
    stair_cusp_mm,
    thickness_left_mm,
    wall_valley_mm,
)
from profilesmith.profile.profile import Profile

WALL, WALL_TITLE = "sanding-wall", "Wall left after sanding"
SKIN, SKIN_TITLE = "sanding-skin", "Closing layers left after sanding"
LINES, LINES_TITLE = "sanding-lines", "Sanding and layer lines"
SOURCE = "wall of n beads = w + (n - 1) s, minus what is sanded off one face: geometry"
LINES_SOURCE = "valleys between layers of an upright wall are up to half a layer deep: geometry of round bead edges"
SANDABLE_SHORE_A, SANDABLE_MPA = 90, 50.0  # softer plastic smears: common practice; the modulus is our own guess at it
SMEARS = "Plastic so soft smears rather than sands: lay filler or primer on it, and sand that."
STICKY = "Heat guns and solvents do not smooth it: it turns sticky and warps."  # common practice, no source
SMEARS_SOURCE = "smears below about 90 Shore A: common practice, no source"
SETTINGS = ("wall.count", "bead.width", "layer.height")
LEAVES = {"passed": "wall-left", "caution": "wall-too-thin", "stop": "wall-sanded-through"}


def check(case: Case) -> tuple[Finding, ...]:
    """None for a part that is not sanded (an allowance of 0)."""
    off = case.quantity("part.sanding_allowance")
    if off is None:
        return (not_said(WALL, WALL_TITLE, "how much is sanded off", ask("part.sanding_allowance"), SETTINGS),)
    if off == 0:
        return ()
    found = (_wall(case, off), _skin(case, off), _lines(case, off))
    soft = smears(case)
    return tuple(_of_soft(finding) if soft else finding for finding in found if finding is not None)


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
        text=f"{finding.text} {SMEARS}",
        source=f"{finding.source}; {SMEARS_SOURCE}",
        unsuited=finding.check == WALL,
    )


def _wall(case: Case, off: float) -> Finding:
    wall = wall_mm(case.now)
    if not wall:
        return not_judged(
            WALL, WALL_TITLE, "the text does not tell a wall's count, bead width and layer height", settings=SETTINGS
        )
    left, least = thickness_left_mm(wall, off), case.quantity("part.minimum_wall")
    before = wall_mm(case.base) if case.derived is not None else None
    text = f"Of a wall of {mm(wall)}, sanding {mm(off)} off leaves {mm(left)}."
    verdict: Verdict = "passed"
    limit = least if least is not None else bead_width(case.now, "outer_wall") or 0.0
    if left == 0:
        verdict, text = (
            "stop",
            (
                f"Sanding {mm(off)} off goes through the whole wall of {mm(wall)}. Lay "
                f"{plural(_walls(case, limit + off), 'wall')} or sand less."
            ),
        )
    elif left < limit:
        verdict, text = "caution", f"{text} {plural(_walls(case, limit + off), 'wall')} would leave {mm(limit)}."
    return Finding(
        WALL,
        verdict,
        WALL_TITLE,
        text,
        before=mm(thickness_left_mm(before, off)) if before else "",
        after=mm(left),
        limit=f"at least {mm(limit)}" + ("" if least is not None else " (one bead)"),
        headroom=mm(left - limit) if left > limit else "",
        source=SOURCE,
        settings=SETTINGS,
        reason=LEAVES[verdict],
        amounts=(*amount("wall", wall, "mm"), *amount("after", left, "mm"), *amount("least", limit, "mm")),
    )


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
    finding = Finding(
        SKIN,
        "passed",
        SKIN_TITLE,
        f"Of closing layers of {mm(now)}, sanding {mm(off)} off leaves {mm(left)}.",
        before=mm(thickness_left_mm(before, off)) if before else "",
        after=mm(left),
        limit="more than one layer",
        source="layers times layer height, minus what is sanded off",
        settings=("top.layers", "bottom.layers", "layer.height"),
        reason="skin-left",
        amounts=(*amount("skin", now, "mm"), *amount("after", left, "mm")),
    )
    if left == 0:
        text = (
            f"Sanding {mm(off)} off a flat face goes through all closing layers ({mm(now)}). Lay more of them or "
            "sand less."
        )
        return finding._replace(verdict="stop", text=text, reason="skin-sanded-through")
    if left <= (case.size("layer.height") or 0.0):
        return finding._replace(
            verdict="caution",
            text=f"{finding.text} The paper soon reaches the filling: lay more closing layers.",
            reason="skin-too-thin",
        )
    return finding


def thinnest(profile: Profile) -> float | None:
    found = [float(held) for side in ("top", "bottom") if (held := thickness(profile, side))]
    return min(found, default=None)


def _lines(case: Case, off: float) -> Finding | None:
    height = case.size("layer.height")
    if height is None:
        return None
    valley, before = wall_valley_mm(height), case.before("layer.height")
    cusp = stair_cusp_mm(height, 45)
    slope = "" if cusp <= off else f" Steps on a slope of 45° are {mm(cusp)} deep, which it does not reach."
    finding = Finding(
        LINES,
        "passed",
        LINES_TITLE,
        (
            f"Lines between layers of an upright wall are up to {mm(valley)} deep; the allowance "
            f"reaches their bottom.{slope}"
        ),
        before=mm(before / 2) if before else "",
        after=mm(valley),
        limit=f"at most {mm(off)}",
        headroom=mm(off - valley) if off > valley else "",
        source=LINES_SOURCE,
        settings=("layer.height",),
        reason="lines-reached",
        amounts=(*amount("after", valley, "mm"), *amount("most", off, "mm"), *amount("slope-steps", cusp, "mm")),
    )
    if flexible(case):
        finding = finding._replace(text=f"{finding.text} {STICKY}", source=f"{LINES_SOURCE}; heat: common practice")
    if valley <= off:
        return finding
    text = (
        f"Lines between layers of an upright wall are up to {mm(valley)} deep: {mm(off)} of sanding does not reach "
        "their bottom, so fill them or lay thinner layers."
    )
    text = f"{text} {STICKY}" if flexible(case) else text
    return finding._replace(verdict="note", text=text, reason="lines-too-deep")
