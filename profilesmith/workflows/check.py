"""Check: what the settings of one profile do, judged with the facts."""

from __future__ import annotations

from profilesmith import __version__
from profilesmith.checks.judge import judge
from profilesmith.checks.sound_facts import unusable
from profilesmith.engine.text_notes import reading_notes
from profilesmith.facts.facts import Facts, fact_kinds
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.ledger.judgement import Finding
from profilesmith.ledger.write import judgement_json, profile_json
from profilesmith.review.build_review import comparison_review
from profilesmith.review.consequences import CHECK_KIND
from profilesmith.review.review import Review
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.known_map import known_map
from profilesmith.workflows.read import read, read_facts
from profilesmith.workflows.request import Request

# A fact that cannot be right is named and left out; the rest is judged all the same.
BEARABLE = ("fact-value", "fact-range")


def check(request: Request) -> Review:
    """Judge one profile. Raises Refused for texts, maps and facts files that cannot be read.

    Where the request names no map, it is the one that the first text's ledger knows.
    """
    told: list[str] = []
    if not request.key_map:
        found, note = known_map(request.bases[:1])
        request, told = request._replace(key_map=found), [visible(note)]
    problems: list[Problem] = []
    facts = read_facts(request.facts, request.library, problems)
    refuse_if(problem for problem in problems if problem.code not in BEARABLE)
    translation = read(request)
    judgement = judge(translation.profile, None, facts)
    judgement = judgement._replace(findings=(*map(_unusable, problems), *judgement.findings))
    data = {
        "format": 1,
        "kind": CHECK_KIND,
        "written_by": f"profilesmith {__version__}",
        "facts": _shown(facts),
        "profile": profile_json(translation.profile),
        **judgement_json(judgement),
    }
    names = ", ".join(document.name for document in translation.documents)
    subject = f"{names} read with the map {translation.key_map.name!r}"
    return comparison_review(
        (), load_vocabulary(), "What these settings do", subject, [*told, *reading_notes(translation)], data
    )


def _unusable(problem: Problem) -> Finding:
    return unusable(f"{problem.place}: {problem.message.rstrip('.')}", problem.hint)


def _shown(facts: Facts) -> dict[str, str]:
    return {name: fact_kinds()[name].show(fact.value) for name, fact in facts.items()}
