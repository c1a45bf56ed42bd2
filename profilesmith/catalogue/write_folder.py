"""A folder of pages that is whole or absent: made beside its place, flushed, then moved there.

A list of the pages lies in the folder. Only a folder whose every file is on its list is ever replaced, so that a
slip in a name costs nobody their own files.
"""

from __future__ import annotations

import json
import os
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path

from profilesmith.foundation.new_files import PLACED, stage_folder
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem
from profilesmith.write_files import cannot_write

LISTED = "pages.json"
KIND = "profilesmith catalogue"
LARGEST_LIST = 4_000_000


def write_folder(target: Path, files: Mapping[str, str], overwrite: bool) -> list[Problem]:
    """Write the files (name -> text) and their list into a new folder. Returns what went wrong; then nothing
    changed.
    """
    problems = folder_free(target, overwrite)
    if problems:
        return problems
    listed = json.dumps({"format": 1, "kind": KIND, "files": sorted(files)}, ensure_ascii=False, indent=1) + "\n"
    made: Path | None = None
    pages = {name: text.encode("utf-8", "backslashreplace") for name, text in {**files, LISTED: listed}.items()}
    try:
        made = stage_folder(pages, target.parent, f".{target.name[:40]}.")
        return _place(made, target, overwrite)
    except OSError as error:
        return [cannot_write(target, error)]
    finally:
        if made is not None:
            shutil.rmtree(made, ignore_errors=True)


def folder_free(target: Path, overwrite: bool) -> list[Problem]:
    """What stands in the way of a folder of pages."""
    place = Place(str(target))
    if not os.path.isdir(target.parent):
        return [
            Problem(
                "no-folder",
                f"There is no folder {str(target.parent)!r}.",
                place,
                "Make the folder first, or name another.",
            )
        ]
    if not os.path.lexists(target):
        return []
    if target.is_symlink() or not os.path.isdir(target):
        return [Problem("exists", "This is no folder of pages.", place, "Name another place with -o.")]
    if not overwrite:
        return [
            Problem("exists", "The folder exists already.", place, "Name another folder, or allow it with --overwrite.")
        ]
    others = _others(target)
    if others:
        shown = ", ".join(others[:3]) + (", ..." if len(others) > 3 else "")
        return [
            Problem(
                "not-ours",
                f"The folder holds what no catalogue made: {shown}.",
                place,
                "Name a folder of its own for the pages.",
            )
        ]
    return []


def _others(folder: Path) -> list[str]:
    """What lies in a folder and is not on its list. A list of another kind is a file like any other."""
    try:
        with (folder / LISTED).open("rb") as stream:
            data = json.loads(stream.read(LARGEST_LIST))
        ours = {*data["files"], LISTED} if data["kind"] == KIND else set()
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        ours = set()
    return sorted(
        item.name for item in os.scandir(folder) if item.name not in ours or not item.is_file(follow_symlinks=False)
    )


def _place(made: Path, target: Path, overwrite: bool) -> list[Problem]:
    """Move into place; an old folder is set aside first, and put back when that fails."""
    if not overwrite or not os.path.exists(target):
        try:
            made.rename(target)  # onto nothing, or an empty folder that appeared meanwhile
        except OSError as error:
            return folder_free(target, overwrite=False) or [cannot_write(target, error)]
        PLACED.append(str(target))
        return []
    aside = Path(tempfile.mkdtemp(prefix=f".{target.name[:40]}.", suffix=".old", dir=target.parent))
    try:
        target.rename(aside / "pages")
        try:
            made.rename(target)
        except OSError:
            (aside / "pages").rename(target)
            raise
        PLACED.append(str(target))
    finally:
        shutil.rmtree(aside, ignore_errors=True)
    return []
