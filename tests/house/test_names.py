"""Names say what a value is, and a class name stands in one file."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.house.figures import ALL_PURPOSE, shared_class_names, uses_of

# Class names of more than one file, each with its reason.
SHARED: dict[str, str] = {}


@pytest.mark.parametrize("name", ALL_PURPOSE)
def test_a_value_has_a_name_of_its_own(name: str) -> None:
    assert uses_of(name) == [], f"{name!r} says nothing of a value"


def test_a_class_name_stands_in_one_file() -> None:
    assert {name: where for name, where in shared_class_names().items() if name not in SHARED} == {}


def test_it_sees_what_it_is_to_see(tmp_path: Path) -> None:
    (tmp_path / "one.py").write_text(
        "class Row: ...\n"
        "def a():\n    found = 1\n"
        "def b(found): ...\n"
        "def c():\n    return [found for found in ()]\n"
        "def d():\n    return found.told\n"
        "def e():\n    def f():\n        found = 1\n"
    )
    (tmp_path / "two.py").write_text("class Row: ...\n")
    assert shared_class_names(tmp_path) == {"Row": ["one.py", "two.py"]}
    assert sorted(uses_of("found", tmp_path)) == ["one.py:a", "one.py:b", "one.py:c", "one.py:f"]
    assert uses_of("told", tmp_path) == []
