"""A liner of PTFE in the hot end: how close the nozzle comes to the heat that breaks it down."""

from profilesmith.checks.amounts import degrees
from profilesmith.checks.case import Case, ask
from profilesmith.ledger.judgement import Finding

CHECK, TITLE = "liner", "PTFE liner"
USUAL_C = 240.0  # common practice, no source: lined hot ends are commonly limited to 240 to 250 degC
HIGHEST_C = 260.0  # continuous use of PTFE [from memory]
SOURCE = (
    "fumes of overheated PTFE: Shusterman 1993; Shimizu 2012, BMJ Case Rep.; Waritz and Kwon 1968, doi "
    "10.1080/00028896809342976; 240 °C for lined hot ends: common practice; 260 °C for PTFE: from memory"
)


def check(case: Case) -> tuple[Finding, ...]:
    """None for an all-metal hot end, whose limit is the machine's own."""
    settings = tuple(
        name for name in ("nozzle.temperature", "first_layer.nozzle_temperature") if case.number(name) is not None
    )
    liner = case.word("machine.liner")
    if not settings or liner == "all-metal":
        return ()
    hottest = max(settings, key=lambda name: case.number(name) or 0.0)
    value, before = case.number(hottest) or 0.0, case.before(hottest)
    finding = Finding(
        CHECK,
        "passed",
        TITLE,
        "Cool enough for a hot end that is lined with PTFE.",
        before="" if before is None else degrees(before),
        after=degrees(value),
        limit=f"at most {degrees(USUAL_C)}",
        headroom=degrees(USUAL_C - value) if value < USUAL_C else "",
        source=SOURCE,
        ask="" if liner else ask("machine.liner"),
        settings=settings,
    )
    if value <= USUAL_C:
        return (finding,)
    if not liner:
        text = (
            "Nobody said what the hot end is lined with. Were it PTFE, its fumes would make people ill and could "
            "kill birds."
        )
        return (finding._replace(verdict="caution", text=text),)
    text = "A PTFE liner breaks down in such heat; its fumes make people ill and can kill birds."
    if value > HIGHEST_C:
        return (finding._replace(verdict="stop", text=f"{text} Do not print with it."),)
    return (finding._replace(verdict="caution", text=f"{text} Stay below what the printer's instructions name."),)
