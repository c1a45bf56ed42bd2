"""What one check has to say: findings that were not judged, and the worse of two verdicts."""

from profilesmith.ledger.judgement import ORDER, Amount, Finding, Verdict
from profilesmith.physics.answer import Bracket

DIGITS = 6  # more than any model here carries


def not_judged(
    check: str, title: str, reason: str, ask: str = "", settings: tuple[str, ...] = (), known: str = ""
) -> Finding:
    """reason: a clause that follows "because". known: a sentence on what can be said all the same."""
    text, told = f"Not judged, because {reason}. {known}".rstrip(), f"{reason}. {known}".rstrip()
    beside = told[:1].upper() + told[1:]
    return Finding(
        check, "not judged", title, text, ask=ask, settings=settings, beside_question=beside, reason="not-known"
    )


def not_said(check: str, title: str, what: str, ask: str, settings: tuple[str, ...] = (), known: str = "") -> Finding:
    """Nobody said something: the question says so already. what: a clause, such as "how thick the part is"."""
    found = not_judged(check, title, f"nobody said {what}", ask, settings, known)
    return found._replace(beside_question=known, reason="not-said")


def amount(name: str, value: float | None, unit: str = "") -> tuple[Amount, ...]:
    """One number by its name; () where it is not known."""
    return () if value is None else (Amount(name, _told(value), _told(value), unit),)


def between(name: str, ends: Bracket | None, unit: str = "", scale: float = 1.0) -> tuple[Amount, ...]:
    """A bracket by its name, times a scale (100 makes per cent of a share); () where it is not known."""
    return () if ends is None else (Amount(name, ends.low * scale, ends.high * scale, unit),)


def _told(value: float) -> float:
    return float(f"{value:.{DIGITS}g}")


def worse(one: Verdict, other: Verdict) -> Verdict:
    """The worse of two verdicts."""
    return min(one, other, key=ORDER.index)
