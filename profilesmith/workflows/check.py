"""Check: what the settings of one profile do, judged with the facts."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path

from profilesmith import __version__
from profilesmith.facts.facts import Facts
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.foundation.words import plural
from profilesmith.ledger.file import FORMAT, CheckFile
from profilesmith.ledger.judgement import Finding
from profilesmith.ledger.place import ledger_beside
from profilesmith.ledger.write import facts_said, values_of_profile
from profilesmith.review.build_comparison import comparison_review
from profilesmith.review.command import command
from profilesmith.review.findings.facts_words import unusable
from profilesmith.review.findings.in_words import judge
from profilesmith.review.reading_notes import reading_notes
from profilesmith.review.review import Review
from profilesmith.review.since_words import read_with
from profilesmith.review.standing import held_values
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.derived_file import load_ledger
from profilesmith.workflows.edits_beside import edits_beside
from profilesmith.workflows.known_map import known_map
from profilesmith.workflows.read import read, read_facts
from profilesmith.workflows.request import Request

# A fact that cannot be right is named and left out; the rest is judged all the same.
BEARABLE = ("fact-value", "fact-range")
MOST_EDITS = 4


def check(request: Request) -> Review:
    """Judge one profile. Raises Refused for texts, maps and facts files that cannot be read.

    Where the request names no map, it is the one that the first text's ledger knows. That ledger's facts and answers
    hold, too, unless a facts file says otherwise.
    """
    notes: list[str] = []
    if not request.key_map:
        stored, note = known_map(request.bases[:1])
        request, notes = request._replace(key_map=stored), [visible(note)]
    problems: list[Problem] = []
    facts = read_facts(request.facts, request.library, problems)
    refuse_if(problem for problem in problems if problem.code not in BEARABLE)
    remembered = facts_remembered(request.bases)
    new = sum(name not in facts for name in remembered)
    notes += [f"{plural(new, 'fact')} and answers are as the ledger beside it says."] if new else []
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
        "What these settings do",
        subject,
        [*notes, *reading_notes(translation)],
        file,
        held=held_values(translation.profile, load_vocabulary()),
    )
    return review._replace(edits=tuple(_edits_told(request.bases)))


def _edits_told(texts: Sequence[str]) -> Iterator[str]:
    """That a text is no longer as it was derived: the first few edits, and which command tells of all."""
    edits = edits_beside(texts)
    yield from (f"Edited since it was derived: {visible(text)}" for text in edits[:MOST_EDITS])
    if len(edits) > MOST_EDITS:
        yield f"{plural(len(edits) - MOST_EDITS, 'more edit')}: '{command('review', texts[0])}' tells of all"


def facts_remembered(texts: Sequence[str]) -> Facts:
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
