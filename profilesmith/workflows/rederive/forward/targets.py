"""Which derived files are meant: files, folders and patterns to one name for each ledger."""

from __future__ import annotations

import glob
import os
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.ledger.place import LEDGER, ledger_beside
from profilesmith.workflows.edits_at_stake import ledger_of

PATTERN = frozenset("*?[")
MOST = 10_000


class Target(NamedTuple):
    """A derived file with a ledger beside it. place: where it goes inside a folder of outputs."""

    derived: str
    place: str


def is_several(names: Sequence[str]) -> bool:
    """Whether names mean more than the files of one ledger: a folder, a pattern, or files of several."""
    if any(map(_is_group, names)):
        return True
    return len({ledger for name in names if (ledger := ledger_of(Path(name)))}) > 1


def targets(names: Sequence[str]) -> tuple[Target, ...]:
    """Each derived file once, in the order in which it was named. Raises Refused for what leads to none."""
    by_path: dict[str, Target] = {}
    problems: list[Problem] = []
    for name in names:
        mine = list(_targets(name))
        if not mine:
            hint = "Name files that 'derive' wrote, with their ledgers beside them."
            problems.append(Problem("no-match", "No derived file is there.", Place(name), hint))
        for item in mine:
            by_path.setdefault(os.path.realpath(item.derived), item)
    if len(by_path) > MOST:
        problems.append(Problem("too-many", f"These are more than {MOST:,} files.", hint="Name fewer at a time."))
    refuse_if(problems)
    return tuple(by_path.values())


def files_meant(names: Sequence[str]) -> list[str]:
    """Names as they are; for a folder or a pattern its derived files. Raises Refused where it holds none."""
    return [item for name in names for item in ([name] if not _is_group(name) else _derived(name))]


def _is_group(name: str) -> bool:
    return os.path.isdir(name) or _is_pattern(name)


def _derived(name: str) -> list[str]:
    return [target.derived for target in targets([name])]


def _targets(name: str) -> Iterator[Target]:
    if os.path.isdir(name):
        yield from (_in_folder(path, Path(name)) for path in _derived_in(Path(name)))
    elif _is_pattern(name):
        matches = (Path(path) for path in sorted(glob.glob(name, recursive=True)))
        yield from (Target(str(path), path.name) for path in matches if _is_derived(path))
    else:
        ledger = ledger_of(Path(name))
        first = str(ledger).removesuffix(LEDGER) if ledger else name
        yield Target(first, Path(first).name)


def _is_pattern(name: str) -> bool:
    return bool(PATTERN & set(name)) and not os.path.lexists(name)


def _is_derived(path: Path) -> bool:
    return not path.name.endswith(LEDGER) and ledger_beside(path).is_file()


def _derived_in(folder: Path) -> Iterable[Path]:
    """Every derived file below a folder, hidden ones left out."""
    for path in sorted(folder.rglob(f"*{LEDGER}")):
        inner = path.relative_to(folder)
        if not any(part.startswith(".") for part in inner.parts) and path.is_file():
            yield path.with_name(path.name.removesuffix(LEDGER))


def _in_folder(path: Path, folder: Path) -> Target:
    return Target(str(path), str(path.relative_to(folder)))
