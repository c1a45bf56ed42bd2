"""Words on the stretch at the bend."""

from collections.abc import Mapping

from profilesmith.review.findings.said import Numbers, Say, Words, fixed

TITLE, TRIAL = "Stretch at the bend", "How does a trial bend of the part come out?"
NOT_SAID, FILAMENT = "nobody said how thick the part is and how tightly it is bent", "nobody said which filament it is"
SHARP = "the bend is sharper than the part is thick, where the middle no longer keeps its length"


def _stretched(numbers: Numbers) -> str:
    return f"Bent to {numbers['radius']}, a part of {numbers['part']} is stretched by {numbers['after']}."


def _bend(word: str = "") -> Say:
    def say(numbers: Numbers) -> str:
        text = f"The outside is stretched by {numbers['after']}; {numbers.names[0]} breaks at {numbers.ends('breaks')}."
        if not word:
            return text
        radius = numbers.get("safe-radius") and numbers.rounded("safe-radius")
        return f"{text} {word}." + (f" A radius of {radius} or a thinner part would be safe." if radius else "")

    return say


WORDS: Mapping[tuple[str, str], Words] = {
    ("bending", "bend-not-said"): Words(TITLE, fixed(NOT_SAID), asked=True),
    ("bending", "filament-not-said"): Words(TITLE, fixed(FILAMENT), asked=True, known=_stretched),
    ("bending", "folded-flat"): Words(TITLE, fixed("the part is folded flat"), ask=TRIAL),
    ("bending", "bend-too-sharp"): Words(TITLE, fixed(SHARP), ask=TRIAL),
    ("bending", "bend-stands"): Words(TITLE, _bend()),
    ("bending", "bend-may-crack"): Words(TITLE, _bend("It may crack there")),
    ("bending", "bend-breaks"): Words(TITLE, _bend("It will break")),
}
