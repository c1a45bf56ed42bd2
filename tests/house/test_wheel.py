"""The wheel that users install: recipes, data and typing mark are in it, tests are not, and it works from there.

It is built once. Without hatchling in this environment pip would have to fetch it, which fails without a network: then
these tests are skipped and say so.
"""

from __future__ import annotations

import importlib.util
import os
import subprocess
import sys
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Iterator[zipfile.ZipFile]:
    folder = tmp_path_factory.mktemp("wheel")
    call = [
        sys.executable,
        "-m",
        "pip",
        "wheel",
        "--no-deps",
        "--quiet",
        "--disable-pip-version-check",
        "-w",
        str(folder),
        str(ROOT),
    ]
    if importlib.util.find_spec("hatchling"):
        call.append("--no-build-isolation")
    done = subprocess.run(call, capture_output=True, text=True, timeout=300, check=False)
    built = list(folder.glob("profilesmith-*.whl"))
    if not built:
        if importlib.util.find_spec("hatchling"):
            pytest.fail(done.stderr)
        pytest.skip("hatchling is not installed here and could not be fetched")
    with zipfile.ZipFile(built[0]) as archive:
        yield archive


def test_the_recipes_travel_in_the_wheel(wheel: zipfile.ZipFile) -> None:
    names = set(wheel.namelist())
    wanted = {
        f"profilesmith/shipped/{path.relative_to(ROOT / 'recipes')}"
        for path in (ROOT / "recipes").rglob("*")
        if path.is_file()
    }
    assert len(wanted) > 15
    assert wanted <= names


def test_data_and_typing_mark(wheel: zipfile.ZipFile) -> None:
    names = set(wheel.namelist())
    folders = ("knowledge", "library/template")
    data = {
        f"profilesmith/{folder}/{path.name}"
        for folder in folders
        for path in (ROOT / "profilesmith" / folder).iterdir()
        if path.is_file()
    }
    assert {"profilesmith/knowledge/recipe.schema.json", "profilesmith/library/template/gitattributes"} <= data
    assert data <= names
    assert {"profilesmith/py.typed", "profilesmith/__init__.pyi"} <= names


def test_every_module_is_in_it_and_no_test(wheel: zipfile.ZipFile) -> None:
    names = set(wheel.namelist())
    modules = {str(path.relative_to(ROOT)) for path in (ROOT / "profilesmith").rglob("*.py")}
    assert modules <= names
    assert [name for name in names if "test" in name.lower().split("/")[0] or name.endswith((".pyc", ".orig"))] == []


def test_name_licence_and_command(wheel: zipfile.ZipFile) -> None:
    info = next(name.partition("/")[0] for name in wheel.namelist() if ".dist-info/" in name)
    metadata = wheel.read(f"{info}/METADATA").decode()
    assert "Name: profilesmith\n" in metadata
    assert "License-Expression: MIT\n" in metadata
    assert "Requires-Python: >=3.11\n" in metadata
    assert "profilesmith = profilesmith.start:main" in wheel.read(f"{info}/entry_points.txt").decode()


def test_it_runs_from_where_it_is_unpacked(wheel: zipfile.ZipFile, tmp_path: Path) -> None:
    """Away from the checkout: recipes are found inside the package, and the main job runs."""
    wheel.extractall(tmp_path / "site")
    code = (
        "import sys; sys.path.insert(0, sys.argv.pop(1)); from profilesmith.library.find import shipped\n"
        "assert shipped().name == 'shipped', shipped()\nfrom profilesmith.cli.app import main; main()"
    )
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    done = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path / "site"), "demo", "shelf"],
        cwd=tmp_path,
        env=environment,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "shelf" / "soft.settings").read_bytes() != (tmp_path / "shelf" / "base.settings").read_bytes()
