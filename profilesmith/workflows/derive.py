"""Derive: base files, a map and recipes to new texts, audited, and the review of what changed."""

import hashlib
import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from profilesmith import __version__
from profilesmith.audit import audit
from profilesmith.checks.judge import judge
from profilesmith.facts.facts import Facts
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger import FileHash, Ledger, StartCommand
from profilesmith.ledger.file import LedgerFile
from profilesmith.ledger.judgement import Judgement
from profilesmith.ledger.packed import pack
from profilesmith.ledger.place import ledger_beside
from profilesmith.ledger.write import file_text, ledger_file
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.build_review import ledger_review
from profilesmith.review.render import render
from profilesmith.review.review import Review
from profilesmith.text.document import Document, Edit, Habits
from profilesmith.text.edit_document import edit_document
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.translation.ledger_to_edits import write_ledger
from profilesmith.translation.start_block import contradictions, follow_literals, left_alone
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.call import call, with_texts
from profilesmith.workflows.read import (
    answered_facts,
    read_answers,
    read_documents,
)
from profilesmith.workflows.request import Request
from profilesmith.workflows.shelf import Shelf
from profilesmith.workflows.text_notes import reading_notes, unmapped_lines, unread_lines
from profilesmith.write_files import outputs_free, write_whole

Reports = Sequence[tuple[str, str]]
"""The name and the form of each report."""


class Derivation(NamedTuple):
    """outputs: the new bytes, one for each base file; empty when conflicts stand against writing.

    file: the ledger as it is written. told: the review, where somebody will read it.
    inputs: every file that was read. request: what was asked for. made: the texts as the recipes alone made them,
    where hand edits stand in ``outputs``; () where they are the same.
    """

    translation: Translation
    recipes: tuple[Recipe, ...]
    ledger: Ledger
    file: LedgerFile
    told: Review | None
    outputs: tuple[bytes, ...]
    inputs: tuple[str, ...] = ()
    request: Request | None = None
    made: tuple[bytes, ...] = ()

    @property
    def review(self) -> Review:
        """The review of one that was derived with words."""
        assert self.told is not None
        return self.told

    @property
    def problems(self) -> tuple[Problem, ...]:
        return self.ledger.problems


def derive(request: Request, shelf: Shelf | None = None, words: bool = True) -> Derivation:
    """Run the whole pipeline without writing anything. Raises Refused for wrong input, not for conflicts.

    shelf: what earlier derivations of the same run have read. words: whether somebody will read the review.
    """
    return carry_out(request, *apply(request, shelf), words)


def carry_out(
    request: Request,
    translation: Translation,
    recipes: Sequence[Recipe],
    facts: Facts,
    ledger: Ledger,
    words: bool = True,
) -> Derivation:
    """A ledger to new bytes, audited, and their review; without words its data only."""
    vocabulary = load_vocabulary()
    writing = write_ledger(ledger, translation, vocabulary)
    found = contradictions(translation, ledger.derived)
    edits: list[list[Edit]] = [list(items) for items in writing.edits]
    ledger = writing.ledger
    if request.follow_literals:
        ledger, more, found = follow_literals(ledger, found, translation)
        edits = [mine + theirs for mine, theirs in zip(edits, more, strict=True)]
    outputs = () if ledger.problems else new_texts(translation, edits, ledger)
    file = derivation_file(translation, ledger, left_alone(found, translation))
    review = derivation_review(translation, ledger, file) if words else None
    return Derivation(
        translation=translation,
        recipes=tuple(recipes),
        ledger=ledger,
        file=file,
        told=review,
        outputs=outputs,
        inputs=_inputs(request, translation, recipes, facts),
        request=request,
    )


def _inputs(request: Request, translation: Translation, recipes: Sequence[Recipe], facts: Facts) -> tuple[str, ...]:
    """Every file that was read and must not be written to."""
    bases = [document.name for document in translation.documents]
    return (
        *bases,
        translation.key_map.file,
        *(recipe.file for recipe in recipes),
        *(fact.place.file for fact in facts.values()),
        *request.facts,
    )


def apply(request: Request, shelf: Shelf | None = None) -> tuple[Translation, list[Recipe], Facts, Ledger]:
    """Everything up to the ledger. Raises Refused with the problems of all files at once."""
    problems: list[Problem] = []
    outcomes = None if shelf is None else shelf.outcomes(request)
    shelf = shelf or Shelf()
    key_map = shelf.key_map(request.key_map, request.library, problems, request.shares)
    documents = read_documents(request.bases, key_map.habits if key_map else Habits(), problems)
    recipes = shelf.recipes(request.recipes, request.library, problems)
    read = shelf.facts(request.facts, request.library, problems)
    facts = answered_facts(request.answers, {**request.held, **read}, problems)
    answers = read_answers(request.answers, recipes, problems)
    vocabulary = load_vocabulary()
    translation = None
    if key_map is not None and documents:
        translation = translate(documents, key_map, vocabulary, shelf.readings(key_map, request.shares))
        problems += translation.problems
    refuse_if(problems)
    assert translation is not None
    ledger = apply_recipes(translation.profile, recipes, facts, answers, vocabulary, outcomes)
    return translation, recipes, facts, ledger


def new_texts(translation: Translation, edits: Sequence[Sequence[Edit]], ledger: Ledger) -> tuple[bytes, ...]:
    """The edited texts, audited. Raises Refused."""
    written = []
    for document, changes in zip(translation.documents, edits, strict=True):
        try:
            written.append(edit_document(document, changes))
        except UnicodeEncodeError as error:
            message = f"The text's encoding ({document.codec}) has no {error.object[error.start : error.end]!r}."
            raise Refused(
                [Problem("encoding", message, Place(document.name), "Change the texts in the map.")]
            ) from error
    refuse_if(audit(translation, edits, written, ledger.derived, load_vocabulary()))
    return tuple(written)


def derivation_file(translation: Translation, ledger: Ledger, literals: Sequence[StartCommand]) -> LedgerFile:
    """What happened and what follows from it. With a conflict nothing is written, so there is no result to judge."""
    judgement = Judgement() if ledger.problems else judge(ledger.base, ledger.derived, ledger.facts)
    files = [_file(document) for document in translation.documents]
    unmapped = unmapped_lines(translation)
    return ledger_file(ledger, files, translation.key_map.name, literals, unmapped, __version__, judgement)


def derivation_review(translation: Translation, ledger: Ledger, file: LedgerFile) -> Review:
    """The same, arranged for a person."""
    names = ", ".join(document.name for document in translation.documents)
    subject = f"{names} read with the map {translation.key_map.name!r}"
    return ledger_review(
        ledger, load_vocabulary(), subject, file, unread_lines(translation), reading_notes(translation)
    )


def _file(document: Document) -> FileHash:
    return FileHash(document.name, hashlib.sha256(document.codec.encode(document.text)).hexdigest())


def output_paths(bases: Sequence[str], out: str) -> list[Path]:
    """Where the derived files go: the named file for one base, a folder with the same names for several."""
    if len(bases) == 1 and not Path(out).is_dir():
        return [Path(out)]
    return [Path(out) / Path(base).name for base in bases]


def outputs_taken(derivation: Derivation, out: str, overwrite: bool, reports: Reports) -> list[Problem]:
    """What stands in the way of writing, to be told before a long review. A folder for several bases is made later."""
    bases = [document.name for document in derivation.translation.documents]
    paths = output_paths(bases, out) if out else []
    if len(bases) > 1 and out and not Path(out).exists():
        return []
    ledgers = [ledger_beside(paths[0])] if paths else []
    found = outputs_free([*paths, *(Path(name) for name, _ in reports)], map(Path, derivation.inputs), overwrite)
    return found or outputs_free(ledgers, (), overwrite)


def write(derivation: Derivation, out: str, overwrite: bool = False, reports: Reports = ()) -> list[Path]:
    """Write the derived files, the ledger beside the first, and reports. Raises Refused; then nothing was written."""
    files = files_to_write(derivation, out, overwrite, reports)
    refuse_if(outputs_free(files, map(Path, derivation.inputs), overwrite))
    refuse_if(write_whole(files, overwrite))
    return list(files)


def files_to_write(
    derivation: Derivation, out: str, overwrite: bool = False, reports: Reports = ()
) -> dict[Path, bytes]:
    """All that is to be written, and where; a folder for several bases is made. Raises Refused.

    Whether the places are free is for the caller to find out.
    """
    refuse_if(derivation.problems)
    bases = [document.name for document in derivation.translation.documents]
    paths = output_paths(bases, out) if out else []
    same = [path for number, path in enumerate(paths) if path in paths[:number]]
    refuse_if(
        Problem("same-output", "Two bases have this name.", Place(str(path)), "Rename one of them.") for path in same
    )
    if len(bases) > 1 and paths and not Path(out).exists():
        refuse_if(outputs_free([Path(name) for name, _ in reports], map(Path, derivation.inputs), overwrite))
        _make_folder(Path(out))
    files = dict(zip(paths, derivation.outputs, strict=False))
    if paths:
        files[ledger_beside(paths[0])] = file_text(_beside(derivation, files)).encode()
    for name, form in reports:
        path = Path(name)
        if path.resolve() in {known.resolve() for known in files}:
            raise Refused(
                [Problem("same-output", "Two outputs have this name.", Place(name), "Give each its own name.")]
            )
        files[path] = render(derivation.review, form).encode("utf-8", "backslashreplace")
    return files


def _beside(derivation: Derivation, files: Mapping[Path, bytes]) -> LedgerFile:
    """What only a ledger that lies beside its outputs says: where everything is, and the texts to start from again."""
    folder = next(iter(files)).parent
    texts = derivation.made or derivation.outputs
    edited = derivation.made and derivation.made != derivation.outputs
    return derivation.file._replace(
        outputs=tuple(FileHash(path.name, hashlib.sha256(raw).hexdigest()) for path, raw in files.items()),
        key_map_file=os.path.relpath(derivation.translation.key_map.file, folder),
        made=tuple(map(pack, texts)),
        written=tuple(map(pack, derivation.outputs)) if edited else (),
        recipes=with_texts(derivation.ledger.recipes, derivation.recipes),
        call=call(derivation.request, folder) if derivation.request else None,
    )


def _make_folder(path: Path) -> None:
    try:
        path.mkdir(parents=True)
    except OSError as error:
        message = f"The folder cannot be made: {error.strerror or error}."
        raise Refused([Problem("cannot-write", message, Place(str(path)), "Name another place with -o.")]) from error
