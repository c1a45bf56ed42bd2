"""What the checks have to say of a derivation, as data: findings, cautions, and figures to draw."""

from typing import Any, Literal, NamedTuple, get_args

Verdict = Literal["passed", "note", "caution", "stop", "not judged"]
VERDICTS: tuple[Verdict, ...] = get_args(Verdict)
# Worst first; what was not judged is neither good nor bad and comes last.
ORDER: tuple[Verdict, ...] = ("stop", "caution", "note", "passed", "not judged")
ALARMS: tuple[Verdict, ...] = ("stop", "caution")


class Finding(NamedTuple):
    """What a check found.

    verdict: ``passed``; ``note`` (good to know); ``caution`` (likely to go wrong); ``stop`` (harms, breaks or cannot
    work); ``not judged`` (a fact or a setting is missing, or no sound rule reaches that far).
    text: a sentence or two for a maker. before, after, limit, headroom: short, "" where they say nothing; ``before`` is
    "" when one profile is judged alone. source: where limit and formula come from. ask: the question whose answer would
    let the check judge, or judge more narrowly. settings: what it speaks of.
    """

    check: str
    verdict: Verdict
    title: str
    text: str
    before: str = ""
    after: str = ""
    limit: str = ""
    headroom: str = ""
    source: str = ""
    ask: str = ""
    settings: tuple[str, ...] = ()


class Caution(NamedTuple):
    """What may hurt someone. id: a stable word for programs."""

    id: str
    text: str
    source: str


class Judgement(NamedTuple):
    """figures: plain tables, as ``review/render/figures/figure.py`` describes them."""

    findings: tuple[Finding, ...] = ()
    cautions: tuple[Caution, ...] = ()
    figures: tuple[dict[str, Any], ...] = ()
