"""Bytes in, bytes out: neither the engine nor anything that it imports touches a path, a file or a process.

The same wheel runs as WebAssembly in a page, where there are none.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from tests.house.test_house import PACKAGE, imports, name, tree

OUTSIDE = {
    "os", "pathlib", "io", "shutil", "tempfile", "glob", "fileinput", "subprocess", "multiprocessing", "threading",
    "concurrent", "asyncio", "socket", "ssl", "http", "urllib", "signal", "select", "fcntl", "mmap", "ctypes",
    "sqlite3",
}  # fmt: skip
PURE = {"pathlib.PurePath", "pathlib.PurePosixPath"}  # words about names, no files
OPENERS = {"open", "print", "input", "exit", "get_data", "read_text", "read_bytes", "write_text", "write_bytes"}
# The one way to a file: the package's own data, through what has loaded the package.
PACKAGE_DATA = {"foundation/package_data.py": {"get_data"}}
TOO_HEAVY = {"rich", "typer", "tomlkit"}  # for the command line, and for files that are written
# What writes a TOML file, a proposed map or a mend; tests/house/test_house.py holds that it loads it only then.
WRITERS = {"foundation/toml_values.py": {"tomlkit"}}
NEVER = OUTSIDE | TOO_HEAVY
ENTRIES = sorted((PACKAGE / "engine").glob("*.py"))
RENDERINGS = sorted((PACKAGE / "review" / "render").rglob("*.py"))  # found by name at run time


def file_of(dotted: str) -> Path | None:
    """The file of ours that an imported name leads to."""
    parts = dotted.split(".")
    for length in (len(parts), len(parts) - 1):
        place = PACKAGE.parent.joinpath(*parts[:length])
        for path in (place.with_suffix(".py"), place / "__init__.py"):
            if length > 1 and path.is_file():
                return path
    return None


@cache  # not at import, which every process of a run does for every file
def reached() -> tuple[Path, ...]:
    """All files that the engine imports, wherever in a file the import stands; the terminal's rendering is no part of
    it.
    """
    seen: set[Path] = set()
    waiting = [*ENTRIES, *(path for path in RENDERINGS if not path.name.startswith("terminal"))]
    while waiting:
        path = waiting.pop()
        if path not in seen:
            seen.add(path)
            waiting += [found for _, target in imports(path) if (found := file_of(target)) is not None]
    return tuple(sorted(seen))


def test_the_walk_finds_what_is_far_below() -> None:
    names = {name(path) for path in reached()}
    assert {"engine/derive.py", "foundation/quantity.py", "suggest/propose.py", "review/render/page.py"} <= names
    assert len(names) > 150
    assert not [item for item in names if item.startswith(("cli/", "workflows/", "library/"))]


def touched(where: str, module: ast.Module) -> Iterator[str]:
    allowed, never = PACKAGE_DATA.get(where, set()), NEVER - WRITERS.get(where, set())
    for node in ast.walk(module):
        names: list[str] = []
        if isinstance(node, ast.Import):
            names = [item.name for item in node.names]
        elif isinstance(node, ast.ImportFrom):
            names = [f"{node.module}.{item.name}" for item in node.names]
        elif isinstance(node, ast.Call):
            called = getattr(node.func, "attr", getattr(node.func, "id", ""))
            if called in OPENERS - allowed:
                yield f"{where}:{node.lineno} calls {called}"
        elif isinstance(node, ast.Name) and node.id == "__file__":
            yield f"{where}:{node.lineno} asks where it lies"
        yield from (f"{where} imports {item}" for item in names if item.split(".")[0] in never and item not in PURE)


def test_nothing_outside_is_touched() -> None:
    assert [line for path in reached() for line in touched(name(path), tree(path))] == []


@pytest.mark.parametrize(
    "line",
    [
        "import os",
        "from pathlib import Path",
        "import os.path as p",
        "open('a')",
        "import tomlkit",
        "y.read_text()",
        "__file__",
    ],
)
def test_the_check_sees_what_it_is_for(line: str) -> None:
    assert len(list(touched("engine/some.py", ast.parse(line)))) == 1
