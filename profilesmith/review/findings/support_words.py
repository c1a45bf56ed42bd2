"""Words on the distance between support lines."""

from collections.abc import Mapping

from profilesmith.checks.amounts import few
from profilesmith.review.findings.said import Numbers, Say, Words, fixed

TITLE = "Distance between support lines"
OFF = "Supports are off here: it counts once you turn them on."


def _sags(what: str, contact: bool = False, off: bool = False) -> Say:
    def say(numbers: Numbers) -> str:
        text = (
            f"{what} sags between lines so far apart. At {numbers['enough-density']} they would stand "
            f"{numbers['most']} "
            "apart."
        )
        text += f" The {round(numbers.number('contact-layers'))} contact layers between help." if contact else ""
        return f"{text} {OFF}" if off else text

    return say


def _parallel(numbers: Numbers) -> str:
    return (
        "Close enough if the lines run in one direction; in a crossed pattern they stand "
        f"{few(numbers.number('crossed'))} mm apart. Look at your text's pattern, or lay contact layers between: they "
        "carry the face."
    )


WORDS: Mapping[tuple[str, str], Words] = {
    ("support-spacing", "softness-not-said"): Words(
        TITLE,
        fixed("nobody said whether the spool is soft"),
        asked=True,
        known=lambda n: f"The lines of a support stand {n['after']} apart.",
    ),
    ("support-spacing", "lines-close"): Words(TITLE, fixed("Close enough that an underside stays level.")),
    ("support-spacing", "lines-close-if-parallel"): Words(TITLE, _parallel),
    **{
        ("support-spacing", f"{reason}{contact}{off}"): Words(TITLE, _sags(what, bool(contact), bool(off)))
        for reason, what in (("soft-sags-between-lines", "A soft underside"), ("sags-between-lines", "An underside"))
        for contact in ("", "-contact")
        for off in ("", "-off")
    },
}
