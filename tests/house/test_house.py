"""The house rules that a program can hold: ranks of rooms, sizes of files and functions, names, foreign imports."""

from __future__ import annotations

import ast
import re
import sys
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from tests.house.figures import PACKAGE, files, tree

FILES = files()
# A file imports only rooms of lower rank and its own room. To add a room, give it a rank here.
RANKS = {
    "start": 8,
    "cli": 7,
    "workflows": 6.5,  # goals of users; they may ask the library, never the other way
    "library": 6,
    "engine": 5.5,
    "reports": 6.7,  # what workflows came to, in words; they never ask it
    "browser": 6.8,  # a door, and what makes the page that holds it
    "lint": 6.2,
    "catalogue": 6.2,
    "revision": 6.1,  # two versions of a recipe, and what the newer one does, as data
    "distil": 4.9,  # what pairs show, as data; review words it
    "merge": 5,
    "evidence": 5,
    "review": 5,
    "audit": 5,
    "write_files": 5,
    "write_many": 5.1,
    "left_over": 4.9,
    "suggest": 5,
    "mend": 4.8,  # asks recipes for bounds; knows no texts
    "coupon": 4.5,  # statistics of few prints; plans and logs as data
    "motion": 4.7,
    "translation": 4,
    "recipe": 4,
    "checks": 4,
    "ledger": 3.5,  # types that recipes and translations fill, and the file that all later rooms read
    "profile": 3,
    "facts": 3,
    "vocabulary": 2,
    "text": 2,
    "physics": 1.5,  # takes the foundation's named tuple, and nothing else
    "foundation": 1,
}
CASES = sorted(
    path
    for kind in ("round_trip", "derive", "refuse", "check_map")
    for path in (PACKAGE.parent / "tests" / "cases" / kind).iterdir()
)
LONGEST_FILE, LONGEST_FUNCTION = 250, 40
# Measured on formatted code.
FOR_TESTS = {
    "pytest",
    "hypothesis",
    "pint",
    "shapely",
    "jsonpatch",
    "jsonschema",
    "_pytest",
    "sectionproperties",
    "ruckig",
    "scipy",
    "numpy",
    "pandas",
}
# Git is asked what was committed: a fixed list of words, no shell; tests/lint/test_head_commit.py holds it to that.
# npm and node build the parts of the page once, when they are asked to.
CALLS_OUT = {"lint/head_commit.py": {"subprocess"}, "browser/parts.py": {"subprocess"}}
# An extra that is used where it is installed; never on the way from text to review.
EXTRAS = {
    "motion/numpy_columns.py": {"numpy"},
    "motion/numpy_lines.py": {"numpy"},
    "foundation/digest.py": {"_sha2", "_sha256"},  # of the interpreter: by either name, or not there
}
DECLARED = tomllib.loads((PACKAGE.parent / "pyproject.toml").read_text(encoding="utf-8"))["project"]["dependencies"]
ALLOWED = {re.split(r"[^A-Za-z0-9_]", dependency)[0] for dependency in DECLARED} | {"markupsafe"}  # a part of jinja2


def name(path: Path) -> str:
    return str(path.relative_to(PACKAGE))


def room(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


@cache
def imports(path: Path) -> tuple[tuple[int, str], ...]:
    """Line and full dotted name of everything that a file imports, wherever in it."""
    every: list[tuple[int, str]] = []
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Import):
            every += [(node.lineno, item.name) for item in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{name(path)}:{node.lineno} is a relative import"
            every += [(node.lineno, f"{node.module}.{item.name}") for item in node.names]
    return tuple(every)


def test_every_room_has_a_rank() -> None:
    rooms = {room(path) for path in FILES} - {"__init__", "__main__"}
    assert rooms <= RANKS.keys()


def upward(path: Path) -> Iterator[str]:
    """The imports of a file that go up, or across."""
    for line, target in imports(path):
        parts = target.split(".")
        if parts[0] != "profilesmith" or len(parts) == 1 or parts[1] in (room(path), "__version__"):
            continue
        if RANKS[parts[1]] >= RANKS[room(path)]:
            yield f"{name(path)}:{line} imports {target}"


# What is asked of every file is asked in one test: some thousand of them would take longer than what they ask.
def test_imports_go_one_way() -> None:
    bound = [path for path in FILES if room(path) not in ("__init__", "__main__")]  # those import everything, lazily
    assert [line for path in bound for line in upward(path)] == []


# Help builds every command for an option that was given to another: only then, and only there, it asks the program.
ROUND = {"cli": {("app", "grouped_help")}}


def units(folder: Path) -> dict[str, set[str]]:
    """Inside a room: for each of its files and folders which others of them it imports."""
    inside: dict[str, set[str]] = {}
    start = f"profilesmith.{'.'.join(folder.relative_to(PACKAGE).parts)}."
    for path in folder.rglob("*.py"):
        own = path.relative_to(folder).parts[0].removesuffix(".py")
        asked = {target.removeprefix(start).split(".")[0] for _, target in imports(path) if target.startswith(start)}
        inside.setdefault(own, set()).update(asked - {own})
    return {own: asked & inside.keys() for own, asked in inside.items() if own != "__init__"}


def round_trips(graph: dict[str, set[str]]) -> set[tuple[str, str]]:
    """Those that ask one another, on whatever way."""
    reached: dict[str, set[str]] = {own: set() for own in graph}
    for own in graph:
        waiting = [own]
        while waiting:
            for other in graph.get(waiting.pop(), set()) - reached[own]:
                reached[own].add(other)
                waiting.append(other)
    return {(one, other) for one in graph for other in reached[one] if one < other and one in reached.get(other, ())}


def test_inside_a_room_imports_go_one_way_too() -> None:
    """A file that its folder's neighbour is built on does not ask that neighbour, as deriving once asked the memory of
    re-derivations.
    """
    folders = sorted({path.parent for path in FILES} - {PACKAGE})
    assert {name(folder): trips for folder in folders if (trips := round_trips(units(folder)))} == ROUND


def test_a_round_trip_is_seen() -> None:
    assert round_trips({"derive": {"rederive"}, "rederive": {"derive", "request"}, "request": set()}) == {
        ("derive", "rederive")
    }
    assert round_trips({"a": {"b"}, "b": {"c"}, "c": {"a"}}) == {("a", "b"), ("a", "c"), ("b", "c")}


def foreign(path: Path) -> Iterator[str]:
    """What a file imports and is not installed with the package, or is for tests."""
    known = sys.stdlib_module_names | ALLOWED | {"profilesmith"} | EXTRAS.get(name(path), set())
    for line, target in imports(path):
        top = target.split(".")[0]
        if top not in known or (top in FOR_TESTS and top not in EXTRAS.get(name(path), ())):
            yield f"{name(path)}:{line} needs {top}"


def test_nothing_foreign_is_imported() -> None:
    assert [line for path in FILES for line in foreign(path)] == []


def test_physics_knows_numbers_alone() -> None:
    for path in (PACKAGE / "physics").glob("*.py"):
        known = ("profilesmith.physics", "profilesmith.foundation.named_tuple")
        outside = {target.split(".")[0] for _, target in imports(path) if not target.startswith(known)}
        assert outside <= {
            "__future__",
            "math",
            "fractions",
            "typing",
            "collections",
            "functools",
            "itertools",
        }, name(path)


def test_named_tuples_are_those_that_are_made_quickly() -> None:
    for path in FILES:
        if name(path) != "foundation/named_tuple.py":
            named = {target for _, target in imports(path)}
            assert "typing.NamedTuple" not in named, f"{name(path)}: take foundation.named_tuple's"


def lines_of(path: Path, function: ast.FunctionDef) -> int:
    """Of the whole function; of a command its body alone, since its parameters are the words of its options."""
    first = function.body[0] if path.parent.name == "commands" else function
    return (function.end_lineno or 0) - first.lineno + 1


def too_long(path: Path) -> Iterator[str]:
    """A file, and functions in it, above the limits."""
    lines = path.read_text(encoding="utf-8").count("\n")
    if lines > LONGEST_FILE:
        yield f"{name(path)} has {lines} lines"
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.FunctionDef):
            lines = lines_of(path, node)
            if lines > LONGEST_FUNCTION:
                yield f"{name(path)}:{node.name} has {lines} lines"


def test_files_and_functions_are_small() -> None:
    assert [line for path in FILES for line in too_long(path)] == []


def test_every_file_says_what_it_is() -> None:
    assert [name(path) for path in FILES if not ast.get_docstring(tree(path))] == [], "these have no docstring"
    empty = ("utils", "util", "common", "helpers", "helper", "manager", "misc")
    assert [name(path) for path in FILES if path.stem in empty] == [], "these are named after nothing"


def test_the_rules_see_what_they_are_for(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each is asked of a file that breaks it."""
    monkeypatch.setattr(sys.modules[__name__], "PACKAGE", tmp_path)
    path = tmp_path / "text" / "slip.py"
    path.parent.mkdir()
    body = "".join(f"    x{number} = 1\n" for number in range(LONGEST_FILE))
    path.write_text(f"import scipy\nimport nowhere\nfrom profilesmith.cli import app\ndef long():\n{body}")
    assert list(upward(path)) == ["text/slip.py:3 imports profilesmith.cli.app"]
    assert list(foreign(path)) == ["text/slip.py:1 needs scipy", "text/slip.py:2 needs nowhere"]
    assert list(too_long(path)) == ["text/slip.py has 254 lines", "text/slip.py:long has 251 lines"]


def test_nothing_is_evaluated_and_no_shell_is_called() -> None:
    """Recipes and maps are strangers' texts."""
    for path in FILES:
        for node in ast.walk(tree(path)):
            if isinstance(node, ast.Call):
                called = node.func.id if isinstance(node.func, ast.Name) else ""
                assert called not in ("eval", "exec", "compile", "__import__"), f"{name(path)}:{node.lineno}"
        never = {"pickle", "marshal", "shelve", "subprocess", "ctypes"} - CALLS_OUT.get(name(path), set())
        assert not {target.split(".")[0] for _, target in imports(path)} & never, name(path)


def test_printing_is_done_in_one_place() -> None:
    for path in FILES:
        if name(path) in ("cli/terminal.py", "cli/app.py"):
            continue
        for node in ast.walk(tree(path)):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                assert node.func.id != "print", f"{name(path)}:{node.lineno}"


def test_every_case_says_what_it_is_about() -> None:
    silent = []
    for folder in CASES:
        case = next(path for path in folder.iterdir() if path.name in ("case.toml", "expect.toml"))
        if len(tomllib.loads(case.read_text(encoding="utf-8"))["about"]) <= 10:
            silent.append(f"{folder.parent.name}/{folder.name}")
    assert silent == []


# Heavy packages and the files that may load them, each inside the function that needs it.
LOADED_BY = {
    "deepdiff": {"revision/recipe_changes.py"},
    "tomlkit": {"foundation/toml_values.py"},
}


@pytest.mark.parametrize("package", LOADED_BY)
def test_a_heavy_package_is_loaded_by_its_own_file_alone(package: str) -> None:
    """And by no file as it is imported: what lies on the way of a derivation pays for none of them."""
    using = {name(path) for path in FILES if any(full.partition(".")[0] == package for _, full in imports(path))}
    assert using == LOADED_BY[package]
    at_once = {
        name(path)
        for path in FILES
        for node in tree(path).body
        if isinstance(node, ast.Import | ast.ImportFrom) and package in ast.unparse(node)
    }
    assert at_once == set()
