"""Bending: how far the outside of the part is stretched at its smallest radius. Says nothing of many bends."""

from profilesmith.checks.amounts import few, mm, percent
from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import not_judged, not_said
from profilesmith.checks.materials import Range, spool_name, spool_range
from profilesmith.ledger.judgement import Finding
from profilesmith.physics.answer import NotValid
from profilesmith.physics.bending import outer_strain_share, smallest_inner_radius_mm

CHECK, TITLE = "bending", "Stretch at the bend"
# Printed parts break before the plastic does, so only half of the lower end counts as safe (own margin).
MARGIN = 0.5
SOURCE = "outer fibre of a bent part: t / (2 R + t), R inside the bend (geometry)"


def check(case: Case) -> tuple[Finding, ...]:
    """One finding; it hangs on part and spool, not on the settings."""
    thickness, radius = case.quantity("part.thickness"), case.quantity("part.bend_radius")
    if thickness is None or radius is None:
        missing = "part.bend_radius" if radius is None else "part.thickness"
        return (not_said(CHECK, TITLE, "how thick the part is and how tightly it is bent", ask(missing)),)
    strain = (
        outer_strain_share(thickness, radius)
        if radius > 0
        else NotValid("the part is folded flat", "a trial bend of the part")
    )
    if isinstance(strain, NotValid):
        return (not_judged(CHECK, TITLE, strain.reason, f"How does {strain.settled_by} come out?"),)
    usual = spool_range(case, "elongation")
    if usual is None:
        known = f"Bent to {mm(radius)}, a part of {mm(thickness)} is stretched by {percent(strain)}."
        return (not_said(CHECK, TITLE, "which filament it is", ask("spool.material"), known=known),)
    return (_judge(case, thickness, strain, usual),)


def _judge(case: Case, thickness: float, strain: float, usual: Range) -> Finding:
    share = strain * 100
    finding = Finding(
        CHECK,
        "passed",
        TITLE,
        f"The outside is stretched by {percent(strain)}; {spool_name(case)} breaks at {usual.show()}.",
        after=percent(strain),
        limit=f"at most {few(usual.low * MARGIN)} %",
        headroom=f"{few(usual.low * MARGIN - share)} %" if share < usual.low * MARGIN else "",
        source=f"{SOURCE}; elongation at break: {usual.source}; half of its lower end: own margin",
    )
    if share <= usual.low * MARGIN:
        return finding
    gentle = smallest_inner_radius_mm(thickness, usual.low * MARGIN / 100)
    advice = (
        "" if isinstance(gentle, NotValid) else f" A radius of {mm(round(gentle, 1))} or a thinner part would be safe."
    )
    word = "It will break" if share > usual.high else "It may crack there"
    return finding._replace(verdict="caution", text=f"{finding.text} {word}.{advice}")
