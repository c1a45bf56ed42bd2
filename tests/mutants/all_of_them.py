"""Many mutants, some at once: first those that can be put into a loaded package, then the others."""

import gc
import os
import pickle
import signal
import sys
import tempfile
import traceback
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from typing import TypeVar

import pytest

from tests.mutants.mutant import Mutant
from tests.mutants.one_mutant import (
    OPTIONS,
    OneMutant,
    begin,
    bounded,
    files,
    forget,
    from_the_start,
    give_time,
    in_order,
    put_in,
    suite_without_chance,
)
from tests.mutants.reach import Calls, Reach, learn, merged

Thing = TypeVar("Thing")
Answer = tuple[Mutant, bool]
"""A mutant, and whether it survives."""
NOT_PUT_IN = 70


class _Loaded:
    """A plugin of pytest: all tests are collected once; each mutant is tried in a copy of this process."""

    def __init__(self, mutants: Sequence[Mutant], jobs: int, folder: Path, calls: Calls) -> None:
        self._mutants, self._jobs, self._folder, self._calls = mutants, jobs, folder, calls

    @pytest.hookimpl(trylast=True)
    def pytest_configure(self) -> None:
        suite_without_chance()

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        self._calls.__exit__()
        learned = self._folder / "learned"
        if not learned.exists():
            parts = list(range(self._jobs))
            ways = [way for _, way in _in_processes(parts, self._jobs, lambda part: self._learn(session, part))]
            assert not any(ways), ways
            learned.write_bytes(pickle.dumps(merged(self._part(part) for part in parts)))
        reach: Reach = pickle.loads(learned.read_bytes())
        if reach.failed:
            return True
        gc.freeze()
        with (self._folder / "answers").open("ab") as answers:
            here = [mutant for mutant in self._mutants if reach.can_be_put_in(mutant)]
            for mutant, status in _in_processes(here, self._jobs, lambda mutant: self._try(session, mutant, reach)):
                pickle.dump((mutant, status == 0), answers)
                answers.flush()
        return True

    def _folder_of_this(self, session: pytest.Session) -> None:
        folder = self._folder / str(os.getpid())
        folder.mkdir()
        tempfile.tempdir = str(folder)
        session.config._tmp_path_factory._basetemp = folder  # type: ignore[attr-defined]

    def _part(self, part: int) -> Path:
        return self._folder / f"learned{part}"

    def _learn(self, session: pytest.Session, part: int) -> int:
        self._folder_of_this(session)
        forget()
        session.config.option.maxfail = 0
        learn(session, self._calls, self._part(part), part, self._jobs)
        return 0

    def _try(self, session: pytest.Session, mutant: Mutant, reach: Reach) -> int:
        os.setpgid(0, 0)
        self._folder_of_this(session)
        bounded()
        gc.unfreeze()  # what is frozen cannot be looked for
        try:
            put_in(mutant)
        except LookupError:
            traceback.print_exc()
            return NOT_PUT_IN
        items = in_order(session.items, {test: place for place, test in enumerate(reach.tests(mutant))})
        for item, following in zip(items, [*items[1:], None], strict=True):
            give_time(reach.seconds[item.nodeid])
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
            if session.testsfailed:
                return 1
        return 0


def _in_processes(things: Iterable[Thing], jobs: int, run: Callable[[Thing], int]) -> Iterator[tuple[Thing, int]]:
    """Each in a copy of this process, some at once; with the way it ended, 0 for a good one."""
    running: dict[int, Thing] = {}

    def ended() -> tuple[Thing, int]:
        child, status = os.wait()
        with suppress(ProcessLookupError, PermissionError):
            os.killpg(child, signal.SIGKILL)
        way = os.waitstatus_to_exitcode(status)
        assert way != NOT_PUT_IN, running[child]
        return running.pop(child), way

    for thing in things:
        if len(running) >= jobs:
            yield ended()
        sys.stdout.flush()
        child = os.fork()
        if not child:
            status = 1
            try:
                status = run(thing)
            except BaseException:
                traceback.print_exc()
            finally:
                os._exit(status)
        running[child] = thing
    while running:
        yield ended()


def answers(mutants: Sequence[Mutant], rooms: Sequence[str], jobs: int, own: bool, folder: Path) -> Iterator[Answer]:
    """Each mutant as soon as it is known. ValueError: with the tests that fail without any change."""
    wanted = files(rooms, own)
    shared = folder / "answers"
    shared.touch()

    def loaded(_: object) -> int:
        begin()
        calls = Calls()
        calls.__enter__()
        return int(pytest.main([*OPTIONS, *wanted], plugins=[_Loaded(mutants, jobs, folder, calls)]))

    seen = 0
    child = os.fork()
    if not child:
        try:
            os._exit(loaded(None))
        finally:
            os._exit(1)
    with shared.open("rb") as stream:
        while True:
            done, _ = os.waitpid(child, os.WNOHANG)
            while True:
                at = stream.tell()
                try:
                    yield pickle.load(stream)
                    seen += 1
                except (EOFError, pickle.UnpicklingError):
                    stream.seek(at)
                    break
            if done:
                break
            signal.sigtimedwait([], 1)
    learned = folder / "learned"
    if not learned.exists():
        raise ValueError("the tests cannot be read")
    reach: Reach = pickle.loads(learned.read_bytes())
    if reach.failed:
        raise ValueError(", ".join(reach.failed))
    others = [mutant for mutant in mutants if not reach.can_be_put_in(mutant)]
    if seen + len(others) != len(mutants):
        raise ValueError("some mutants have no answer")

    def anew(mutant: Mutant) -> int:
        plugin = OneMutant(reach.tests(mutant), reach.seconds)
        return from_the_start(mutant, wanted, plugin, folder / f"anew{os.getpid()}")

    for mutant, status in _in_processes(others, jobs, anew):
        yield mutant, status == 0
