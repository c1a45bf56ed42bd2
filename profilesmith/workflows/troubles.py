"""The troubles that ship, and those that a library adds (``troubles/*.toml``)."""

from __future__ import annotations

from pathlib import Path

from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.foundation.read_file import read_bounded
from profilesmith.library.find import named_library
from profilesmith.library.library import inside
from profilesmith.mend.load_troubles import parse_troubles, shipped_troubles
from profilesmith.mend.troubles import Knowledge
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

FOLDER = "troubles"


def known_troubles(library: Path | None) -> Knowledge:
    """All of them. Raises Refused with what is wrong in a library's."""
    folder = named_library(library)
    paths = sorted((folder / FOLDER).glob("*.toml")) if folder else []
    if not paths or folder is None:
        return shipped_troubles()
    problems: list[Problem] = []
    files = []
    for path in paths:
        if path.is_file() and inside(folder, path):
            raw = read_bounded(path, str(path))
            problems += [raw] if isinstance(raw, Problem) else []
            files += [] if isinstance(raw, Problem) else [(raw, str(path))]
    known, wrong = parse_troubles(files, load_vocabulary(), shipped_troubles())
    refuse_if([*problems, *wrong])
    return known
