"""Which recipes of a library changed since a revision, rule by rule."""

from __future__ import annotations

from collections.abc import Iterator

from profilesmith.lint.head_commit import committed
from profilesmith.lint.names import LibraryNames, files_of
from profilesmith.revision.recipe_changes import recipe_changes
from profilesmith.revision.words import changes_lines
from profilesmith.workflows.recipe_compare import recipe_in


def changed_since(names: LibraryNames) -> tuple[tuple[str, ...], ...]:
    """For each recipe that differs from what the revision holds, what changed, as lines. One that does not read is the lint's."""
    return tuple(block for block in _blocks(names) if block)


def _blocks(names: LibraryNames) -> Iterator[tuple[str, ...]]:
    for path in files_of(names.folder, "recipe"):
        raw = path.read_bytes()
        before = committed(names.folder, names.head, path, raw)
        old, new = (recipe_in(text, str(path)) if isinstance(text, bytes) else None for text in (before, raw))
        if old is not None and new is not None:
            yield tuple(changes_lines(recipe_changes(old, new)))
