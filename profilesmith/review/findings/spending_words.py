"""Words on what a print takes: the time of the same path, hours, grams, metres and money."""

from collections.abc import Iterable, Mapping

from profilesmith.checks.amounts import few
from profilesmith.foundation.words import listed
from profilesmith.review.findings import Numbers, Say, Words, fixed, sentences

TIME = "Print time"
STOPS = (
    "the least if every move stops at its ends, the most if none does, as on curved walls "
    "(constant acceleration; a limit on its growth is left out)."
)
PATHS: Mapping[str, str] = {
    "wall.count": "the number of walls",
    "infill.density": "the infill",
    "top.layers": "the closing layers",
    "bottom.layers": "the closing layers",
    "support.density": "supports",
    "support.on": "supports",
    "raft.on": "the raft",
    "bead.width": "the bead's width",
    "brim.on": "the brim",
}
"""What a setting changes about the path, as a person calls it."""


def path_words(settings: Iterable[str]) -> str:
    """``the number of walls and the raft``."""
    return listed(dict.fromkeys(PATHS.get(name, name) for name in settings))


def _whole(numbers: Numbers) -> str:
    item = numbers.amounts["after"]
    if item.low < item.high:
        return f"The same path takes {numbers['after']} times as long, depending on how short its moves are."
    if item.low == 1:
        return "The same path takes as long as before."
    return f"The same path takes {numbers['after']} times as long."


def _mean(numbers: Numbers) -> str:
    if not numbers.get("mean"):
        return ""
    return f"With moves of {numbers['mean-move']} on average it is {numbers['mean']} times: {STOPS}"


def _left_out(numbers: Numbers) -> str:
    wait, changed = numbers.amounts.get("layer-time"), path_words(numbers.names)
    return sentences(
        f"That a layer now takes at least {few(wait.low)} s is not counted." if wait else "",
        f"That {changed} changed alters the path itself and is not counted." if changed else "",
    )


_TIME: Mapping[tuple[str, str], Words] = {
    ("print-time", "accelerations-of-one-only"): Words(
        TIME, fixed("only one of the two tells its accelerations"), asked=False
    ),
    ("print-time", "time-bracket"): Words(
        TIME,
        lambda n: sentences(_whole(n), _mean(n), _left_out(n)),
        short=lambda n: {"after": f"{n['after']} times"},
    ),
}


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
_SPENT: Mapping[tuple[str, str], Words] = {
    ("print-hours", "path-changed"): Words(HOURS, _path, known=fixed(MOTION)),
    ("print-hours", "times-not-comparable"): Words(
        HOURS, fixed("the two cannot be compared in time"), known=fixed(MOTION)
    ),
    ("print-hours", "hours"): Words(HOURS, _hours),
    ("plastic", "path-changed"): Words(PLASTIC, _path, known=fixed(MOTION)),
    ("plastic", "density-not-known"): Words(PLASTIC, lambda n: f"the density of {n.names[0]} is not known"),
    **{("plastic", reason): Words(PLASTIC, _plastic(text), short=_short) for reason, text in ENOUGH.items()},
}


WORDS: Mapping[tuple[str, str], Words] = {**_TIME, **_SPENT}
