"""Files that are whole or absent: written beside, flushed, then moved into place. Inputs are never touched."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem


def cannot_write(path: Path, error: OSError) -> Problem:
    """The problem for a file that cannot be written."""
    return Problem(
        "cannot-write", f"The file cannot be written: {error.strerror or error}.", Place(str(path)),
        "Name another place with -o; nothing was written there.",
    )  # fmt: skip


def outputs_free(paths: Iterable[Path], inputs: Iterable[Path], overwrite: bool) -> list[Problem]:
    """Problems with output places: an input, a folder, or a file that exists."""
    found = []
    taken = {path.resolve() for path in inputs}
    named: set[Path] = set()
    for path in paths:
        place = Place(str(path))
        if path.resolve() in named:
            found.append(Problem("same-output", "Two outputs have this name.", place, "Give each its own name."))
        named.add(path.resolve())
        if path.resolve() in taken:
            found.append(Problem("output-is-input", "The output is one of the inputs.", place, "Name another file with -o."))
        elif os.path.isdir(path):
            found.append(Problem("is-folder", "The output is a folder.", place, "Name a file inside it."))
        elif os.path.lexists(path) and not overwrite:
            found.append(_exists(path))
        elif not os.path.isdir(path.parent):
            hint = "Make the folder first, or name another."
            found.append(Problem("no-folder", f"There is no folder {str(path.parent)!r}.", place, hint))
    return found


def _exists(path: Path) -> Problem:
    return Problem("exists", "The output exists already.", Place(str(path)), "Name another file, or allow it with --overwrite.")


def write_whole(files: Mapping[Path, bytes], overwrite: bool) -> list[Problem]:
    """Write several files, all or none as far as the file system allows. Returns what went wrong."""
    staged: list[tuple[Path, Path]] = []
    try:
        for path, content in files.items():
            try:
                staged.append((_stage(path, content), path))
            except OSError as error:
                return [cannot_write(path, error)]
        for temporary, path in staged:
            try:
                _place(temporary, path, overwrite)
            except FileExistsError:
                return [_exists(path)]
            except OSError as error:
                return [cannot_write(path, error)]
        return []
    finally:
        for temporary, _ in staged:
            with suppress(OSError):
                temporary.unlink()


def _stage(path: Path, content: bytes) -> Path:
    """The content in a hidden file beside its place, flushed to the disk."""
    import tempfile

    handle, name = tempfile.mkstemp(prefix=f".{path.name[:60]}.", suffix=".part", dir=path.parent)
    temporary = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(temporary, 0o666 & ~_umask())
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
    return temporary


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _place(temporary: Path, path: Path, overwrite: bool) -> None:
    """Move into place. Without ``overwrite`` a file that appeared meanwhile is not replaced."""
    if overwrite:
        os.replace(temporary, path)
        return
    try:
        os.link(temporary, path)
    except FileExistsError:
        raise
    except OSError:  # a file system without links: the check before has to do
        if path.exists():
            raise FileExistsError(str(path)) from None
        os.replace(temporary, path)
