"""Printing speeds against the largest that the spool's label allows."""

from profilesmith.checks.beads import FEATURES, is_laid, unseen
from profilesmith.checks.case import Case
from profilesmith.checks.finding import amount
from profilesmith.ledger.judgement import Finding

CHECK, FACT = "label-speed", "spool.maximum_printing_speed"
SOURCE = "the spool's label, as stated in the facts file"
_EDGE = 1 + 1e-6  # a speed that was held to the label's own number


def check(case: Case) -> tuple[Finding, ...]:
    """Nothing where nobody told what the label says, or where the text tells no speed: few labels name one."""
    most, speeds = case.quantity(FACT), _speeds(case)
    if most is None or not speeds:
        return ()
    over = {feature: speed for feature, speed in speeds.items() if speed > most * _EDGE}
    fastest = max(speeds, key=lambda feature: speeds[feature])
    olds = [old for feature in speeds if (old := case.before(f"{feature}.speed")) is not None]
    within = most - speeds[fastest] if speeds[fastest] * _EDGE < most else None
    return (
        Finding(
            CHECK,
            "caution" if over else "passed",
            reason="above-label-speed" if over else "within-label-speed",
            also=() if over else tuple(f"no-speed-{feature}" for feature in unseen(case.now)),
            amounts=(
                *amount("before", max(olds, default=None), "mm/s"),
                *amount("after", speeds[fastest], "mm/s"),
                *amount("most", most, "mm/s"),
                *amount("headroom", within, "mm/s"),
            ),
            names=tuple(name for feature, name in FEATURES if feature in over),
            source=SOURCE,
            settings=tuple(f"{feature}.speed" for feature in over or (fastest,)),
        ),
    )


def _speeds(case: Case) -> dict[str, float]:
    """The speeds of what is laid [mm/s], by feature."""
    sizes = ((feature, case.size(f"{feature}.speed")) for feature, _ in FEATURES if is_laid(case.now, feature))
    return {feature: speed for feature, speed in sizes if speed is not None}
