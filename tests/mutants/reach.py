"""Which test calls which function of the package, and how long each takes: learned from one run without a change."""

import pickle
import sys
import time
from collections.abc import Iterable
from itertools import zip_longest
from pathlib import Path
from types import FrameType
from typing import NamedTuple

import pytest

from tests.mutants.mutant import PACKAGE, Mutant

Function = tuple[str, str]
"""A file of the package and a qualified name."""


def inside(path: Path) -> str:
    """A file of the package, by its place in it."""
    return path.relative_to(PACKAGE).as_posix()


class Reach(NamedTuple):
    """by_test: the functions that a test calls; seconds: of computing that it takes; failed: tests that do.

    while_imported: the functions that are called while modules are read.
    """

    by_test: dict[str, frozenset[Function]]
    seconds: dict[str, float]
    failed: tuple[str, ...]
    while_imported: frozenset[Function]

    def can_be_put_in(self, mutant: Mutant) -> bool:
        """Whether a function of a package that is loaded already may be exchanged for the mutant's."""
        function = (inside(mutant.path), mutant.mutation.function)
        return bool(mutant.mutation.function) and function not in self.while_imported

    def tests(self, mutant: Mutant) -> list[str]:
        """Those that can notice it: of its own file first, then the quickest first."""
        path, name = inside(mutant.path), mutant.mutation.function
        if self.can_be_put_in(mutant):
            able = [test for test, reached in self.by_test.items() if (path, name) in reached]
        else:
            able = list(self.by_test)
        own, file = f"test_{mutant.path.stem}.py", {test: test.partition("::")[0] for test in able}
        near = {test: any(path == called for called, _ in self.by_test[test]) for test in able}
        return sorted(able, key=lambda test: (not file[test].endswith(own), not near[test], self.seconds[test]))


class Calls:
    """Notes which functions of the package are called while it listens."""

    def __init__(self) -> None:
        self._codes: set[object] = set()

    def __enter__(self) -> "Calls":
        sys.settrace(self._call)
        return self

    def __exit__(self, *_: object) -> None:
        sys.settrace(None)

    def _call(self, frame: FrameType, event: str, argument: object) -> None:
        self._codes.add(frame.f_code)

    def functions(self) -> frozenset[Function]:
        """Of the package alone."""
        names = ((code.co_filename, code.co_qualname) for code in self._codes)  # type: ignore[attr-defined]
        return frozenset((inside(Path(file)), name) for file, name in names if file.startswith(str(PACKAGE)))


def learn(session: pytest.Session, imported: Calls, file: Path, part: int, parts: int) -> None:
    """Run a part of the test files once, and write what was learned to a file."""
    by_test, seconds, failed = {}, {}, []
    places = {path: place for place, path in enumerate(dict.fromkeys(item.path for item in session.items))}
    items = [item for item in session.items if places[item.path] % parts == part]
    for item, following in zip_longest(items, items[1:]):
        before, start = session.testsfailed, time.process_time()
        with Calls() as calls:
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
        seconds[item.nodeid] = time.process_time() - start
        by_test[item.nodeid] = calls.functions()
        if session.testsfailed > before:
            failed.append(item.nodeid)
    file.write_bytes(pickle.dumps(Reach(by_test, seconds, tuple(failed), imported.functions())))


def merged(files: Iterable[Path]) -> Reach:
    """What the parts have learned."""
    parts: list[Reach] = [pickle.loads(file.read_bytes()) for file in files]
    by_test, seconds = {}, {}
    for part in parts:
        by_test |= part.by_test
        seconds |= part.seconds
    failed = tuple(test for part in parts for test in part.failed)
    return Reach(by_test, seconds, failed, parts[0].while_imported)
