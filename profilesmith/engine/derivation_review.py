"""A derivation as a ledger's file and as a review: what happened to every setting, and what follows from it."""

from collections.abc import Sequence

from profilesmith import __version__
from profilesmith.checks.case import UNKNOWN, Measured
from profilesmith.foundation.digest import sha256_hex
from profilesmith.ledger import FileHash, Ledger, StartCommand
from profilesmith.ledger.file import LedgerFile
from profilesmith.ledger.judgement import Finding, Judgement
from profilesmith.ledger.write import ledger_file
from profilesmith.review.build_review import ledger_review
from profilesmith.review.findings.in_words import judge
from profilesmith.review.reading_notes import read_with, reading_notes, unmapped_lines, unread_lines
from profilesmith.review.review import Review
from profilesmith.review.wording import visible
from profilesmith.text.document import Document
from profilesmith.translation.document_to_profile import Translation
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


def derivation_file(
    translation: Translation, ledger: Ledger, literals: Sequence[StartCommand], measured: Measured = UNKNOWN
) -> LedgerFile:
    """What happened and what follows from it. With a conflict nothing is written, so there is no result to judge.

    measured: of motion files.
    """
    judgement = Judgement() if ledger.problems else judge(ledger.base, ledger.derived, ledger.facts, measured)
    files = [_file(document) for document in translation.documents]
    unmapped = unmapped_lines(translation)
    judgement = judgement._replace(findings=(*_unread(translation), *judgement.findings))
    return ledger_file(ledger, files, translation.key_map.name, literals, unmapped, __version__, judgement)


def _unread(translation: Translation) -> tuple[Finding, ...]:
    """The caution on lines that look like settings and were not read."""
    if not any(document.unread for document in translation.documents):
        return ()
    from profilesmith.review.unread_lines import unread_finding  # few texts have such lines

    return unread_finding(translation)


def derivation_review(translation: Translation, ledger: Ledger, file: LedgerFile) -> Review:
    """The same, arranged for a person."""
    subject = read_with((document.name for document in translation.documents), translation.key_map.name)
    unread, notes = unread_lines(translation), reading_notes(translation)
    review = ledger_review(ledger, load_vocabulary(), subject, file, unread, notes)
    return review._replace(
        texts=tuple(visible(document.name) for document in translation.documents),
        map_name=visible(translation.key_map.name),
    )


def _file(document: Document) -> FileHash:
    return FileHash(document.name, sha256_hex(document.codec.encode(document.text)))
