"""A derivation as a review: what happened to every setting, and what follows from it."""

import hashlib
from collections.abc import Sequence

from profilesmith import __version__
from profilesmith.checks.judge import judge
from profilesmith.engine.text_notes import reading_notes, unmapped_lines, unread_lines
from profilesmith.facts.facts import Facts
from profilesmith.ledger import Ledger
from profilesmith.ledger.judgement import Judgement
from profilesmith.ledger.write import Json, ledger_json
from profilesmith.review.build_review import ledger_review
from profilesmith.review.review import Review
from profilesmith.text.document import Document
from profilesmith.translation.document_to_profile import Translation
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

_NO_WORDS = Review(
    title="",
    subject="",
    recipes=(),
    groups=(),
    by_hand=(),
    questions=(),
    kept=(),
    idle=(),
    overruled=(),
    conflicts=(),
    literals=(),
    unmapped=(),
    unread=(),
    notes=(),
    assumed=(),
    cautions=(),
    data={},
)


def derivation_review(
    translation: Translation, ledger: Ledger, facts: Facts, literals: Sequence[str], words: bool = True
) -> Review:
    """What happened and what follows from it, as data and, with words, arranged for a person."""
    names = ", ".join(document.name for document in translation.documents)
    unmapped = unmapped_lines(translation)
    # With a conflict nothing is written, so there is no result to judge.
    judgement = Judgement() if ledger.problems else judge(ledger.base, ledger.derived, facts)
    data = ledger_json(
        ledger,
        [_file(document) for document in translation.documents],
        translation.key_map.name,
        literals,
        [{"file": line.file, "line": line.line, "key": line.key, "text": line.text} for line in unmapped],
        __version__,
        judgement,
    )
    if not words:
        return _NO_WORDS._replace(data=data)
    return ledger_review(
        ledger,
        load_vocabulary(),
        f"{names} read with the map {translation.key_map.name!r}",
        literals,
        unmapped,
        unread_lines(translation),
        reading_notes(translation),
        data,
    )


def _file(document: Document) -> Json:
    raw = document.codec.encode(document.text)
    return {"name": document.name, "sha256": hashlib.sha256(raw).hexdigest()}
