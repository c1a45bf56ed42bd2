"""Temperatures of nozzle and bed: against the spool's label, the machine's instructions, and a liner of PTFE."""

from profilesmith.checks.amounts import amount, worse
from profilesmith.checks.case import Case, ask
from profilesmith.checks.materials import Range, spool_name, spool_range
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.judgement import Amount, Finding, Verdict

LABEL_SOURCE = "the spool's label, as in the facts file"


class Window(NamedTuple):
    """sure: stated for this spool; otherwise it is the range of its material."""

    low: float
    high: float
    sure: bool
    source: str


class Subject(NamedTuple):
    """What is judged. settings: the main one first. usual: the property of the material."""

    check: str
    settings: tuple[str, str]
    fact: str
    usual: str
    cold_verdict: Verdict


def find_window(case: Case, subject: Subject) -> Window | None:
    """The window of a subject; None when neither the spool's label nor its material is known."""
    label = case.window(subject.fact)
    if label is not None:
        return Window(*label, True, LABEL_SOURCE)
    usual = spool_range(case, subject.usual)
    if usual is None:
        return None
    return Window(usual.low, usual.high, False, usual.source)


def usual_beside_label(case: Case, subject: Subject) -> Range | None:
    """What is usual for the spool's material, where the label's window has nothing in common with it."""
    label, usual = case.window(subject.fact), spool_range(case, subject.usual)
    if label is None or usual is None or (label[0] <= usual.high and usual.low <= label[1]):
        return None
    return usual


def judge_window(case: Case, subject: Subject) -> tuple[Finding, ...]:
    """One finding for both temperatures of a subject; none where the text tells neither."""
    held = [name for name in subject.settings if case.number(name) is not None]
    if not held:
        return ()
    window = find_window(case, subject)
    if window is None:
        asked = ask(subject.fact)
        return (Finding(subject.check, "not judged", reason="label-not-said", ask=asked, settings=tuple(held)),)
    values = {name: case.number(name) or 0.0 for name in held}
    main = max(held, key=lambda name: _outside(values[name], window))
    verdict, reason = _reason(values, window, subject)
    usual = usual_beside_label(case, subject)
    room = min(min(value - window.low, window.high - value) for value in values.values())
    return (
        Finding(
            subject.check,
            verdict if usual is None else worse(verdict, "note"),
            reason=reason if window.sure else f"{reason}-usual",
            also=() if usual is None else ("label-far-from-usual",),
            names=(spool_name(case),),
            amounts=(
                *amount("before", case.before(main), "°C"),
                *amount("after", values[main], "°C"),
                Amount("allowed", window.low, window.high, "°C"),
                *amount("headroom", room if room > 0 and usual is None else None, "°C"),
                *(() if usual is None else (Amount("usual", usual.low, usual.high, usual.unit),)),
                *(part for name, value in values.items() for part in _off(name, value, window)),
            ),
            source=window.source,
            ask="" if window.sure else ask(subject.fact),
            settings=tuple(held),
        ),
    )


def _outside(value: float, window: Window) -> float:
    """How far outside; inside, negative and the nearer to the edge the greater."""
    return max(window.low - value, value - window.high)


def _reason(values: dict[str, float], window: Window, subject: Subject) -> tuple[Verdict, str]:
    below = any(value < window.low for value in values.values())
    above = any(value > window.high for value in values.values())
    verdict: Verdict = "passed"
    if below:
        verdict = subject.cold_verdict if window.sure else "note"
    if above:
        verdict = worse(verdict, "caution" if window.sure else "note")
    return verdict, "cold-and-hot" if below and above else "cold" if below else "hot" if above else "inside"


def _off(name: str, value: float, window: Window) -> tuple[Amount, ...]:
    """How far outside it is: ``below``, ``first-above``, ..."""
    first = "first-" if name.startswith("first_layer.") else ""
    below = amount(f"{first}below", window.low - value if value < window.low else None, "°C")
    return below or amount(f"{first}above", value - window.high if value > window.high else None, "°C")


NOZZLE = Subject(
    "nozzle-temperature",
    ("nozzle.temperature", "first_layer.nozzle_temperature"),
    "spool.nozzle_window",
    "nozzle_temperature",
    cold_verdict="caution",
)


def check_nozzle(case: Case) -> tuple[Finding, ...]:
    """Both nozzle temperatures."""
    return judge_window(case, NOZZLE)


BED = Subject(
    "bed-temperature",
    ("bed.temperature", "first_layer.bed_temperature"),
    "spool.bed_window",
    "bed_temperature",
    cold_verdict="note",
)


def check_bed(case: Case) -> tuple[Finding, ...]:
    """Both bed temperatures."""
    return judge_window(case, BED)


# check, settings, fact
MOST_ALLOWED = (
    (
        "nozzle-maximum",
        ("nozzle.temperature", "first_layer.nozzle_temperature"),
        "machine.maximum_nozzle_temperature",
    ),
    ("bed-maximum", ("bed.temperature", "first_layer.bed_temperature"), "machine.maximum_bed_temperature"),
)
MACHINE_SOURCE = "the machine's own instructions, as stated in the facts file"


def check_machine(case: Case) -> tuple[Finding, ...]:
    """One finding for the nozzle, one for the bed."""
    findings = (_judge_most(case, *subject) for subject in MOST_ALLOWED)
    return tuple(finding for finding in findings if finding is not None)


def _judge_most(case: Case, check_id: str, settings: tuple[str, ...], fact: str) -> Finding | None:
    values = {name: value for name in settings if (value := case.number(name)) is not None}
    if not values:
        return None
    most = case.quantity(fact)
    if most is None:
        return Finding(check_id, "not judged", reason="instructions-not-said", ask=ask(fact), settings=tuple(values))
    hottest = max(values, key=lambda name: values[name])
    value = values[hottest]
    return Finding(
        check_id,
        "passed" if value <= most else "stop",
        reason="within-instructions" if value <= most else "above-instructions",
        amounts=(
            *amount("before", case.before(hottest), "°C"),
            *amount("after", value, "°C"),
            *amount("most", most, "°C"),
            *amount("headroom", most - value if value < most else None, "°C"),
            *amount("above", value - most if value > most else None, "°C"),
        ),
        source=MACHINE_SOURCE,
        settings=tuple(values),
    )


LINER = "liner"
USUAL_C = 240.0  # common practice, no source: lined hot ends are commonly limited to 240 to 250 degC
HIGHEST_C = 260.0  # continuous use of PTFE [from memory]
LINER_SOURCE = (
    "fumes of overheated PTFE: Shusterman 1993; Shimizu 2012, BMJ Case Rep.; Waritz and Kwon 1968, doi "
    "10.1080/00028896809342976; 240 °C for lined hot ends: common practice; 260 °C for PTFE: from memory"
)


def check_liner(case: Case) -> tuple[Finding, ...]:
    """None for an all-metal hot end, whose limit is the machine's own."""
    settings = tuple(
        name for name in ("nozzle.temperature", "first_layer.nozzle_temperature") if case.number(name) is not None
    )
    liner = case.word("machine.liner")
    if not settings or liner == "all-metal":
        return ()
    hottest = max(settings, key=lambda name: case.number(name) or 0.0)
    value, before = case.number(hottest) or 0.0, case.before(hottest)
    verdict, reason = _liner_reason(value, liner)
    return (
        Finding(
            LINER,
            verdict,
            reason=reason,
            amounts=(
                *amount("before", before, "°C"),
                *amount("after", value, "°C"),
                *amount("most", USUAL_C, "°C"),
                *amount("headroom", USUAL_C - value if value < USUAL_C else None, "°C"),
            ),
            source=LINER_SOURCE,
            ask="" if liner else ask("machine.liner"),
            settings=settings,
        ),
    )


def _liner_reason(value: float, liner: str) -> tuple[Verdict, str]:
    if value <= USUAL_C:
        return "passed", "liner-cool"
    if not liner:
        return "caution", "liner-not-said"
    return ("stop", "liner-breaks-down") if value > HIGHEST_C else ("caution", "liner-hot")
