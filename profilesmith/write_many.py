"""Many groups of files, each whole or absent by itself, as they are made one after the other."""

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Self

from profilesmith.foundation.new_files import flush_all
from profilesmith.foundation.problem import Problem
from profilesmith.write_files import Staged, cannot_write, clear, place_all, stage


class ManyFiles:
    """Laid beside their places as they come, so that none stays in memory; flushed to the disk together, which takes
    it hardly longer than flushing one; then moved.
    """

    def __init__(self, overwrite: bool) -> None:
        self._overwrite = overwrite
        self._staged: list[list[Staged]] = []
        self._problems: list[list[Problem]] = []
        self._gone: set[str] = set()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *error: object) -> None:
        for mine in self._staged:
            clear(mine, self._gone)

    def add(self, files: Mapping[Path, bytes]) -> None:
        """The next group."""
        mine, problems = list[Staged](), list[Problem]()
        self._staged.append(mine)
        self._problems.append(problems)
        for path, content in files.items():
            try:
                mine.append(stage(path, content, alone=False))
            except OSError as error:
                problems.append(cannot_write(path, error))
                break

    def place(self) -> list[list[Problem]]:
        """Move all groups into their places. Returns what went wrong with each."""
        broken = flush_all([item.temporary for mine in self._staged for item in mine])
        for mine, problems in zip(self._staged, self._problems, strict=True):
            problems += [cannot_write(item.path, broken[item.temporary]) for item in mine if item.temporary in broken]
            problems += [] if problems else place_all(mine, self._overwrite, self._gone)
        return self._problems


def write_many(groups: Iterable[Mapping[Path, bytes]], overwrite: bool) -> list[list[Problem]]:
    """As ``write_whole`` for many groups, each whole or absent by itself. Returns what went wrong with each."""
    with ManyFiles(overwrite) as many:
        for files in groups:
            many.add(files)
        return many.place()
