"""What many tests share: the program run in this process, maps read from a few lines, texts read and derived.

Everything is a fixture, since test files do not import one another.
"""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

import pytest
from hypothesis import HealthCheck, settings

from profilesmith.cli.app import main
from profilesmith.engine.derive import Derivation
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.text.read_document import read_document
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.translation.key_map import KeyMap
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Vocabulary
from profilesmith.workflows.derive import derive
from profilesmith.workflows.parallel import cores
from profilesmith.workflows.request import Request

# No test may depend on how fast the machine is: one profile for the whole suite, which the others start from.
settings.register_profile(
    "suite",
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("suite")


@pytest.hookimpl(optionalhook=True)  # the search for wrong changes runs without that plugin
def pytest_xdist_auto_num_workers() -> int | None:
    """``-n auto``: one process more than there are cores, since many tests wait for a browser or for other programs."""
    return None if os.environ.get("PYTEST_XDIST_AUTO_NUM_WORKERS") else cores() + 1


LONGEST_FIRST = ("suggest/test_dialects_derive.py", "browser/", "laws/", "workflows/", "suggest/")
"""Files that take longest, or wait for the disk: begun last, one of them would end alone while the cores idle."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The order in which files are handed to the processes (``--no-loadscope-reorder``: not by how many tests)."""
    here = Path(__file__).parent

    def rank(item: pytest.Item) -> int:
        name = item.path.relative_to(here).as_posix() if item.path.is_relative_to(here) else ""
        return next((at for at, head in enumerate(LONGEST_FIRST) if name.startswith(head)), len(LONGEST_FIRST))

    items.sort(key=rank)


@pytest.fixture(autouse=True)
def _like_windows(monkeypatch: pytest.MonkeyPatch) -> None:
    """``PROFILESMITH_LIKE_WINDOWS=1`` runs any tests on a stand-in for that file system."""
    if os.environ.get("PROFILESMITH_LIKE_WINDOWS"):
        from tests.faults.like_windows import be_like_windows

        be_like_windows(monkeypatch)


@pytest.fixture(autouse=True, scope="session")
def _without_waiting_for_the_disk() -> Iterator[None]:
    """Files are not flushed to the disk in this process: only after a lost power could a test tell the difference.

    Tests of broken disks and of killed writers put their own flush in its place, or start processes, which do flush.
    """
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "fsync", os.fstat)  # a handle that is none stays an error
        yield


class Ran(NamedTuple):
    """One run of the program. codes: of the problems that it ended with."""

    code: int
    out: str
    err: str
    codes: tuple[str, ...]
    problems: tuple[Problem, ...]


Program = Callable[..., Ran]


@pytest.fixture
def vocabulary() -> Vocabulary:
    return load_vocabulary()


@pytest.fixture
def program(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Program:
    """Run ``profilesmith ARGS`` in this process, by its own ``main``. A traceback on stderr fails the test."""
    seen: list[Refused] = []
    first = Refused.__init__

    def spy(self: Refused, problems: object) -> None:
        first(self, problems)  # type: ignore[arg-type]
        seen.append(self)

    monkeypatch.setattr(Refused, "__init__", spy)
    for name in ("PROFILESMITH_LIBRARY", "PROFILESMITH_TRACEBACK", "NO_COLOR", "COLUMNS"):
        monkeypatch.delenv(name, raising=False)

    def run(*words: object) -> Ran:
        seen.clear()
        monkeypatch.setattr(sys, "argv", ["profilesmith", *(str(word) for word in words)])
        capsys.readouterr()
        with pytest.raises(SystemExit) as ended:
            main()
        shown = capsys.readouterr()
        assert "Traceback" not in shown.err
        problems = seen[-1].problems if seen else ()
        code = ended.value.code
        assert code is None or isinstance(code, int)
        return Ran(code or 0, shown.out, shown.err, tuple(problem.code for problem in problems), problems)

    return run


@pytest.fixture
def read_map(tmp_path: Path, vocabulary: Vocabulary) -> Callable[[str], tuple[KeyMap | None, list[Problem]]]:
    """A key map from the text of its bindings (``format`` and ``[keymap]`` are put before it), and its problems."""

    def read(text: str) -> tuple[KeyMap | None, list[Problem]]:
        path = tmp_path / "map.toml"
        path.write_text(f'format = 1\n[keymap]\nname = "test"\n{text}', encoding="utf-8")
        return load_key_map(path.read_bytes(), "map.toml", vocabulary)

    return read


@pytest.fixture
def read_recipe(tmp_path: Path, vocabulary: Vocabulary) -> Callable[[str], tuple[Recipe | None, list[Problem]]]:
    """A recipe from the text of its rules (``format`` and ``[recipe]`` are put before it), and its problems."""

    def read(text: str, name: str = "test") -> tuple[Recipe | None, list[Problem]]:
        path = tmp_path / f"{name}.toml"
        path.write_text(f'format = 1\n[recipe]\nname = "{name}"\nversion = "1.0.0"\n{text}', encoding="utf-8")
        return load_recipe(path.read_bytes(), f"{name}.toml", vocabulary)

    return read


@pytest.fixture
def read_text(
    read_map: Callable[[str], tuple[KeyMap | None, list[Problem]]], vocabulary: Vocabulary
) -> Callable[..., Translation]:
    """Texts through a map: ``read_text(bindings, "a = 1\\n", ...)``."""

    def read(bindings: str, *texts: str | bytes) -> Translation:
        key_map, problems = read_map(bindings)
        assert key_map is not None, problems
        raws = [text.encode() if isinstance(text, str) else text for text in texts]
        documents = tuple(read_document(raw, f"base{number}.cfg", key_map.habits) for number, raw in enumerate(raws, 1))
        return translate(documents, key_map, vocabulary)

    return read


@pytest.fixture
def derived(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Derivation]:
    """The whole pipeline on texts: ``derived(base, bindings, rules, facts=..., follow_literals=...)``."""
    head = 'format = 1\n[recipe]\nname = "test"\nversion = "1.0.0"\n'

    def run(
        base: str | bytes,
        bindings: str,
        *rules: str,
        facts: str = "",
        answers: Mapping[str, str] | None = None,
        follow_literals: bool = False,
        shares: str = "",
    ) -> Derivation:
        monkeypatch.chdir(tmp_path)
        Path("base.cfg").write_bytes(base.encode() if isinstance(base, str) else base)
        Path("map.toml").write_text(f"format = 1\n{bindings}", encoding="utf-8")
        names = [f"rules{number}.toml" for number, _ in enumerate(rules, 1)]
        for name, text in zip(names, rules, strict=True):
            Path(name).write_text(text if text.startswith("format") else head + text, encoding="utf-8")
        if facts:
            Path("facts.toml").write_text(f"format = 1\n{facts}", encoding="utf-8")
        return derive(
            Request(
                bases=("base.cfg",),
                key_map="map.toml",
                recipes=tuple(names),
                facts=("facts.toml",) if facts else (),
                answers=dict(answers or {}),
                follow_literals=follow_literals,
                shares=shares,
            )
        )

    return run


@pytest.fixture
def laid_out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[[Path], Path]:
    """A case's files in a folder of their own, which is also the working folder."""

    def lay(folder: Path) -> Path:
        target = tmp_path / "case"
        shutil.copytree(folder, target)
        monkeypatch.chdir(target)
        return target

    return lay


def bind(setting: str, key: str, more: str = "") -> str:
    """The text of one binding."""
    return f'[[binding]]\nsetting = "{setting}"\nkey = "{key}"\n{more}\n'


def rule(setting: str, operation: str, more: str = "") -> str:
    """The text of one rule."""
    return f'[[rule]]\nsetting = "{setting}"\n{operation}\nwhy = "test"\n{more}\n'


@pytest.fixture(name="bind")
def bind_fixture() -> Callable[..., str]:
    return bind


@pytest.fixture(name="rule")
def rule_fixture() -> Callable[..., str]:
    return rule
