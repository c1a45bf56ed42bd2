"""What the checks have to say of a derivation, as data: findings, cautions, and figures to draw."""

from typing import Any, Literal, get_args

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.exact import FIGURE, FLOAT
from profilesmith.ledger.form import LEFT_OUT, Annotated, Further

Verdict = Literal["passed", "note", "caution", "stop", "not judged"]
VERDICTS: tuple[Verdict, ...] = get_args(Verdict)
# Worst first; what was not judged is neither good nor bad and comes last.
ORDER: tuple[Verdict, ...] = ("stop", "caution", "note", "passed", "not judged")
ALARMS: tuple[Verdict, ...] = ("stop", "caution")
WORD = Further(pattern="^[a-z0-9-]+$")


class Amount(NamedTuple):
    """A number behind a finding's words, or the two ends of a bracket. unit: "" of a bare number."""

    name: Annotated[str, "What it is: before, after, most, least or a word of the check's own.", WORD]
    low: Annotated[float, "The number, or the lower end of a bracket.", FLOAT]
    high: Annotated[float, "The same number, or the upper end.", FLOAT]
    unit: Annotated[str, "Its unit; empty of a bare number."] = ""


class Finding(NamedTuple):
    """What a check found.

    A check tells ``reason``, ``also`` and ``amounts``; title, text and the short numbers are made in
    ``review/findings``.

    verdict: ``passed``; ``note`` (good to know); ``caution`` (likely to go wrong); ``stop`` (harms, breaks or cannot
    work); ``not judged`` (a fact or a setting is missing, or no sound rule reaches that far).
    text: a sentence or two for a maker. before, after, limit, headroom: short, "" where they say nothing; ``before`` is
    "" when one profile is judged alone. source: where limit and formula come from. ask: the question whose answer would
    let the check judge, or judge more narrowly. settings: what it speaks of. beside_question: what was not judged in a
    list of open questions, where the question itself says already that nobody told something. misses_aim: a recipe does
    not reach what it is for, though nothing of it was refused. unsuited: what was asked does not suit this text, spool
    or part.
    """

    check: Annotated[str, "The name of the check.", WORD]
    verdict: Annotated[Verdict, "How it judged."]
    title: Annotated[str, "What it looks at."] = ""
    text: Annotated[str, "What it found, in sentences."] = ""
    before: Annotated[str, "Short, for people; empty where nothing is measured."] = ""
    after: Annotated[str, "The same after the change."] = ""
    limit: Annotated[str, "What it is held against."] = ""
    headroom: Annotated[str, "How far it is from the limit."] = ""
    source: Annotated[str, "Where limit and formula come from."] = ""
    ask: Annotated[str, "The question whose answer would let the check judge."] = ""
    settings: Annotated[tuple[str, ...], "The settings that it looks at."] = ()
    beside_question: Annotated[str | None, "Beside its question: why it was not judged.", LEFT_OUT] = None
    misses_aim: Annotated[bool, "Whether a recipe does not reach what it is for.", LEFT_OUT] = False
    reason: Annotated[str, "What was found, a stable word for programs; empty in older ledgers.", LEFT_OUT] = ""
    also: Annotated[tuple[Annotated[str, WORD], ...], "What holds besides, words of the same kind.", LEFT_OUT] = ()
    amounts: Annotated[tuple[Amount, ...], "The numbers behind the words.", LEFT_OUT] = ()
    names: Annotated[tuple[str, ...], "Names that its words use, such as the spool's.", LEFT_OUT] = ()
    tools: Annotated[tuple[int, ...], "The tools that it is found of, from 1; empty of all.", LEFT_OUT] = ()
    unsuited: Annotated[bool, "Whether what was asked does not suit this text, spool or part.", LEFT_OUT] = False


class Caution(NamedTuple):
    """What may hurt someone. id: a stable word for programs."""

    id: Annotated[str, "A stable word for programs.", WORD]
    text: Annotated[str, "The caution."]
    source: Annotated[str, "Where it comes from."]


Figures = tuple[Annotated[dict[str, Any], FIGURE], ...]


class Judgement(NamedTuple):
    """figures: plain tables, as ``review/render/figures/figure.py`` describes them."""

    findings: tuple[Finding, ...] = ()
    cautions: tuple[Caution, ...] = ()
    figures: Figures = ()
