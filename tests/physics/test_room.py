"""The room as a whole: light to import, small, and every function says where it comes from."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

from tests.physics.samples import functions

ROOM = Path(__file__).resolve().parents[2] / "profilesmith" / "physics"
FILES = sorted(ROOM.glob("*.py"))
ALLOWED = {"__future__", "math", "fractions", "collections.abc", "profilesmith.foundation.named_tuple"}
HEAVY = ("numpy", "scipy", "pint", "shapely", "sympy", "pydantic", "rich", "typer", "tomlkit", "deepdiff")


def imports(path: Path) -> set[str]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    named = {node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    return named | {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}


@pytest.mark.parametrize("path", FILES, ids=[path.name for path in FILES])
def test_only_mathematics_is_imported(path: Path) -> None:
    strangers = {name for name in imports(path) - ALLOWED if not name.startswith("profilesmith.physics.")}
    assert not strangers
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 250


def test_the_room_itself_imports_nothing() -> None:
    assert imports(ROOM / "__init__.py") == set()


def test_importing_all_of_it_loads_no_library() -> None:
    modules = "; ".join(f"import profilesmith.physics.{path.stem}" for path in FILES if path.stem != "__init__")
    code = f"import sys; {modules}; print([name for name in {HEAVY!r} if name in sys.modules])"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOM.parents[1])
    assert run.stdout.strip() == "[]"


@pytest.mark.parametrize("name", sorted(functions()))
def test_every_function_names_its_source(name: str) -> None:
    function = functions()[name]
    own = function.__doc__ or ""
    whole = own + (sys.modules[function.__module__].__doc__ or "")
    assert own
    if not name.startswith("answer."):
        assert any(mark in whole for mark in ("ource", "Own derivation", "Own fit", "no source"))
