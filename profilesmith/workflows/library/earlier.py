"""A library as a revision holds it, laid out in a folder of its own for as long as it is looked at."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path, PurePosixPath

from profilesmith.library.library import DESCRIPTION, load_library
from profilesmith.lint.head_commit import committed_files
from profilesmith.lint.names import EVIDENCE, LibraryNames
from profilesmith.workflows.library.taken_away import CHECKERS

MOST_FILES = 20_000


@contextmanager
def earlier_folder(names: LibraryNames) -> Iterator[Path | None]:
    """Its recipes, maps, facts, evidence and reference profiles, and what checks it; None where the revision holds no
    library that reads.
    """
    if DESCRIPTION not in names.head.blobs:
        yield None
        return
    with tempfile.TemporaryDirectory(prefix="profilesmith-") as place:
        folder = Path(place)
        wanted = [name for name in names.head.blobs if name.endswith((".toml", EVIDENCE[1])) or name in CHECKERS]
        _lay_out(names, folder, wanted)
        library, _ = load_library(folder)
        if library is not None:
            texts = [os.path.normpath(text).replace(os.sep, "/") for item in library.profiles for text in item.texts]
            _lay_out(names, folder, texts)
        yield None if library is None else folder


def _lay_out(names: LibraryNames, folder: Path, wanted: list[str]) -> None:
    inside = [name for name in wanted if _stays_inside(name)][:MOST_FILES]
    for name, raw in committed_files(names.folder, names.head, inside).items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(raw)


def _stays_inside(name: str) -> bool:
    """Whether a name of a stranger's tree is one below the folder."""
    path = PurePosixPath(name)
    return not path.is_absolute() and ".." not in path.parts and "\0" not in name and name.isprintable()
