"""Words on what closes the part, what hangs, and what holds it up: closing layers, overhangs, support lines."""

from collections.abc import Mapping

from profilesmith.checks.amounts import few
from profilesmith.foundation.words import plural
from profilesmith.review.findings.said import Numbers, Say, Words, fixed

SIDES = {"skin-top": "Closing layers above", "skin-bottom": "Closing layers below"}
STATES = ("none", "thin", "closed")


def _skin(numbers: Numbers) -> str:
    parts = [f"{_layers(numbers, 'layers')} {'makes' if numbers.number('layers') == 1 else 'make'} {numbers['after']}."]
    if numbers.number("after") == 0:
        parts = ["No closing layers: the filling stays open to this side."]
    elif numbers.get("layers-to-close"):
        more = f"{_layers(numbers, 'layers-to-close')} would make at least {numbers['least']}."
        parts.append(f"So thin a skin may show holes; {more}")
    if numbers.get("layers-as-before"):
        more = f"{_layers(numbers, 'layers-as-before')} would keep it."
        parts.append(f"That is thinner than the {numbers['before']} it was; {more}")
    return " ".join(parts)


def _layers(numbers: Numbers, name: str) -> str:
    return plural(round(numbers.number(name)), "layer")


def _rests(numbers: Numbers) -> str:
    return (
        f"On a face that leans {numbers['lean']} from the vertical, {numbers['after']} of the bead "
        "rests on the one below."
    )


def _droops(numbers: Numbers) -> str:
    help_ = f"let support begin at {numbers['better-lean']} or lay thinner layers."
    return f"{_rests(numbers)} Less than a quarter droops easily: {help_}"


_FACES: Mapping[tuple[str, str], Words] = {
    **{
        (check, f"skin-{state}{more}"): Words(title, _skin)
        for check, title in SIDES.items()
        for state in STATES
        for more in ("", "-thinner")
    },
    ("overhang", "overhang-rests"): Words("Overhang without support", _rests),
    ("overhang", "overhang-droops"): Words("Overhang without support", _droops),
}


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


_SUPPORTS: Mapping[tuple[str, str], Words] = {
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


WORDS: Mapping[tuple[str, str], Words] = {**_FACES, **_SUPPORTS}
