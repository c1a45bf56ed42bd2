"""How hard the part pushes back: the stiffness of a strip held at one end, and the strip itself."""

from profilesmith.checks.bar import Bar, bar_of, poses, widths
from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import amount, between
from profilesmith.checks.materials import Modulus, modulus, rigid_modulus, spool_name
from profilesmith.ledger.judgement import Amount, Finding
from profilesmith.physics.answer import Bracket, spanning
from profilesmith.physics.section import SLENDER, bending_bracket, solid_second_moment_mm4, tip_stiffness_n_per_mm
from profilesmith.profile.profile import Profile


def bars(case: Case, profile: Profile, thickness: float) -> list[Bar] | str:
    """The bar in each pose that the facts leave open, or the setting that is missing for one."""
    bars = []
    for pose in poses(case):
        bar = bar_of(profile, thickness, pose)
        if isinstance(bar, str):
            return bar
        bars.append(bar)
    return bars


def second_moment_per_width_mm3(case: Case, held: list[Bar]) -> Bracket:
    """Second moment over width of all the bars that the part may be [mm3]."""
    width, form = case.quantity("part.width"), case.word("part.form")
    return spanning(_per_width(bar, strip) for bar in held for strip in widths(bar.thickness, (bar.wall,), width, form))


def _per_width(bar: Bar, width: float) -> Bracket:
    section = bar.section(width)
    share, solid = bending_bracket(section, bar.core_or_nothing()), solid_second_moment_mm4(section) / width
    return Bracket(share.low * solid, share.high * solid)


CHECK = "felt-stiffness"
UNIT = "N/mm"
PUSHED = 0.1  # of the free length: as far as the beam formula reaches
LAW_HOLDS_A = (60, 90)  # Shore hardness between which the modulus is good to a factor of two
NEEDED = ("part.thickness", "part.width", "part.free_length")
SETTINGS = ("wall.count", "top.layers", "bottom.layers", "infill.density", "layer.height", "bead.width")
SOURCE = (
    "strip held at one end, pushed at the other: k = 3 E I / L^3 (handbook beam formula), up "
    "to a tenth of its length; I "
    "as for the stiffness of walls and filling"
)


def check(case: Case) -> tuple[Finding, ...]:
    """None where nobody asks: without a free length there is no such number."""
    if case.quantity("part.free_length") is None:
        return ()
    for fact in NEEDED:
        if not case.quantity(fact):
            return (_not_judged("strip-size-not-known", ask(fact)),)
    own = modulus(case)
    if own is None:
        return (_not_judged("filament-softness-not-said", ask("spool.hardness")),)
    length, thickness = case.quantity("part.free_length") or 0.0, case.quantity("part.thickness") or 0.0
    if length < SLENDER * thickness:
        sizes = (*amount("length", length, "mm"), *amount("thickness", thickness, "mm"))
        return (_not_judged("strip-too-stubby", "", sizes),)
    now = tip_stiffness(case, case.now, own)
    if isinstance(now, str):
        return (Finding(CHECK, "not judged", reason="bar-not-told", settings=(now,)),)
    return (_finding(case, now, own, length),)


def _not_judged(reason: str, asked: str, amounts: tuple[Amount, ...] = ()) -> Finding:
    return Finding(CHECK, "not judged", reason=reason, amounts=amounts, ask=asked, settings=SETTINGS)


def tip_stiffness(case: Case, side: Profile, plastic: Modulus) -> Bracket | str:
    """Force per deflection at the free end [N/mm] of the part as a side prints it, or the missing setting."""
    thickness, width, length = (case.quantity(fact) or 0.0 for fact in NEEDED)
    held = bars(case, side, thickness)
    if isinstance(held, str):
        return held
    moment = second_moment_per_width_mm3(case, held)
    return Bracket(
        tip_stiffness_n_per_mm(plastic.mpa.low, moment.low * width, length) if moment.low else 0.0,
        tip_stiffness_n_per_mm(plastic.mpa.high, moment.high * width, length),
    )


def _finding(case: Case, now: Bracket, own: Modulus, length: float) -> Finding:
    rigid = None if case.derived is None else tip_stiffness(case, case.base, rigid_modulus())
    return Finding(
        CHECK,
        "note",
        reason="felt-stiffness",
        also=() if _law_holds(case) else ("hardness-outside-law",),
        amounts=(
            *between("before", rigid if isinstance(rigid, Bracket) else None, UNIT),
            *between("after", now, UNIT),
            *between("push", now, "N", PUSHED * length),
            *amount("length", length, "mm"),
        ),
        source=f"{SOURCE}; modulus of {spool_name(case)}: {own.source}; rigid PLA: {rigid_modulus().source}",
        ask="" if case.quantity("spool.modulus") is not None else ask("spool.modulus"),
        settings=SETTINGS,
    )


def _law_holds(case: Case) -> bool:
    """Whether the hardness on the label, where one is told, is one of those between which the modulus is good."""
    hardness = case.hardness()
    return hardness is None or hardness.scale != "A" or LAW_HOLDS_A[0] <= hardness.number <= LAW_HOLDS_A[1]
