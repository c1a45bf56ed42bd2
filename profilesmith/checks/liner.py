"""A liner of PTFE in the hot end: how close the nozzle comes to the heat that breaks it down."""

from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import amount
from profilesmith.ledger.judgement import Finding, Verdict

CHECK = "liner"
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
    verdict, reason = _reason(value, liner)
    return (
        Finding(
            CHECK,
            verdict,
            reason=reason,
            amounts=(
                *amount("before", before, "°C"),
                *amount("after", value, "°C"),
                *amount("most", USUAL_C, "°C"),
                *amount("headroom", USUAL_C - value if value < USUAL_C else None, "°C"),
            ),
            source=SOURCE,
            ask="" if liner else ask("machine.liner"),
            settings=settings,
        ),
    )


def _reason(value: float, liner: str) -> tuple[Verdict, str]:
    if value <= USUAL_C:
        return "passed", "liner-cool"
    if not liner:
        return "caution", "liner-not-said"
    return ("stop", "liner-breaks-down") if value > HIGHEST_C else ("caution", "liner-hot")
