"""One mutant and the tests that can notice it, in a process of its own, which ends with the answer.

Most mutants change the body of a function: its code is put into the package that is loaded already. What is read while
a module is loaded (a table, a default) needs a process that has loaded nothing of the package yet.
"""

import functools
import gc
import importlib.abc
import importlib.machinery
import importlib.util
import os
import resource
import signal
import sys
import traceback
import types
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest

from tests.mutants.mutant import PACKAGE, ROOMS, ROOT, THEN, Mutant

LONGEST_S = 5
TIMES = 10
"""A test that computes so many seconds and so many times as long as it does without a change notices the mutant."""
ASLEEP_S = 1800
LARGEST = 4 * 2**30
NOT_HERE = ("test_files_of_this_machine.py", "test_process.py")
OPTIONS = (
    *("-x", "-q", "--tb=no", "--assert=plain", "--capture=no", "-p", "no:cacheprovider", "-p", "no:xdist"),
    *("-W", "ignore::pytest.PytestAssertRewriteWarning", "-o", "addopts=", "--import-mode=importlib"),
    *(f"--ignore-glob=*{name}" for name in NOT_HERE),
)


def files(rooms: Sequence[str], own: bool) -> list[str]:
    """The tests of some rooms. own: without those that run after them."""
    return [*(name for room in rooms for name in ROOMS[room]), *(() if own else THEN)]


def begin() -> None:
    """What a process does first that is to run tests."""
    os.setpgid(0, 0)
    quiet = os.open(os.environ.get("MUTANTS_LOG", os.devnull), os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o644)
    os.dup2(quiet, 1)
    os.dup2(quiet, 2)
    os.chdir(ROOT)
    os.environ["PROFILESMITH_LAWS"] = "quick"
    sys.dont_write_bytecode = True


def suite_without_chance() -> None:
    """The same examples each time; one that fails is not made smaller, and none is kept for the next run."""
    from hypothesis import Phase, settings

    phases = (Phase.explicit, Phase.generate)
    suite = settings.get_profile("suite")
    settings.register_profile("mutants", suite, database=None, derandomize=True, phases=phases)
    settings.load_profile("mutants")


class OneMutant:
    """A plugin of pytest: the tests in their order, each with its time, until one fails."""

    def __init__(self, tests: Sequence[str], seconds: dict[str, float]) -> None:
        self._seconds = seconds
        self._place = {test: place for place, test in enumerate(tests)}

    @pytest.hookimpl(trylast=True)
    def pytest_configure(self) -> None:
        suite_without_chance()

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items[:] = in_order(items, self._place)

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        give_time(self._seconds[item.nodeid])
        return (yield)


def in_order(items: Sequence[pytest.Item], place: dict[str, int]) -> list[pytest.Item]:
    """Those that have a place."""
    return sorted((item for item in items if item.nodeid in place), key=lambda item: place[item.nodeid])


def give_time(usual: float) -> None:
    """Seconds of computing, not of the clock: what ends in time does so on a busy machine too."""
    signal.setitimer(signal.ITIMER_PROF, LONGEST_S + TIMES * usual)


def bounded() -> None:
    """A mutant that takes all memory, or sleeps for ever, ends too."""
    resource.setrlimit(resource.RLIMIT_DATA, (LARGEST, LARGEST))
    signal.alarm(ASLEEP_S)


def from_the_start(mutant: Mutant, rooms: Sequence[str], plugin: OneMutant, folder: Path) -> int:
    """0 where it survives: a run of pytest that reads the package anew."""
    begin()
    bounded()
    sys.meta_path.insert(0, _Instead(mutant))
    wanted = [path for path in rooms if (ROOT / path).exists()]
    try:
        return int(pytest.main([*OPTIONS, f"--basetemp={folder}", *wanted], plugins=[plugin]))
    except BaseException:
        traceback.print_exc()
        return 1


class _Instead(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives one module another code."""

    def __init__(self, mutant: Mutant) -> None:
        self.name, self.mutant = mutant.module(), mutant

    def find_spec(self, name: str, path: object = None, target: object = None) -> importlib.machinery.ModuleSpec | None:
        if name != self.name:
            return None
        package = self.mutant.path.name == "__init__.py"
        spec = importlib.util.spec_from_file_location(name, self.mutant.path, loader=self)
        if spec is not None and package:
            spec.submodule_search_locations = [str(self.mutant.path.parent)]
        return spec

    def exec_module(self, module: types.ModuleType) -> None:
        exec(self.mutant.code(), module.__dict__)


def put_in(mutant: Mutant) -> None:
    """Give the functions of a loaded module the code of the mutant; nothing that is remembered stays."""
    path = str(mutant.path)
    importlib.import_module(mutant.module())
    codes = {(code.co_qualname, code.co_firstlineno): code for code in _inner(mutant.code())}
    put = 0
    for thing in gc.get_objects():
        if isinstance(thing, types.FunctionType) and thing.__code__.co_filename == path:
            code = codes.get((thing.__code__.co_qualname, thing.__code__.co_firstlineno))
            if code is not None and code.co_freevars == thing.__code__.co_freevars:
                thing.__code__ = code
                put += thing.__qualname__ == mutant.mutation.function
    if not put:
        raise LookupError(f"{mutant}: its function is not loaded")
    forget()


def forget() -> None:
    """Empty the memories of the package's functions."""
    for thing in gc.get_objects():
        if isinstance(thing, functools._lru_cache_wrapper) and str(thing.__module__).startswith(PACKAGE.name):
            thing.cache_clear()


def _inner(code: types.CodeType) -> Iterator[types.CodeType]:
    for constant in code.co_consts:
        if isinstance(constant, types.CodeType):
            yield constant
            yield from _inner(constant)
