"""First layer: thick enough to level the bed, thin enough for the nozzle, slow enough to stick."""

from profilesmith.checks.bead_size import THICK, TOO_THICK, nozzle_not_known
from profilesmith.checks.case import Case
from profilesmith.checks.finding import amount
from profilesmith.checks.plain_numbers import switch
from profilesmith.ledger.judgement import Finding, Verdict

HEIGHT, SPEED = "first-layer-height", "first-layer-speed"
FAST_SHARE = 0.6  # own threshold, above what is usual
SLOW_SHARE, SLOW_MM_S = 0.3, 5.0  # below the usual share of the wall, and so slow that it drags (own threshold)
HEIGHT_SOURCE = "100 to 150 % of a layer, at most 75 % of the nozzle's diameter: common practice, no source"
SPEED_SOURCE = "30 to 50 % of the printing speed: common practice, no source"


def check(case: Case) -> tuple[Finding, ...]:
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
