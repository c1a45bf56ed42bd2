"""A judgement in words. Comes in: findings with reasons and numbers. Goes out: the same with their words.

A finding that tells its words itself keeps them; a reason that is not known here (of a later version) stays without.
Of figures: title, note, names of the axes.
"""

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from profilesmith.checks import judge as checks
from profilesmith.checks.beads import FEATURES, feature_code
from profilesmith.checks.case import UNKNOWN, Measured
from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.words import listed, plural
from profilesmith.ledger.judgement import Finding, Judgement
from profilesmith.profile.profile import Profile
from profilesmith.review.findings import (
    Numbers,
    Words,
    bead_words,
    facts_words,
    finish_words,
    flow_words,
    heat_words,
    spending_words,
    stiffness_words,
)

Figure = dict[str, Any]


class FigureWords(NamedTuple):
    """note: without what ``also`` says. x_name, y_name: of lines."""

    title: str
    note: str = ""
    x_name: str = ""
    y_name: str = ""


FIGURES: Mapping[str, FigureWords] = {
    "flow": FigureWords(
        "Flow of each feature", "Area of the bead times its speed, as set; what is switched off is left out."
    ),
    "stiffness": FigureWords(
        "Bending stiffness over infill",
        "A strip that {}, {}, against a solid one (1). The truth lies between the two lines of a side.",
        "infill",
        "stiffness of a solid strip",
    ),
    "softness": FigureWords(
        "Softness over thickness",
        "Bending stiffness in one and the same plastic, against the part as it was; another plastic moves all alike.",
        "thickness",
        "bending stiffness",
    ),
    "time": FigureWords(
        "Time over the length of moves",
        "Moves from rest to rest whose lengths scatter around a mean; an estimate, not the minutes of a print.",
        "mean length of a move",
        "time, new over old",
    ),
    "temperature-windows": FigureWords(
        "Temperatures, spool and machine",
        "The band is what the spool's label allows (or what is usual for its material) and the machine reaches.",
    ),
    "nozzle-windows": FigureWords(
        "Layers, beads and nozzle",
        "The band is what is usual for the nozzle: layers of 25 to 75 % and beads of 100 to 150 % of its diameter.",
    ),
}
ALSO = {
    "standing": "stands",
    "lying": "lies flat",
    "own-width": "of the part's width",
    "wide": "so wide that side walls hardly count",
}
NAMES: Mapping[str, str] = {
    **{feature_code(feature): name for feature, name in FEATURES},
    "as-it-was": "the part as it was",
    "asked": "asked for",
    "at-least": "at least",
    "at-most": "at most",
    "bed-first-layer": "bed, first layer",
    "hot-end-limit": "hot end limit",
    "nozzle-first-layer": "nozzle, first layer",
    "outer-wall-bead": "outer wall's bead",
    "profile-limit": "profile limit",
    "spool-limit": "spool limit",
}
"""Of what is not here, the code is the word."""
BEHIND = {"of-this-part": " of this part"}
FACES = {"standing": "wall", "lying": "closing layer"}
Code = str | tuple[int, str]


def figure_in_words(figure: Figure) -> Figure:
    """As ``review/render/figures/figure.py`` reads it; one that has its words already stays as it is."""
    words = FIGURES.get(figure["id"])
    if words is None or "title" in figure:
        return figure
    axes = {"x_name": words.x_name, "x_unit": figure["x_unit"], "y_name": words.y_name} if words.x_name else {}
    return {
        "id": figure["id"],
        "title": words.title,
        "kind": figure["kind"],
        "unit": figure["unit"],
        "series": [_series(item) for item in figure["series"]],
        "limits": [{**item, "name": _name(item["name"])} for item in figure["limits"]],
        "marks": [{**item, "name": _name(item["name"])} for item in figure["marks"]],
        "note": words.note.format(*(ALSO[code] for code in figure.get("also", ()))),
        **axes,
    }


def _series(series: Mapping[str, Any]) -> dict[str, Any]:
    points = [[NAMES.get(x, x) if isinstance(x, str) else x, y] for x, y in series["points"]]
    return {**series, "name": _name(series["name"]), "points": points}


def _name(codes: tuple[Code, ...]) -> str:
    """``2 walls, at least``, ``outer wall of this part``."""
    first, *rest = codes
    return _word(first) + "".join(BEHIND.get(str(code)) or f", {_word(code)}" for code in rest)


def _word(code: Code) -> str:
    return NAMES.get(code, code) if isinstance(code, str) else plural(code[0], FACES[code[1]])


WORDS: Mapping[tuple[str, str], Words] = {
    **heat_words.WORDS,
    **bead_words.WORDS,
    **flow_words.WORDS,
    **spending_words.WORDS,
    **stiffness_words.WORDS,
    **finish_words.WORDS,
    **facts_words.WORDS,
}
"""Check and reason -> words."""


def judge(base: Profile, derived: Profile | None, facts: Facts, measured: Measured = UNKNOWN) -> Judgement:
    """All checks of a change, or of the base alone, in words."""
    judgement = checks.judge(base, derived, facts, measured)
    findings, figures = map(in_words, judgement.findings), map(figure_in_words, judgement.figures)
    return judgement._replace(findings=tuple(findings), figures=tuple(figures))


def in_words(finding: Finding) -> Finding:
    """The finding with title, text, short numbers, and the tools behind its title where not all have it."""
    if (finding.check, finding.reason) in WORDS:
        finding = _worded(finding)
    return finding._replace(title=f"{finding.title} ({_tools(finding.tools)})") if finding.tools else finding


@lru_cache(maxsize=4096)  # texts of one workshop differ in few numbers: most of what is said of one holds of many
def _worded(finding: Finding) -> Finding:
    words = WORDS[finding.check, finding.reason]
    numbers = Numbers(finding)
    text, not_judged = words.say(numbers), finding.verdict == "not judged" and not words.whole
    known = words.known(numbers) if words.known else ""
    bounds = [f"at {name} {numbers[name]}" for name in ("least", "most") if numbers.get(name)]
    short = {
        "before": numbers.get("before"),
        "after": numbers.get("after"),
        "limit": numbers.get("allowed") or (" and ".join(bounds) if numbers.get("after") else ""),
        "headroom": numbers.get("headroom"),
    }
    if words.short:
        short |= words.short(numbers)
    return finding._replace(
        title=words.title,
        text=f"Not judged, because {text}. {known}".rstrip() if not_judged else text,
        before=short["before"],
        after=short["after"],
        limit=short["limit"],
        headroom=short["headroom"],
        ask=words.ask or finding.ask,
        beside_question=_beside(text, words.asked, known) if not_judged else None,
    )


def _beside(clause: str, asked: bool, known: str) -> str:
    return known if asked else f"{clause[:1].upper()}{clause[1:]}. {known}".rstrip()


def _tools(numbers: tuple[int, ...]) -> str:
    return f"tool{'s' if len(numbers) > 1 else ''} {listed(map(str, numbers))}"
