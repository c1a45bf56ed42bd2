"""Words on what closes the part and what hangs: closing layers, overhangs."""

from collections.abc import Mapping

from profilesmith.foundation.words import plural
from profilesmith.review.findings.said import Numbers, Words

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


WORDS: Mapping[tuple[str, str], Words] = {
    **{
        (check, f"skin-{state}{more}"): Words(title, _skin)
        for check, title in SIDES.items()
        for state in STATES
        for more in ("", "-thinner")
    },
    ("overhang", "overhang-rests"): Words("Overhang without support", _rests),
    ("overhang", "overhang-droops"): Words("Overhang without support", _droops),
}
