"""Words on printing speeds and the spool's label."""

from collections.abc import Mapping

from profilesmith.foundation.words import listed
from profilesmith.review.findings.flow_words import NAMES
from profilesmith.review.findings.said import Numbers, Words

TITLE = "Printing speed"


def _above(numbers: Numbers) -> str:
    many = len(numbers.names)
    who = f"Faster than the spool's label allows: {listed(numbers.names)}."
    return f"{who} Slow {'them' if many > 1 else 'it'} to {numbers['most']}, or try a small piece first."


def _within(numbers: Numbers) -> str:
    unread = [NAMES[code.removeprefix("no-speed-")] for code in numbers.also if code.startswith("no-speed-")]
    if not unread:
        return "No feature is faster than the spool's label allows."
    text = "Nothing that was read is faster than the spool's label allows."
    return f"{text} No speed was read for {listed(unread)}: not judged."


WORDS: Mapping[tuple[str, str], Words] = {
    ("label-speed", "above-label-speed"): Words(TITLE, _above),
    ("label-speed", "within-label-speed"): Words(TITLE, _within),
}
