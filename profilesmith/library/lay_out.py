"""The files of a new library, from the templates that lie in the package; and a folder that appears whole or not at
all.
"""

from __future__ import annotations

import json
import os
import re
import shutil
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from profilesmith.foundation.new_files import PLACED, stage_folder, umask
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem

TEMPLATES = Path(__file__).resolve().parent / "template"
# Template -> its place in a library. No template begins with a dot: git would read some of them here, too.
FILES = (
    ("library.toml", "library.toml"),
    ("README.md", "README.md"),
    ("LICENSE", "LICENSE"),
    ("check.sh", "check.sh"),
    ("gitattributes", ".gitattributes"),
    ("pre-commit.yaml", ".pre-commit-config.yaml"),
    ("recipe.toml", "recipes/example-gentle.toml"),
    ("keymap.toml", "keymaps/example-sheet.toml"),
    ("facts.toml", "facts/example-printer.toml"),
    ("profile.settings", "profiles/example-sheet.settings"),
    ("evidence.md", "evidence/README.md"),
)
EXAMPLE = tuple(place for _, place in FILES if "example-" in place)
"""What a new library holds so that there is something to check."""
CACHE_IGNORED = "# What checks remember: for this machine alone, and safe to delete.\n*\n"
"""So that git leaves alone what checks remember."""
PROGRAMS = ("check.sh",)
MAY_BE_THERE = (".git",)  # a repository that was begun first is no reason to refuse


def library_files(name: str, licence: str, schemas: Mapping[str, str]) -> dict[str, bytes]:
    """Every file of a new library by its place in it. schemas: file name -> text."""
    words = {
        "{name}": json.dumps(name, ensure_ascii=False),
        "{title}": name,
        "{licence}": json.dumps(licence),
        "{licence_text}": licence,
    }
    files = {}
    for template, place in FILES:
        text = (TEMPLATES / template).read_text(encoding="utf-8")
        files[place] = re.sub("|".join(map(re.escape, words)), lambda match: words[match.group()], text).encode()
    return files | {f"schemas/{file}": text.encode() for file, text in schemas.items()}


def in_the_way(folder: Path) -> Problem | None:
    """What forbids to lay out a library there."""
    place = Place(str(folder))
    if not os.path.isdir(folder.absolute().parent):
        return Problem(
            "no-folder", f"There is no folder {str(folder.parent)!r}.", place, "Make it first, or name another."
        )
    if not os.path.lexists(folder):
        return None
    if not os.path.isdir(folder):
        return Problem("exists", "Here lies something that is no folder.", place, "Name another.")
    if any(item.name not in MAY_BE_THERE for item in folder.iterdir()):
        return Problem("exists", "The folder is not empty.", place, "Name a new folder, or an empty one.")
    return None


def lay_out(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write the files into a new or empty folder. Raises OSError; then the folder is as it was before."""
    fresh = not os.path.lexists(folder)
    parent = folder.absolute().parent if fresh else folder
    stage = stage_folder(files, parent, f".{folder.absolute().name[:60]}." if fresh else ".")
    try:
        for program in files.keys() & set(PROGRAMS):
            (stage / program).chmod(0o777 & ~umask())
        if fresh:
            os.rename(stage, folder)
        else:
            _move_up(stage, folder)
        PLACED.append(str(folder))
    finally:
        shutil.rmtree(stage, ignore_errors=True)


def _move_up(stage: Path, folder: Path) -> None:
    """Into an empty folder that stays the same folder, for somebody stands in it. The description, which makes it a
    library, last.
    """
    moved: list[Path] = []
    try:
        for item in sorted(stage.iterdir(), key=lambda path: path.name == "library.toml"):
            if os.path.lexists(folder / item.name):
                raise FileExistsError(17, "a file appeared there meanwhile", str(folder / item.name))
            os.rename(item, folder / item.name)
            moved.append(folder / item.name)
    except BaseException:
        for path in moved:
            with suppress(OSError):
                shutil.rmtree(path) if os.path.isdir(path) else path.unlink()
        raise
