"""Bending: how far the outside of the part is stretched at its smallest radius. Says nothing of many bends."""

from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import amount
from profilesmith.checks.materials import Range, spool_name, spool_range
from profilesmith.ledger.judgement import Amount, Finding
from profilesmith.physics.answer import NotValid
from profilesmith.physics.bending import outer_strain_share, smallest_inner_radius_mm

CHECK = "bending"
# Printed parts break before the plastic does, so only half of the lower end counts as safe (own margin).
MARGIN = 0.5
SOURCE = "outer fibre of a bent part: t / (2 R + t), R inside the bend (geometry)"


def check(case: Case) -> tuple[Finding, ...]:
    """One finding; it hangs on part and spool, not on the settings."""
    thickness, radius = case.quantity("part.thickness"), case.quantity("part.bend_radius")
    if thickness is None or radius is None:
        missing = "part.bend_radius" if radius is None else "part.thickness"
        return (Finding(CHECK, "not judged", reason="bend-not-said", ask=ask(missing)),)
    if radius == 0:
        return (Finding(CHECK, "not judged", reason="folded-flat"),)
    strain = outer_strain_share(thickness, radius)
    if isinstance(strain, NotValid):
        return (Finding(CHECK, "not judged", reason="bend-too-sharp"),)
    amounts = (*amount("after", strain * 100, "%"), *amount("radius", radius, "mm"), *amount("part", thickness, "mm"))
    usual = spool_range(case, "elongation")
    if usual is None:
        asked = ask("spool.material")
        return (Finding(CHECK, "not judged", reason="filament-not-said", amounts=amounts, ask=asked),)
    return (_judge(case, thickness, strain, usual, amounts),)


def _judge(case: Case, thickness: float, strain: float, usual: Range, amounts: tuple[Amount, ...]) -> Finding:
    most = usual.low * MARGIN
    safe = strain * 100 <= most
    gentle = None if safe else smallest_inner_radius_mm(thickness, most / 100)
    breaks = "bend-breaks" if strain * 100 > usual.high else "bend-may-crack"
    return Finding(
        CHECK,
        "passed" if safe else "caution",
        reason="bend-stands" if safe else breaks,
        names=(spool_name(case),),
        amounts=(
            *amounts,
            *amount("most", most, "%"),
            *amount("headroom", most - strain * 100 if strain * 100 < most else None, "%"),
            Amount("breaks", usual.low, usual.high, "%"),
            *amount("safe-radius", gentle if isinstance(gentle, float) else None, "mm"),
        ),
        source=f"{SOURCE}; elongation at break: {usual.source}; half of its lower end: own margin",
    )
