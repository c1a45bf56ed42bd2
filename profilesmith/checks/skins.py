"""Closing layers: thick enough to close the part, and not thinner than before. Layers are counted exactly."""

from fractions import Fraction

from profilesmith.checks.amounts import mm
from profilesmith.checks.case import Case, count
from profilesmith.checks.finding import worse
from profilesmith.foundation.words import plural
from profilesmith.ledger.judgement import Finding, Verdict
from profilesmith.physics.skins import layers_for_thickness, skin_thickness
from profilesmith.profile.profile import Profile

# Thinner skins often show holes or the pattern below: common practice, no source.
THIN = Fraction("0.6")
# A skin that lost this share of its thickness is no longer the one that worked (own threshold).
LOST = Fraction(1, 10)
SOURCE = "thickness = layers times layer height, counted exactly; at least 0.6 mm: common practice, no source"
SIDES = (("top", "Closing layers above"), ("bottom", "Closing layers below"))


def check(case: Case) -> tuple[Finding, ...]:
    """One finding for the closing layers above, one for those below."""
    found = (_judge(case, side, title) for side, title in SIDES)
    return tuple(finding for finding in found if finding is not None)


def thickness(profile: Profile, side: str) -> Fraction | None:
    """Thickness of the closing layers of a side [mm]; the first layer is one of those below."""
    layers, height = count(profile, f"{side}.layers"), profile.number("layer.height")
    if layers is None or height is None or height <= 0:
        return None
    return skin_thickness(layers, height, _first(profile) if side == "bottom" else None)


def _first(profile: Profile) -> Fraction | None:
    first = profile.number("first_layer.height")
    return first if first is not None and first > 0 else None


def _judge(case: Case, side: str, title: str) -> Finding | None:
    now = thickness(case.now, side)
    if now is None:
        return None
    before = thickness(case.base, side) if case.derived is not None else None
    layers = count(case.now, f"{side}.layers")
    verdict: Verdict = "passed"
    parts = [f"{plural(layers or 0, 'layer')} {'makes' if layers == 1 else 'make'} {mm(float(now))}."]
    if now == 0:
        verdict, parts = "note", ["No closing layers: the filling stays open to this side."]
    elif now < THIN:
        verdict = "note"
        parts.append(
            f"So thin a skin may show holes; {plural(_needed(case.now, side, THIN), 'layer')} would "
            f"make at least {mm(float(THIN))}."
        )
    if before and now < before * (1 - LOST):
        verdict = worse(verdict, "caution" if now < THIN else "note")
        parts.append(
            f"That is thinner than the {mm(float(before))} it was; "
            f"{plural(_needed(case.now, side, before), 'layer')} would keep it."
        )
    return Finding(
        f"skin-{side}",
        verdict,
        title,
        " ".join(parts),
        before=mm(float(before)) if before is not None else "",
        after=mm(float(now)),
        limit=f"at least {mm(float(THIN))}",
        headroom=mm(float(now - THIN)) if now > THIN else "",
        source=SOURCE,
        settings=(f"{side}.layers", "layer.height"),
    )


def _needed(profile: Profile, side: str, wanted: Fraction) -> int:
    height = profile.number("layer.height")
    assert height is not None  # there is a thickness
    return layers_for_thickness(wanted, height, _first(profile) if side == "bottom" else None)
