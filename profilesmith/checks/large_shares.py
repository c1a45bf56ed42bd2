"""Shares that were rewritten to more than the whole, so that their settings keep their values."""

from fractions import Fraction

from profilesmith.checks.case import Case
from profilesmith.foundation.number import decimal_text
from profilesmith.foundation.words import listed
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
        if name in case.base.entries and _largest(entry) > 1 and entry.shares != case.base.entries[name].shares
    }
    if not large:
        return ()
    words = listed([f"{name} is now {_percent(entry)} of {entry.relative_to}" for name, entry in large.items()])
    text = (
        f"{words}: written so that the value stays where it was. Some software takes a share above "
        "100 % for a slip, or "
        "holds it at 100 %: look at what it shows for these keys before you print."
    )
    return (
        Finding(
            "large-shares",
            "caution",
            "Share above 100 %",
            text,
            source=SOURCE,
            settings=tuple(large),
            reason="share-above-whole",
        ),
    )


def _largest(entry: Entry) -> Fraction:
    return max((share for share in entry.shares if share is not None), default=Fraction(0))


def _percent(entry: Entry) -> str:
    return f"{decimal_text(_largest(entry) * 100, 1)} %"
