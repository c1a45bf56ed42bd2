"""Words on how long the same path takes."""

from collections.abc import Iterable, Mapping

from profilesmith.checks.amounts import few
from profilesmith.foundation.words import listed
from profilesmith.review.findings.said import Numbers, Words, fixed, sentences

TITLE = "Print time"
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


WORDS: Mapping[tuple[str, str], Words] = {
    ("print-time", "accelerations-of-one-only"): Words(
        TITLE, fixed("only one of the two tells its accelerations"), asked=False
    ),
    ("print-time", "time-bracket"): Words(
        TITLE,
        lambda n: sentences(_whole(n), _mean(n), _left_out(n)),
        short=lambda n: {"after": f"{n['after']} times"},
    ),
}
