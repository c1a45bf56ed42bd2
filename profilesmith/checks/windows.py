"""Temperatures against a window: the spool's label, else what is usual for its material."""

from typing import NamedTuple

from profilesmith.checks.amounts import degrees
from profilesmith.checks.case import Case, ask
from profilesmith.checks.finding import not_said, worse
from profilesmith.checks.materials import spool_name, spool_range
from profilesmith.ledger.judgement import Finding, Verdict


class Window(NamedTuple):
    """sure: stated for this spool; otherwise it is the range of its material."""

    low: float
    high: float
    sure: bool
    whose: str
    source: str


class Subject(NamedTuple):
    """What is judged. settings: the main one first. usual: the property of the material. hot, cold: what happens
    there.
    """

    check: str
    title: str
    settings: tuple[str, str]
    fact: str
    usual: str
    cold: str
    hot: str
    cold_verdict: Verdict


def find_window(case: Case, subject: Subject) -> Window | None:
    """The window of a subject; None when neither the spool's label nor its material is known."""
    told = case.window(subject.fact)
    if told is not None:
        return Window(*told, True, "the spool's label", "the spool's label, as in the facts file")
    usual = spool_range(case, subject.usual)
    if usual is None:
        return None
    return Window(usual.low, usual.high, False, f"what is usual for {spool_name(case)}", usual.source)


def judge_window(case: Case, subject: Subject) -> tuple[Finding, ...]:
    """One finding for both temperatures of a subject; none where the text tells neither."""
    held = [name for name in subject.settings if case.number(name) is not None]
    if not held:
        return ()
    window = find_window(case, subject)
    if window is None:
        reason = "what the spool's label allows"
        return (not_said(subject.check, subject.title, reason, ask(subject.fact), tuple(held)),)
    values = {name: case.number(name) or 0.0 for name in held}
    main = max(held, key=lambda name: _outside(values[name], window))
    before = case.before(main)
    verdict, text = _words(values, window, subject)
    room = min(min(value - window.low, window.high - value) for value in values.values())
    return (
        Finding(
            subject.check,
            verdict,
            subject.title,
            text,
            before="" if before is None else degrees(before),
            after=degrees(values[main]),
            limit=f"{degrees(window.low).removesuffix(' °C')} to {degrees(window.high)}",
            headroom=degrees(room) if room > 0 else "",
            source=window.source,
            ask="" if window.sure else ask(subject.fact),
            settings=tuple(held),
        ),
    )


def _outside(value: float, window: Window) -> float:
    """How far outside; inside, negative and the nearer to the edge the greater."""
    return max(window.low - value, value - window.high)


def _words(values: dict[str, float], window: Window, subject: Subject) -> tuple[Verdict, str]:
    below = {name: window.low - value for name, value in values.items() if value < window.low}
    above = {name: value - window.high for name, value in values.items() if value > window.high}
    verdict: Verdict = "passed"
    found: list[str] = []
    if below:
        verdict = worse(verdict, subject.cold_verdict if window.sure else "note")
        found.append(f"{_where(below)} below {window.whose}: {subject.cold}.")
    if above:
        verdict = worse(verdict, "caution" if window.sure else "note")
        found.append(f"{_where(above)} above {window.whose}: {subject.hot}.")
    return (verdict, " ".join(found)) if found else ("passed", f"Inside {window.whose}.")


def _where(off: dict[str, float]) -> str:
    """``It is 15 °C``, ``The first layer is 10 °C``, ``It is 15 °C (the first layer 10 °C)``."""
    first = {name: value for name, value in off.items() if name.startswith("first_layer.")}
    main = {name: value for name, value in off.items() if name not in first}
    if not main:
        return f"The first layer is {degrees(*first.values())}"
    aside = (
        "" if not first or {*first.values()} == {*main.values()} else f" (the first layer {degrees(*first.values())})"
    )
    return f"It is {degrees(*main.values())}{aside}"
