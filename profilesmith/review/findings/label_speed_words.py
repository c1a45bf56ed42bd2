"""Words on printing speeds and the spool's label."""

from collections.abc import Mapping

from profilesmith.foundation.words import listed
from profilesmith.review.findings.said import Numbers, Words, fixed

TITLE = "Printing speed"


def _above(numbers: Numbers) -> str:
    many = len(numbers.names)
    who = f"Faster than the spool's label allows: {listed(numbers.names)}."
    return f"{who} Slow {'them' if many > 1 else 'it'} to {numbers['most']}, or try a small piece first."


WORDS: Mapping[tuple[str, str], Words] = {
    ("label-speed", "above-label-speed"): Words(TITLE, _above),
    ("label-speed", "within-label-speed"): Words(TITLE, fixed("No feature is faster than the spool's label allows.")),
}
