"""Shares that were rewritten to more than the whole, so that their settings keep their values."""

from fractions import Fraction

from profilesmith.checks.case import Case
from profilesmith.checks.finding import amount
from profilesmith.ledger.judgement import Finding
from profilesmith.profile.profile import Entry

SOURCE = "common practice, no source"


def check(case: Case) -> tuple[Finding, ...]:
    """One caution for all of them: nothing to say where no share was rewritten to more than the whole."""
    if case.derived is None:
        return ()
    large = {
        name: entry
        for name, entry in case.derived.entries.items()
        if entry.shares and name in case.base.entries
        if entry.shares != case.base.entries[name].shares and _largest(entry) > 1
    }
    if not large:
        return ()
    return (
        Finding(
            "large-shares",
            "caution",
            reason="share-above-whole",
            names=tuple(entry.relative_to or "" for entry in large.values()),
            amounts=tuple(
                part
                for number, entry in enumerate(large.values(), 1)
                for part in amount(f"share-{number}", float(_largest(entry) * 100), "%")
            ),
            source=SOURCE,
            settings=tuple(large),
        ),
    )


def _largest(entry: Entry) -> Fraction:
    return max((share for share in entry.shares if share is not None), default=Fraction(0))
