"""Derive, for files: what they hold goes through the engine, and what comes out is written beside."""

import os
from collections.abc import Sequence
from pathlib import Path

from profilesmith.engine.derive import Derivation, carry_out, ledger_of
from profilesmith.engine.ledger_file import ledger_bytes
from profilesmith.facts.facts import Facts
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger import Ledger
from profilesmith.ledger.file import LARGEST_LEDGER
from profilesmith.ledger.place import ledger_beside
from profilesmith.library.open_files import real_place, ships
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.render import render
from profilesmith.translation.document_to_profile import Translation
from profilesmith.workflows.request import Request, View, call_from
from profilesmith.workflows.shelf import Shelf, given_for
from profilesmith.write_files import make_folder, outputs_free, write_whole

Reports = Sequence[tuple[str, str]]
"""The name and the form of each report."""


def derive(request: Request, shelf: Shelf | None = None, words: bool = True) -> Derivation:
    """Run the whole pipeline without writing anything. Raises Refused for wrong input, not for conflicts.

    shelf: what earlier derivations of the same run have read. words: whether somebody will read the review.
    """
    return derive_from(request, *apply(request, shelf), words)


def derive_from(
    request: Request,
    translation: Translation,
    recipes: Sequence[Recipe],
    facts: Facts,
    ledger: Ledger,
    words: bool = True,
) -> Derivation:
    """A ledger to new bytes, with the files that it came from.

    Without words the review's data only, and no names of inputs: as one of many whose inputs are known.
    """
    made = carry_out(translation, recipes, ledger, request.follow_literals, words, request.measured)
    inputs = inputs_of(request, translation, recipes, facts) if words else ()
    return made._replace(inputs=inputs, call=request.call())


def inputs_of(request: Request, translation: Translation, recipes: Sequence[Recipe], facts: Facts) -> tuple[str, ...]:
    """Every file that was read and must not be written to."""
    bases, laid = [document.name for document in translation.documents], {source.name for source in request.laid or ()}
    return (
        *bases,
        str(real_place(translation.key_map.file)),
        *(str(real_place(recipe.file)) for recipe in recipes if recipe.file not in laid),
        *(str(real_place(fact.place.file)) for fact in facts.values()),
        *request.facts,
    )


def apply(request: Request, shelf: Shelf | None = None) -> tuple[Translation, tuple[Recipe, ...], Facts, Ledger]:
    """Everything up to the ledger. Raises Refused with the problems of all files at once."""
    outcomes = None if shelf is None else shelf.outcomes(request)
    given = given_for(request, shelf)
    return given.translation, given.recipes, given.facts, ledger_of(given, outcomes)


def output_paths(bases: Sequence[str], out: str) -> list[Path]:
    """Where the derived files go: the named file for one base, a folder with the same names for several.

    A name that ends as a folder's does is one, whether it is there or not.
    """
    if len(bases) == 1 and not is_folder_name(out):
        return [Path(out)]
    return [Path(out) / Path(base).name for base in bases]


def texts_to_write(derivation: Derivation, out: str) -> dict[Path, bytes]:
    """The derived texts and where they go; none where no output is named."""
    bases = [document.name for document in derivation.translation.documents]
    return dict(zip(output_paths(bases, out), derivation.outputs, strict=False)) if out else {}


def is_folder_name(out: str) -> bool:
    """Whether an output's name means a folder: one that is there, or ``new/``."""
    return out.endswith(("/", os.sep)) or os.path.isdir(out)


def outputs_taken(derivation: Derivation, out: str, overwrite: bool, reports: Reports) -> list[Problem]:
    """What stands in the way of writing, to be told before a long review. A folder for several bases is made later."""
    bases = [document.name for document in derivation.translation.documents]
    paths = output_paths(bases, out) if out else []
    if (len(bases) > 1 or is_folder_name(out)) and out and not os.path.exists(out):
        return []
    ledgers = [ledger_beside(paths[0])] if paths else []
    problems = outputs_free([*paths, *(Path(name) for name, _ in reports)], derivation.inputs, overwrite)
    return problems or outputs_free(ledgers, (), overwrite)


def write(derivation: Derivation, out: str, overwrite: bool = False, reports: Reports = ()) -> list[Path]:
    """Write the derived files, the ledger beside the first, and reports. Raises Refused; then nothing was written."""
    files = files_to_write(derivation, out, overwrite, reports)
    refuse_if(outputs_free(files, derivation.inputs, overwrite))
    refuse_if(write_whole(files, overwrite))
    return list(files)


def write_reports(derivation: Derivation, overwrite: bool = False, reports: Reports = ()) -> list[Path]:
    """The reports alone, of what would change or of why nothing may. Raises Refused; then nothing was written."""
    files = {Path(name): render(derivation.review, form).encode("utf-8", "backslashreplace") for name, form in reports}
    refuse_if(outputs_free(files, derivation.inputs, overwrite))
    refuse_if(write_whole(files, overwrite))
    return list(files)


def files_to_write(
    derivation: Derivation, out: str, overwrite: bool = False, reports: Reports = (), shelf: Shelf | None = None
) -> dict[Path, bytes]:
    """All that is to be written, and where; a folder for several bases is made. Raises Refused.

    Whether the places are free is for the caller to find out. shelf: what earlier derivations of the run have read.
    """
    refuse_if(derivation.problems)
    bases = [document.name for document in derivation.translation.documents]
    paths = output_paths(bases, out) if out else []
    same = [path for number, path in enumerate(paths) if path in paths[:number]]
    refuse_if(
        Problem("same-output", "Two bases have this name.", Place(str(path)), "Rename one of them.") for path in same
    )
    if (len(bases) > 1 or is_folder_name(out)) and paths and not os.path.exists(out):
        refuse_if(outputs_free([Path(name) for name, _ in reports], derivation.inputs, overwrite))
        refuse_if(make_folder(Path(out), "Name another place with -o."))
    files = files_at(derivation, paths, shelf) if paths else {}
    for name, form in reports:
        path = Path(name)
        if path.resolve() in {known.resolve() for known in files}:
            raise Refused(
                [Problem("same-output", "Two outputs have this name.", Place(name), "Give each its own name.")]
            )
        files[path] = render(derivation.review, form).encode("utf-8", "backslashreplace")
    return files


def files_at(derivation: Derivation, paths: Sequence[Path], shelf: Shelf | None = None) -> dict[Path, bytes]:
    """The derived texts in their places, and last the ledger beside the first. Raises Refused for one that is too
    large. shelf: as above.
    """
    ledger = ledger_beside(paths[0])
    files = dict(zip(paths, derivation.outputs, strict=False))
    return {**files, ledger: _ledger_bytes(derivation, [path.name for path in paths], ledger.parent, shelf)}


def _ledger_bytes(derivation: Derivation, names: Sequence[str], folder: Path, shelf: Shelf | None) -> bytes:
    """The ledger as it lies in a folder: it names every file as seen from there."""
    key_map = derivation.translation.key_map.file
    view = View(folder) if shelf is None else shelf.view(folder)
    key_map_file = "" if ships(key_map) else view.path(key_map)
    call = derivation.call and call_from(derivation.call, view)
    raw = ledger_bytes(derivation._replace(call=call), names, key_map_file, shelf.texts if shelf else None)
    if len(raw) > LARGEST_LEDGER:
        message = f"The ledger would have more than {LARGEST_LEDGER:,} bytes, and could not be read again."
        raise Refused([Problem("too-large", message, Place(names[0]), "Derive from a smaller part of the text.")])
    return raw
