"""Words on hours, grams, metres and money of the print."""

from collections.abc import Mapping

from profilesmith.checks.amounts import few
from profilesmith.review.findings.said import Numbers, Say, Words, fixed
from profilesmith.review.findings.time_words import path_words

HOURS, PLASTIC = "Hours of this print", "Filament for this print"
MOTION = "A motion file of both prints tells it."
DIGITS = 3  # of grams that somebody weighed


def _grams(numbers: Numbers, name: str) -> str:
    return f"{few(numbers.number(name), DIGITS)} g"


def _path(numbers: Numbers) -> str:
    return f"the path itself changed: {path_words(numbers.names)}"


def _hours(numbers: Numbers) -> str:
    before = f"; the old print took {numbers['before']}" if numbers.get("before") else ""
    return f"It takes {numbers['after']}{before}."


def _plastic(enough: str = "") -> Say:
    """enough: a sentence on the spool, which says how much is left on it."""

    def say(numbers: Numbers) -> str:
        length = f", {numbers['length']}" if numbers.get("length") else ""
        price = f", at a price of {numbers['price']}" if numbers.get("price") else ""
        left = f" The spool's {_grams(numbers, 'most')} {enough}" if enough else ""
        return f"It takes {numbers['after']}{length}{price}.{left}"

    return say


def _short(numbers: Numbers) -> dict[str, str]:
    return {
        "before": _grams(numbers, "before") if numbers.get("before") else "",
        "limit": f"at most {_grams(numbers, 'most')}" if numbers.get("most") else "",
    }


ENOUGH: Mapping[str, str] = {
    "plastic": "",
    "spool-too-short": "are not enough: it runs dry in the middle of the print.",
    "spool-may-be-too-short": "may not be enough: weigh it, and have the next one at hand.",
    "spool-enough": "are enough.",
}
WORDS: Mapping[tuple[str, str], Words] = {
    ("print-hours", "path-changed"): Words(HOURS, _path, known=fixed(MOTION)),
    ("print-hours", "times-not-comparable"): Words(
        HOURS, fixed("the two cannot be compared in time"), known=fixed(MOTION)
    ),
    ("print-hours", "hours"): Words(HOURS, _hours),
    ("plastic", "path-changed"): Words(PLASTIC, _path, known=fixed(MOTION)),
    ("plastic", "density-not-known"): Words(PLASTIC, lambda n: f"the density of {n.names[0]} is not known"),
    **{("plastic", reason): Words(PLASTIC, _plastic(text), short=_short) for reason, text in ENOUGH.items()},
}
