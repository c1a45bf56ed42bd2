"""Check: what the settings of one profile do, judged with the facts."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from profilesmith import __version__
from profilesmith.facts.facts import Facts
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger.file import FORMAT, CheckFile
from profilesmith.ledger.judgement import Finding
from profilesmith.ledger.place import ledger_beside
from profilesmith.ledger.write import facts_said, values_of_profile
from profilesmith.review.build_comparison import JUDGED_ALONE, WHAT_THEY_DO, comparison_review
from profilesmith.review.findings.facts_words import unusable
from profilesmith.review.findings.in_words import judge
from profilesmith.review.known_words import facts_remembered, first_edits, map_remembered
from profilesmith.review.reading_notes import read_with, reading_notes
from profilesmith.review.review import Review
from profilesmith.review.standing import held_values
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.derived_file import load_ledger
from profilesmith.workflows.edits_beside import edits_beside
from profilesmith.workflows.known_map import known_map
from profilesmith.workflows.read import read, read_facts
from profilesmith.workflows.request import Request

# A fact that cannot be right is named and left out; the rest is judged all the same.
BEARABLE = ("fact-value", "fact-range")


def check(request: Request) -> Review:
    """Judge one profile. Raises Refused for texts, maps and facts files that cannot be read.

    Where the request names no map, it is the one that the first text's ledger knows. That ledger's facts and answers
    hold, too, unless a facts file says otherwise.
    """
    notes: list[str] = []
    if not request.key_map:
        stored = known_map(request.bases[:1])
        request, notes = request._replace(key_map=stored.path), [map_remembered(*stored)]
    problems: list[Problem] = []
    facts = read_facts(request.facts, request.library, problems)
    refuse_if(problem for problem in problems if problem.code not in BEARABLE)
    remembered = facts_then(request.bases)
    notes += facts_remembered(sum(name not in facts for name in remembered))
    facts = {**remembered, **facts}
    translation = read(request)
    judgement = judge(translation.profile, None, facts, request.measured)
    judgement = judgement._replace(findings=(*map(_unusable, problems), *judgement.findings))
    file = CheckFile(
        FORMAT,
        "profilesmith check",
        f"profilesmith {__version__}",
        facts_said(facts),
        values_of_profile(translation.profile),
        *judgement,
    )
    subject = read_with((document.name for document in translation.documents), translation.key_map.name)
    review = comparison_review(
        (),
        load_vocabulary(),
        WHAT_THEY_DO,
        subject,
        [JUDGED_ALONE, *notes, *reading_notes(translation)],
        file,
        held=held_values(translation.profile, load_vocabulary()),
    )
    return review._replace(edits=tuple(first_edits(edits_beside(request.bases), request.bases[0])))


def facts_then(texts: Sequence[str]) -> Facts:
    """The facts and answers that the first ledger beside some texts holds; none where it cannot be read."""
    for text in texts:
        if os.path.isfile(ledger_beside(Path(text))):
            try:
                return load_ledger(text).ledger.facts
            except Refused:  # a text is judged without it
                return {}
    return {}


def _unusable(problem: Problem) -> Finding:
    return unusable(f"{problem.place}: {problem.message.rstrip('.')}", problem.hint)
