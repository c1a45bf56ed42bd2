"""Drying: is the spool dried cooler than it softens?"""

from profilesmith.checks.amounts import degrees
from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import not_said
from profilesmith.checks.materials import Range, flexible, spool_name, spool_range
from profilesmith.ledger.judgement import Finding
from profilesmith.physics.answer import Bracket
from profilesmith.physics.drying import glassy_drying_ceiling_c

CHECK, TITLE = "drying", "Drying temperature"
SOURCE = "drying 5 to 10 °C below softening: common practice, no source; the labels of spool and dryer go before it"
MARGIN_C, SAFE_C = 5.0, 10.0


def check(case: Case) -> tuple[Finding, ...]:
    """None where nobody says that the spool is dried and it is not known to be soft."""
    dried = case.quantity("spool.drying_temperature")
    if dried is None:
        if not flexible(case):
            return ()
        reason = "how warm the spool is to be dried"
        return (
            not_said(CHECK, TITLE, reason, ask("spool.drying_temperature"), known="Soft filament takes up moisture."),
        )
    softens = case.quantity("spool.softening_temperature")
    usual = spool_range(case, "drying_temperature")
    if softens is not None:
        return (_softening(dried, softens),)
    if usual is None:
        reason = "at which temperature the filament softens"
        return (
            not_said(
                CHECK, TITLE, reason, ask("spool.softening_temperature"), known=f"{degrees(dried)} may be too warm."
            ),
        )
    return (_usual(case, dried, usual),)


def _finding(dried: float, ceiling: float, text: str, source: str) -> Finding:
    room = degrees(ceiling - dried) if dried < ceiling else ""
    return Finding(
        CHECK,
        "passed",
        TITLE,
        text,
        after=degrees(dried),
        limit=f"at most {degrees(ceiling)}",
        headroom=room,
        source=source,
    )


def _softening(dried: float, softens: float) -> Finding:
    """Against the softening point that the spool's data sheet names."""
    finding = _finding(dried, softens - SAFE_C, f"Cool enough: the filament softens at {degrees(softens)}.", SOURCE)
    if dried >= softens:
        text = (
            f"The filament softens at {degrees(softens)}: the windings stick together and the spool is lost. Do not "
            "dry it so warm."
        )
        return finding._replace(verdict="stop", text=text)
    if dried > softens - MARGIN_C:
        text = (
            f"Close to where the filament softens ({degrees(softens)}): a dryer is seldom exact, and windings may "
            "stick together."
        )
        return finding._replace(verdict="caution", text=text)
    if dried > softens - SAFE_C:
        return finding._replace(
            verdict="note", text=f"Less than 10 °C below where the filament softens ({degrees(softens)})."
        )
    return finding


def _usual(case: Case, dried: float, usual: Range) -> Finding:
    """Against what is usual for the material, and its glass transition where it is glassy when cold."""
    ceiling = usual.high
    glass = spool_range(case, "glass_transition")
    glassy = glassy_drying_ceiling_c(glass.low) if glass else None
    if isinstance(glassy, Bracket):
        # Never below what is usually done, for the transition's range is that of all grades.
        ceiling = max(glassy.low, usual.high)
    name, source = spool_name(case), f"{SOURCE}; usual for the material: {usual.source}"
    finding = _finding(dried, ceiling, f"Not warmer than {name} is usually dried ({usual.show()}).", source)
    if dried <= ceiling:
        return finding
    text = (
        f"Warmer than {name} is usually dried ({usual.show()}). The spool's own label goes before that: look in early."
    )
    return finding._replace(verdict="note", text=text, ask=ask("spool.softening_temperature"))
