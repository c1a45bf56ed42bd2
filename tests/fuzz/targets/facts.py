"""Any bytes as a facts file. What loads is also shown and judged."""

from __future__ import annotations

from functools import cache

from profilesmith.facts.facts import fact_kinds
from profilesmith.facts.load_facts import load_facts
from profilesmith.profile.profile import Profile
from profilesmith.review.findings.in_words import judge
from tests.fuzz.engine import Target
from tests.fuzz.targets import toml_words

EMPTY = Profile(entries={}, addable={}, absent={})


def behaviour(data: bytes) -> str:
    facts, problems = load_facts([(data, "facts.toml")])
    for problem in problems:
        assert str(problem), "every problem can be told"
    shown = [fact_kinds()[name].show(fact.value) for name, fact in facts.items()]
    if problems:
        return toml_words.told(list(problems))
    if len(data) % 8 == 0:  # judging takes far longer than reading
        judge(EMPTY, None, facts)
    return f"loaded {sorted(facts)[:6]} {len(shown)}"


@cache
def seeds() -> list[bytes]:
    return toml_words.files("facts*.toml", "facts/*.toml", "machine.toml", "spool.toml", "part.toml")


TARGET = Target("facts", behaviour, seeds, toml_words.tokens)
