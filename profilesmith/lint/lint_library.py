"""A whole library, or one recipe of it, to findings. What ``library check`` calls.

In one process: ``lint_library(library, strict)``. In several: ``names = library_names(library.folder)`` once, then
``lint_file(path, kind, names, strict)`` for each of ``files_of_library(library)`` in any process (arguments and
findings are plain data), and ``lint_description(library, names, strict)`` once. All of it is linear in the number of
files.
"""

from collections.abc import Iterator
from pathlib import Path

from profilesmith.foundation.read_file import read_toml
from profilesmith.foundation.toml_lines import index_lines
from profilesmith.library.library import DESCRIPTION, Library, inside, load_library
from profilesmith.lint.finding import LintFinding, strictly
from profilesmith.lint.history import NUMBER
from profilesmith.lint.lint_file import BY_KIND, findings, lint_file
from profilesmith.lint.names import LibraryNames, files_of, library_names
from profilesmith.lint.reading import of_problems
from profilesmith.lint.rules import LIBRARY
from profilesmith.lint.subjects import LibraryFolder


def lint_library(library: Library, strict: bool) -> list[LintFinding]:
    """All findings of a library: its description first, then file by file in the order of ``files_of_library``.

    strict: hints are errors; also where ``library.strict`` says so.
    """
    names = library_names(library.folder)
    findings = lint_description(library, names, strict)
    for kind, path in files_of_library(library):
        findings += lint_file(path, kind, names, strict or library.strict)
    return findings


def files_of_library(library: Library) -> list[tuple[str, Path]]:
    """(kind, path) of every file that has rules. Links that lead out of the library are left out: L113 tells them."""
    files = [(kind, path) for kind in BY_KIND for path in files_of(library.folder, kind)]
    return [(kind, path) for kind, path in files if inside(library.folder, path)]


def lint_description(library: Library, names: LibraryNames, strict: bool = False) -> list[LintFinding]:
    """The findings of ``library.toml`` and of the folder as a whole, and which rules could not be asked."""
    findings = list(_description(library, names))
    return strictly(findings) if strict or library.strict else findings


def _description(library: Library, names: LibraryNames) -> Iterator[LintFinding]:
    path = library.folder / DESCRIPTION
    top, _ = read_toml(path, str(path), "library description")
    lines = index_lines(top.file.text) if top else {}  # it was read a moment ago
    yield from findings(LIBRARY, LibraryFolder(library, names, lines), str(path))
    if names.head.why_not:
        message = f"Changed recipes were not held against their versions: {names.head.why_not}."
        yield LintFinding(NUMBER, "skipped", str(path), None, message, "Keep the library in a git repository.")


def lint_folder(folder: Path, strict: bool = False) -> list[LintFinding]:
    """As ``lint_library``, for a folder whose description may not read: then its mistakes are the findings."""
    library, problems = load_library(folder)
    if library is None:
        return list(of_problems(problems, LIBRARY, str(folder / DESCRIPTION)))
    return lint_library(library, strict)
