"""Closing layers: thick enough to close the part, and not thinner than before. Layers are counted exactly."""

from fractions import Fraction

from profilesmith.checks.amounts import amount, count
from profilesmith.checks.case import Case
from profilesmith.ledger.judgement import Finding, Verdict
from profilesmith.physics.skins import layers_for_thickness, skin_thickness
from profilesmith.profile.profile import Profile

# Thinner skins often show holes or the pattern below: common practice, no source.
THIN = Fraction("0.6")
# A skin that lost this share of its thickness is no longer the one that worked (own threshold).
LOST = Fraction(1, 10)
LEFT = 1 - LOST
SOURCE = "thickness = layers times layer height, counted exactly; at least 0.6 mm: common practice, no source"
SIDES = ("top", "bottom")


def check(case: Case) -> tuple[Finding, ...]:
    """One finding for the closing layers above, one for those below."""
    findings = (_judge(case, side) for side in SIDES)
    return tuple(finding for finding in findings if finding is not None)


def thickness(profile: Profile, side: str) -> Fraction | None:
    """Thickness of the closing layers of a side [mm]; the first layer is one of those below."""
    layers, height = count(profile, f"{side}.layers"), profile.number("layer.height")
    if layers is None or height is None or height <= 0:
        return None
    return skin_thickness(layers, height, _first(profile) if side == "bottom" else None)


def _first(profile: Profile) -> Fraction | None:
    first = profile.number("first_layer.height")
    return first if first is not None and first > 0 else None


def _judge(case: Case, side: str) -> Finding | None:
    now = thickness(case.now, side)
    if now is None:
        return None
    before = thickness(case.base, side) if case.derived is not None else None
    lost = bool(before and now < before * LEFT)
    thin = now < THIN
    verdict: Verdict = "caution" if lost and thin else "note" if lost or thin else "passed"
    state = "none" if now == 0 else "thin" if thin else "closed"
    return Finding(
        f"skin-{side}",
        verdict,
        reason=f"skin-{state}-thinner" if lost else f"skin-{state}",
        amounts=(
            *amount("before", None if before is None else float(before), "mm"),
            *amount("after", float(now), "mm"),
            *amount("least", float(THIN), "mm"),
            *amount("headroom", float(now - THIN) if now > THIN else None, "mm"),
            *amount("layers", count(case.now, f"{side}.layers")),
            *amount("layers-to-close", _needed(case.now, side, THIN) if thin and now else None),
            *amount("layers-as-before", _needed(case.now, side, before) if lost and before else None),
        ),
        source=SOURCE,
        settings=(f"{side}.layers", "layer.height"),
    )


def _needed(profile: Profile, side: str, wanted: Fraction) -> int:
    height = profile.number("layer.height")
    assert height is not None  # there is a thickness
    return layers_for_thickness(wanted, height, _first(profile) if side == "bottom" else None)
