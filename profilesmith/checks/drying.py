"""Drying: is the spool dried cooler than it softens?"""

from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import amount
from profilesmith.checks.materials import Range, flexible, spool_name, spool_range
from profilesmith.ledger.judgement import Amount, Finding, Verdict
from profilesmith.physics.answer import Bracket
from profilesmith.physics.drying import glassy_drying_ceiling_c

CHECK = "drying"
SOURCE = "drying 5 to 10 °C below softening: common practice, no source; the labels of spool and dryer go before it"
MARGIN_C, SAFE_C = 5.0, 10.0


def check(case: Case) -> tuple[Finding, ...]:
    """None where nobody says that the spool is dried and it is not known to be soft."""
    dried = case.quantity("spool.drying_temperature")
    if dried is None:
        asked = ask("spool.drying_temperature")
        return (Finding(CHECK, "not judged", reason="drying-not-said", ask=asked),) if flexible(case) else ()
    softens, usual = case.quantity("spool.softening_temperature"), spool_range(case, "drying_temperature")
    if softens is not None:
        return (_softening(dried, softens),)
    if usual is None:
        asked, amounts = ask("spool.softening_temperature"), amount("after", dried, "°C")
        return (Finding(CHECK, "not judged", reason="softening-not-said", amounts=amounts, ask=asked),)
    return (_usual(case, dried, usual),)


def _against(dried: float, ceiling: float) -> tuple[Amount, ...]:
    room = ceiling - dried if dried < ceiling else None
    return (*amount("after", dried, "°C"), *amount("most", ceiling, "°C"), *amount("headroom", room, "°C"))


def _softening(dried: float, softens: float) -> Finding:
    """Against the softening point that the spool's data sheet names."""
    verdict, reason = _reason(dried, softens)
    amounts = (*_against(dried, softens - SAFE_C), *amount("softens", softens, "°C"))
    return Finding(CHECK, verdict, reason=reason, amounts=amounts, source=SOURCE)


def _reason(dried: float, softens: float) -> tuple[Verdict, str]:
    if dried >= softens:
        return "stop", "windings-stick"
    if dried > softens - MARGIN_C:
        return "caution", "close-to-softening"
    return ("note", "near-softening") if dried > softens - SAFE_C else ("passed", "below-softening")


def _usual(case: Case, dried: float, usual: Range) -> Finding:
    """Against what is usual for the material, and its glass transition where it is glassy when cold."""
    ceiling = usual.high
    glass = spool_range(case, "glass_transition")
    glassy = glassy_drying_ceiling_c(glass.low) if glass else None
    if isinstance(glassy, Bracket):
        # Never below what is usually done, for the transition's range is that of all grades.
        ceiling = max(glassy.low, usual.high)
    warm = dried > ceiling
    return Finding(
        CHECK,
        "note" if warm else "passed",
        reason="warmer-than-usual" if warm else "dried-as-usual",
        names=(spool_name(case),),
        amounts=(*_against(dried, ceiling), Amount("usual", usual.low, usual.high, usual.unit)),
        source=f"{SOURCE}; usual for the material: {usual.source}",
        ask=ask("spool.softening_temperature") if warm else "",
    )
