"""A recipe, map or facts file by name: a path, or a name in a library folder, or one that ships with the package."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

from profilesmith.foundation.problem import Problem, did_you_mean

KINDS = {"recipe": ("", "recipes"), "key map": ("keymaps",), "facts": ("facts",)}


def shipped() -> Path:
    """The recipes that travel with the package: in the wheel inside it, in a checkout beside it."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "shipped"
    return inside if inside.is_dir() else package.parent / "recipes"


def libraries(folder: Path | None) -> list[Path]:
    """The folders to look in, nearest first: ``--library``, $PROFILESMITH_LIBRARY, the shipped one."""
    named = folder or (Path(os.environ["PROFILESMITH_LIBRARY"]) if os.environ.get("PROFILESMITH_LIBRARY") else None)
    return [*([named] if named else []), shipped()]


def names(kind: str, folder: Path | None) -> Iterator[tuple[str, Path]]:
    """All files of a kind in the libraries, by name; a nearer library's name hides a farther one's."""
    seen: set[str] = set()
    for library in libraries(folder):
        for part in KINDS[kind]:
            for path in sorted((library / part).glob("*.toml")):
                if path.stem not in seen and path.name != "library.toml":
                    seen.add(path.stem)
                    yield path.stem, path


def find(text: str, kind: str, folder: Path | None) -> tuple[Path | None, Problem | None]:
    """The file that a word on the command line means."""
    path = Path(text)
    if path.suffix or os.sep in text or os.path.exists(text):
        return path, None
    known = dict(names(kind, folder))
    if text in known:
        return known[text], None
    hint = did_you_mean(text, known, f"Known: {', '.join(known) or 'none'}. A file is named with its ending.")
    return None, Problem("not-found", f"There is no {kind} called {text!r}.", hint=hint)
