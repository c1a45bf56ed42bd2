"""Finding: what one check has to say."""

from typing import Literal, NamedTuple, get_args

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


def not_judged(
    check: str, title: str, reason: str, ask: str = "", settings: tuple[str, ...] = (), known: str = ""
) -> Finding:
    """reason: a clause that follows "because". known: a sentence on what can be said all the same."""
    text = f"Not judged, because {reason}. {known}".rstrip()
    return Finding(check, "not judged", title, text, ask=ask, settings=settings)


def worse(one: Verdict, other: Verdict) -> Verdict:
    """The worse of two verdicts."""
    return min(one, other, key=ORDER.index)
