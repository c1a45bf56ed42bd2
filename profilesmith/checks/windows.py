"""Temperatures against a window: the spool's label, else what is usual for its material."""

from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import amount, worse
from profilesmith.checks.materials import spool_name, spool_range
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
    room = min(min(value - window.low, window.high - value) for value in values.values())
    return (
        Finding(
            subject.check,
            verdict,
            reason=reason if window.sure else f"{reason}-usual",
            names=(spool_name(case),),
            amounts=(
                *amount("before", case.before(main), "°C"),
                *amount("after", values[main], "°C"),
                Amount("allowed", window.low, window.high, "°C"),
                *amount("headroom", room if room > 0 else None, "°C"),
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
