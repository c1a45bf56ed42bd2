"""L11x: whether what a library's description names is there, and nothing leads out of its folder."""

import os
from collections.abc import Iterator
from pathlib import Path

from profilesmith.library.library import inside
from profilesmith.lint.heads import LICENCE_FIX, LICENCE_WHY, licence_fault
from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import LibraryFolder

README, LICENCE = ("readme",), ("licence", "license", "copying")


def _texts(file: LibraryFolder) -> Iterator[Fault]:
    for profile in file.library.profiles:
        for text in profile.texts:
            if not (file.library.folder / text).is_file():
                yield Fault(f"{profile.name}: there is no file {text!r}.", profile.place.line)


def _key_maps(file: LibraryFolder) -> Iterator[Fault]:
    for profile in file.library.profiles:
        if profile.key_map not in file.names.key_maps:
            yield Fault(f"{profile.name}: there is no key map {profile.key_map!r}.", profile.place.line)


def _facts(file: LibraryFolder) -> Iterator[Fault]:
    for profile in file.library.profiles:
        for name in profile.facts:
            if name not in file.names.facts:
                yield Fault(f"{profile.name}: there are no facts {name!r}.", profile.place.line)


def _outside(file: LibraryFolder) -> Iterator[Fault]:
    """Links whose end lies elsewhere. Links to folders are told and not followed."""
    for folder, folders, names in os.walk(file.library.folder):
        folders[:] = sorted(name for name in folders if name != ".git")
        for name in sorted([*folders, *names]):
            path = Path(folder, name)
            if path.is_symlink() and not inside(file.library.folder, path):
                yield Fault(f"{path.relative_to(file.library.folder)} leads out of the library.")


def _licence(file: LibraryFolder) -> Iterator[Fault]:
    yield from licence_fault(file.library.licence, file.lines.get(("library", "licence")))


def _has(file: LibraryFolder, stems: tuple[str, ...]) -> bool:
    return any(
        path.is_file() and path.name.casefold().partition(".")[0] in stems for path in file.library.folder.iterdir()
    )


def _readme(file: LibraryFolder) -> Iterator[Fault]:
    if not _has(file, README):
        yield Fault("The library has no README.")


def _licence_file(file: LibraryFolder) -> Iterator[Fault]:
    if not _has(file, LICENCE):
        yield Fault("The library has no file with the text of its licence.")


_TRIED = "Every recipe is tried on the reference profiles; one that lacks a part cannot be tried."

RULES = (
    LintRule(
        "L110",
        "error",
        "The texts of reference profiles are there",
        _TRIED,
        "Correct the name, or copy the file into the library.",
        _texts,
    ),
    LintRule(
        "L111",
        "error",
        "The key maps of reference profiles are there",
        _TRIED,
        "Correct the name, or add the map to keymaps/.",
        _key_maps,
    ),
    LintRule(
        "L112",
        "error",
        "The facts of reference profiles are there",
        _TRIED,
        "Correct the name, or add the file to facts/.",
        _facts,
    ),
    LintRule(
        "L113",
        "error",
        "Nothing leads out of the library",
        "A stranger's library must not make a program read what lies elsewhere on a disk.",
        "Copy the file into the library, and take the link out.",
        _outside,
        codes=("outside",),
    ),
    LintRule("L114", "error", "The library's licence is a licence", LICENCE_WHY, LICENCE_FIX, _licence),
    LintRule(
        "L115",
        "hint",
        "The library has a README",
        "A newcomer must learn what is in it, and how to add to it.",
        "Add a README.md.",
        _readme,
    ),
    LintRule(
        "L116",
        "hint",
        "The text of the licence is there",
        "An id alone is no text that somebody can agree to.",
        "Add the text as a file LICENSE.",
        _licence_file,
    ),
)
