"""First layer: thick enough to level the bed, thin enough for the nozzle, slow enough to stick."""

from profilesmith.checks.amounts import mm, percent, shown
from profilesmith.checks.bead_size import THICK, TOO_THICK, nozzle_not_known
from profilesmith.checks.case import Case, switch
from profilesmith.ledger.judgement import Finding, Verdict

HEIGHT, SPEED = "first-layer-height", "first-layer-speed"
HEIGHT_TITLE, SPEED_TITLE = "First layer's height", "First layer's speed"
FAST_SHARE = 0.6  # own threshold, above what is usual
SLOW_SHARE, SLOW_MM_S = 0.2, 5.0  # below both: own thresholds, below what is usual
HEIGHT_SOURCE = "100 to 150 % of a layer, at most 75 % of the nozzle's diameter: common practice, no source"
SPEED_SOURCE = "30 to 50 % of the printing speed: common practice, no source"


def check(case: Case) -> tuple[Finding, ...]:
    """Nothing where the text tells nothing of the first layer."""
    found = (_height(case), _speed(case))
    return tuple(finding for finding in found if finding is not None)


def _height(case: Case) -> Finding | None:
    first, height, nozzle = case.size("first_layer.height"), case.size("layer.height"), case.nozzle()
    settings = ("first_layer.height",)
    if first is None:
        return None
    if nozzle is None:
        return nozzle_not_known(case, HEIGHT, HEIGHT_TITLE, settings)
    verdict: Verdict = "passed"
    text = f"It is {percent(first / nozzle)} of the nozzle's {mm(nozzle)}"
    text += f" and {percent(first / height, 3)} of a layer." if height else "."
    if first > TOO_THICK * nozzle:
        verdict, text = "caution", f"{text} So thick a first layer is not pressed onto the bed and comes loose."
    elif first > THICK * nozzle:
        verdict, text = "note", f"{text} That is near the most that is still pressed flat."
    elif height and first < height and not switch(case.now, "raft.on"):
        verdict, text = "note", f"{text} Thinner than the others, it forgives little unevenness of the bed."
    before = case.before("first_layer.height")
    return Finding(
        HEIGHT,
        verdict,
        HEIGHT_TITLE,
        text,
        before=mm(before) if before else "",
        after=mm(first),
        limit=f"at most {mm(THICK * nozzle)}",
        headroom=mm(THICK * nozzle - first) if first < THICK * nozzle else "",
        source=HEIGHT_SOURCE,
        settings=settings,
    )


def _speed(case: Case) -> Finding | None:
    first, wall = case.size("first_layer.speed"), case.size("outer_wall.speed")
    if first is None or wall is None:
        return None
    share = first / wall
    text = f"It is {percent(share)} of the outer wall's speed; usual are 30 to 50 %."
    verdict: Verdict = "passed"
    if share > FAST_SHARE:
        verdict, text = "note", f"{text} A slower first layer sticks better."
    elif share < SLOW_SHARE and first < SLOW_MM_S:
        verdict, text = (
            "note",
            f"{text} So slow a nozzle dwells on the bead, heats and drags it, and the flow is uneven.",
        )
    before = case.before("first_layer.speed")
    return Finding(
        SPEED,
        verdict,
        SPEED_TITLE,
        text,
        before=shown(before, "mm/s") if before else "",
        after=shown(first, "mm/s"),
        limit=f"at most {shown(FAST_SHARE * wall, 'mm/s')}",
        headroom=shown(FAST_SHARE * wall - first, "mm/s") if share < FAST_SHARE else "",
        source=SPEED_SOURCE,
        settings=("first_layer.speed", "outer_wall.speed"),
    )
