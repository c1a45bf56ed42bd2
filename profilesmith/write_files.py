"""Files that are whole or absent: written beside, flushed, then moved into place. Inputs are never touched."""

import os
from collections.abc import Collection, Iterable, Mapping
from contextlib import suppress
from pathlib import Path

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.new_files import PLACED, flush
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem
from profilesmith.left_over import PART, lock, sweep, waiting_prefix

_NEW = os.O_RDWR | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)


def cannot_write(path: Path, error: OSError) -> Problem:
    """The problem for a file that cannot be written."""
    return Problem(
        "cannot-write",
        f"The file cannot be written: {error.strerror or error}.",
        Place(str(path)),
        "Name another place with -o; nothing was written there.",
    )


class Hints(NamedTuple):
    """What to do where an output cannot lie, in the words of the call: an option, or a key of an order."""

    is_input: str = "Name another file with -o."
    is_folder: str = "Name a file inside it."
    no_plain_file: str = "Name a file; only files are replaced."
    exists: str = "Name another file, or allow it with --overwrite."


HINTS = Hints()


def outputs_free(paths: Iterable[Path], inputs: Iterable[Path | str], overwrite: bool) -> list[Problem]:
    """Problems with output places: an input, a folder, or a file that exists."""
    problems = []
    taken = {os.path.realpath(path) for path in set(inputs)}
    named: set[str] = set()
    for path in paths:
        place, real = Place(str(path)), os.path.realpath(path)
        if real in named:
            problems.append(Problem("same-output", "Two outputs have this name.", place, "Give each its own name."))
        named.add(real)
        problem = in_the_way(str(path), place, taken, overwrite)
        if problem is None and not os.path.isdir(path.parent):
            hint = "Make the folder first, or name another."
            problem = Problem("no-folder", f"There is no folder {str(path.parent)!r}.", place, hint)
        problems += [problem] if problem else []
    return problems


def in_the_way(
    path: str, place: Place, inputs: Collection[str], overwrite: bool, hints: Hints = HINTS
) -> Problem | None:
    """Why a file cannot be written at a path. inputs: with links followed."""
    if os.path.realpath(path) in inputs:
        return Problem("output-is-input", "The output is one of the inputs.", place, hints.is_input)
    if os.path.isdir(path):
        return Problem("is-folder", "The output is a folder.", place, hints.is_folder)
    if os.path.exists(path) and not os.path.isfile(path):
        message = "The output is a pipe or a device, and no plain file."
        return Problem("no-plain-file", message, place, hints.no_plain_file)
    return _exists(place, hints.exists) if os.path.lexists(path) and not overwrite else None


def _exists(place: Place, hint: str = HINTS.exists) -> Problem:
    return Problem("exists", "The output exists already.", place, hint)


def make_folder(folder: Path, hint: str = "Name another with -o.") -> list[Problem]:
    """Make the folder of an output, with all around it. Returns why it cannot be made."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        message = f"The folder cannot be made: {error.strerror or error}."
        return [Problem("cannot-write", message, Place(str(folder)), hint)]
    return []


class Staged(NamedTuple):
    """A file that waits beside its place. handle: open and locked, so that others know that its
    writer lives; None where many are written together, which would be too many open files."""

    temporary: str
    path: Path
    handle: int | None

    @property
    def backup(self) -> str:
        """A second name of the file that is replaced, until all files of a call are in place."""
        return f"{self.temporary.removesuffix(PART)}.old{PART}"


def write_whole(files: Mapping[Path, bytes], overwrite: bool) -> list[Problem]:
    """Write several files, all or none as far as the file system allows. Returns what went wrong."""
    staged: list[Staged] = []
    gone: set[str] = set()
    try:
        for path, content in files.items():
            try:
                sweep(path)
                staged.append(stage(path, content))
            except OSError as error:
                return [cannot_write(path, error)]
        # One behind the other: what the system writes for the first of them is mostly all that the others need.
        broken = flush([item.temporary for item in staged])
        problems = [cannot_write(item.path, broken[item.temporary]) for item in staged if item.temporary in broken]
        return problems[:1] or place_all(staged, overwrite, gone)
    finally:
        clear(staged, gone)


def place_all(staged: Iterable[Staged], overwrite: bool, gone: set[str]) -> list[Problem]:
    """Move all into place; when one cannot be, or somebody stops the run, those before it are taken back.

    gone: gets the waiting names that are no longer there for sure.
    """
    placed: list[Staged] = []
    whole = False
    try:
        for item in staged:
            try:
                gone.update(_place(item, overwrite))
            except FileExistsError:
                return [_exists(Place(str(item.path)))]
            except OSError as error:
                return [cannot_write(item.path, error)]
            placed.append(item)
        whole = True
        PLACED.extend(str(item.path) for item in placed)
        return []
    finally:
        if not whole:
            _take_back(placed, overwrite)


def _take_back(placed: Iterable[Staged], overwrite: bool) -> None:
    """The old file in its place again, or none where there was none."""
    for item in placed:
        with suppress(OSError):
            if overwrite and os.path.lexists(item.backup):
                os.replace(item.backup, item.path)
            elif overwrite or os.path.samefile(item.temporary, item.path):
                item.path.unlink()


def clear(staged: Iterable[Staged], gone: Collection[str] = ()) -> None:
    """Leave no waiting name behind. gone: those that need not be looked for."""
    for item in staged:
        if item.handle is not None:  # first: some systems keep the name of an open file
            os.close(item.handle)
        for name in (item.temporary, item.backup):
            if name not in gone:
                with suppress(OSError):
                    os.unlink(name)


def stage(path: Path, content: bytes, alone: bool = True) -> Staged:
    """The content in a hidden file beside its place. alone: locked until it is in place."""
    name = os.path.join(os.path.dirname(path), f"{waiting_prefix(path)}{os.urandom(4).hex()}{PART}")
    handle = os.open(name, _NEW, 0o666)
    # Held open for its lock alone: where there is none, an open file could not be moved either.
    locked = alone and lock(handle)
    staged = Staged(name, path, handle if locked else None)
    try:
        try:
            _fill(handle, content)
        finally:
            if not locked:
                os.close(handle)
    except BaseException:
        clear([staged])
        raise
    return staged


def _fill(handle: int, content: bytes) -> None:
    """Write all of it: a system may take a part at a time."""
    rest = memoryview(content)
    while rest:
        rest = rest[os.write(handle, rest) :]


def _place(item: Staged, overwrite: bool) -> tuple[str, ...]:
    """Move into place. Without ``overwrite`` a file that appeared meanwhile is not replaced.

    Returns the waiting names that are no longer there, as far as that is sure.
    """
    if overwrite:
        backup, new = item.backup, True
        with suppress(OSError, NotImplementedError):  # nothing to replace, or a system without such links
            os.link(item.path, backup, follow_symlinks=False)
            new = False
        os.replace(item.temporary, item.path)
        return (item.temporary, backup) if new else (item.temporary,)
    try:
        os.link(item.temporary, item.path)
    except OSError:  # there it is already; or a file system without links, where this look has to do
        if os.path.lexists(item.path):
            raise FileExistsError(str(item.path)) from None
        os.replace(item.temporary, item.path)
    return (item.backup,)
