"""A judgement in words. Comes in: findings with reasons and numbers. Goes out: the same with their words.

A finding that tells its words itself keeps them; a reason that is not known here (of a later version) stays without.
"""

from collections.abc import Mapping
from functools import lru_cache

from profilesmith.checks import judge as checks
from profilesmith.checks.measured import UNKNOWN, Measured
from profilesmith.facts.facts import Facts
from profilesmith.foundation.words import listed
from profilesmith.ledger.judgement import Finding, Judgement
from profilesmith.profile.profile import Profile
from profilesmith.review.findings import (
    bead_words,
    face_words,
    facts_words,
    finish_words,
    flow_words,
    heat_words,
    spending_words,
    stiffness_words,
    together_words,
    transport_words,
    use_words,
)
from profilesmith.review.findings.figure_words import figure_in_words
from profilesmith.review.findings.said import Numbers, Words

WORDS: Mapping[tuple[str, str], Words] = {
    **heat_words.WORDS,
    **bead_words.WORDS,
    **face_words.WORDS,
    **together_words.WORDS,
    **flow_words.WORDS,
    **spending_words.WORDS,
    **stiffness_words.WORDS,
    **finish_words.WORDS,
    **transport_words.WORDS,
    **use_words.WORDS,
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
