"""Layer, bead and first layer against the nozzle, and the first layer's speed."""

from profilesmith.checks.amounts import amount, size, switch
from profilesmith.checks.beads import bead_width
from profilesmith.checks.case import Case, ask
from profilesmith.ledger.judgement import Amount, Finding, Verdict

LAYER, BEAD = "layer-height", "bead-width"
# Shares of the nozzle's diameter: common practice, no source.
THIN, THICK, TOO_THICK = 0.25, 0.75, 0.8
NARROW, WIDE, TOO_WIDE = 1.0, 1.5, 2.0
SOURCE = "layers of 25 to 75 % and beads of 100 to 150 % of the nozzle's diameter: common practice, no source"
_NOZZLE = "machine.nozzle_diameter"


def check_sizes(case: Case) -> tuple[Finding, ...]:
    """One finding for the layer, one for the narrowest or widest bead."""
    nozzle, height, width = case.nozzle(), case.size("layer.height"), bead_width(case.now, "outer_wall")
    findings = []
    if height is not None:
        settings = ("layer.height", "nozzle.diameter")
        findings.append(_layer(case, height, nozzle) if nozzle else nozzle_not_known(case, LAYER, settings))
    if width is not None:
        settings = ("bead.width", "nozzle.diameter")
        findings.append(_bead(case, width, nozzle) if nozzle else nozzle_not_known(case, BEAD, settings))
    return tuple(findings)


def nozzle_not_known(case: Case, check_id: str, settings: tuple[str, ...]) -> Finding:
    """Not judged: text and facts name two nozzles, or nobody named one."""
    named, fitted = case.size("nozzle.diameter"), case.quantity("machine.nozzle_diameter")
    both = named is not None and fitted is not None
    return Finding(
        check_id,
        "not judged",
        reason="two-nozzles" if both else "nozzle-not-said",
        amounts=(*amount("in-the-text", named, "mm"), *amount("fitted", fitted, "mm")) if both else (),
        ask=ask(_NOZZLE),
        settings=settings,
    )


def _layer(case: Case, height: float, nozzle: float) -> Finding:
    share, before = height / nozzle, case.before("layer.height")
    verdict: Verdict = "passed"
    reason = "layer-pressed"
    if share > TOO_THICK:
        verdict, reason = "caution", "layer-too-thick"
    elif share > THICK:
        verdict, reason = "note", "layer-thick"
    elif share < THIN:
        verdict, reason = "note", "layer-thin"
    return Finding(
        LAYER,
        verdict,
        reason=reason,
        amounts=(
            *amount("before", before or None, "mm"),
            *amount("after", height, "mm"),
            Amount("allowed", THIN * nozzle, THICK * nozzle, "mm"),
            *_room(height, THICK * nozzle),
            *amount("of-nozzle", share * 100, "%"),
            *amount("nozzle", nozzle, "mm"),
        ),
        source=SOURCE,
        settings=("layer.height", "nozzle.diameter"),
        unsuited=share < THIN and before is not None and height < before,
    )


def _bead(case: Case, outer: float, nozzle: float) -> Finding:
    height, inner = case.size("layer.height"), case.size("bead.width") or outer
    # The one that is farther from the middle of what is usual.
    width = max(outer, inner, key=lambda value: abs(value / nozzle - (NARROW + WIDE) / 2))
    share = width / nozzle
    verdict: Verdict = "passed"
    reason = "bead-usual"
    if height and min(outer, inner) < height:
        verdict, reason = "caution", "bead-below-layer"
    elif share > TOO_WIDE:
        verdict, reason = "caution", "bead-too-wide"
    elif share > WIDE or share < NARROW:
        verdict, reason = "note", "bead-unusual"
    return Finding(
        BEAD,
        verdict,
        reason=reason,
        amounts=(
            *amount("before", _width_before(case, width == inner), "mm"),
            *amount("after", width, "mm"),
            Amount("allowed", NARROW * nozzle, WIDE * nozzle, "mm"),
            *_room(width, WIDE * nozzle),
            *amount("of-nozzle", share * 100, "%"),
            *amount("nozzle", nozzle, "mm"),
            *amount("narrowest", min(outer, inner), "mm"),
            *amount("layer", height, "mm"),
        ),
        source=SOURCE,
        settings=("bead.width", "nozzle.diameter"),
    )


def _width_before(case: Case, inner: bool) -> float | None:
    if case.derived is None:
        return None
    return size(case.base, "bead.width") if inner else bead_width(case.base, "outer_wall")


def _room(value: float, most: float) -> tuple[Amount, ...]:
    return amount("headroom", most - value if value < most else None, "mm")


HEIGHT, SPEED = "first-layer-height", "first-layer-speed"
FAST_SHARE = 0.6  # own threshold, above what is usual
SLOW_SHARE, SLOW_MM_S = 0.3, 5.0  # below the usual share of the wall, and so slow that it drags (own threshold)
HEIGHT_SOURCE = "100 to 150 % of a layer, at most 75 % of the nozzle's diameter: common practice, no source"
SPEED_SOURCE = "30 to 50 % of the printing speed: common practice, no source"


def check_first_layer(case: Case) -> tuple[Finding, ...]:
    """Nothing where the text tells nothing of the first layer."""
    findings = (_height(case), _speed(case))
    return tuple(finding for finding in findings if finding is not None)


def _height(case: Case) -> Finding | None:
    first, height, nozzle = case.size("first_layer.height"), case.size("layer.height"), case.nozzle()
    settings = ("first_layer.height",)
    if first is None:
        return None
    if nozzle is None:
        return nozzle_not_known(case, HEIGHT, settings)
    verdict, reason = _height_reason(case, first, height, nozzle)
    most = THICK * nozzle
    return Finding(
        HEIGHT,
        verdict,
        reason=reason,
        amounts=(
            *amount("before", case.before("first_layer.height"), "mm"),
            *amount("after", first, "mm"),
            *amount("most", most, "mm"),
            *amount("headroom", most - first if first < most else None, "mm"),
            *amount("nozzle", nozzle, "mm"),
            *amount("of-nozzle", first / nozzle * 100, "%"),
            *amount("of-layer", first / height * 100 if height else None, "%"),
        ),
        source=HEIGHT_SOURCE,
        settings=settings,
    )


def _height_reason(case: Case, first: float, height: float | None, nozzle: float) -> tuple[Verdict, str]:
    if first > TOO_THICK * nozzle:
        return "caution", "first-layer-too-thick"
    if first > THICK * nozzle:
        return "note", "first-layer-thick"
    thin = height and first < height and not switch(case.now, "raft.on")
    return ("note", "first-layer-thin") if thin else ("passed", "first-layer-pressed")


def _speed(case: Case) -> Finding | None:
    first, wall = case.size("first_layer.speed"), case.size("outer_wall.speed")
    if first is None or wall is None:
        return None
    share = first / wall
    slow = share < SLOW_SHARE and first < SLOW_MM_S
    most = FAST_SHARE * wall
    return Finding(
        SPEED,
        "note" if slow or share > FAST_SHARE else "passed",
        reason="first-layer-slow" if slow else "first-layer-fast" if share > FAST_SHARE else "first-layer-paced",
        amounts=(
            *amount("before", case.before("first_layer.speed") or None, "mm/s"),
            *amount("after", first, "mm/s"),
            *amount("most", most, "mm/s"),
            *amount("headroom", most - first if share < FAST_SHARE else None, "mm/s"),
            *amount("of-wall", share * 100, "%"),
        ),
        source=SPEED_SOURCE,
        settings=("first_layer.speed", "outer_wall.speed"),
    )
