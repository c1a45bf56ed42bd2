"""What one check has to say: its numbers by name, and the worse of two verdicts."""

from profilesmith.ledger.judgement import ORDER, Amount, Verdict
from profilesmith.physics.answer import Bracket

DIGITS = 6  # more than any model here carries


def amount(name: str, value: float | None, unit: str = "") -> tuple[Amount, ...]:
    """One number by its name; () where it is not known."""
    if value is None:
        return ()
    shown = _told(value)
    return (Amount(name, shown, shown, unit),)


def between(name: str, ends: Bracket | None, unit: str = "", scale: float = 1.0) -> tuple[Amount, ...]:
    """A bracket by its name, times a scale (100 makes per cent of a share); () where it is not known."""
    return () if ends is None else (Amount(name, ends.low * scale + 0.0, ends.high * scale + 0.0, unit),)


def _told(value: float) -> float:
    return float(f"{value:.{DIGITS}g}") + 0.0  # a nothing without a sign: equal numbers are written alike


def worse(one: Verdict, other: Verdict) -> Verdict:
    """The worse of two verdicts."""
    return min(one, other, key=ORDER.index)
