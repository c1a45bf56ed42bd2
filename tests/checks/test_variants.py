"""The demo and its variants: what the checks must say of each, and what they must not. The cases are TOML files."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from profilesmith.review.look_first import look_first_points
from profilesmith.workflows.derive import derive
from profilesmith.workflows.request import Request

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "recipes" / "demo"
CASES = sorted((ROOT / "tests" / "cases" / "consequences").glob("*.toml"))


def laid_out(case: dict[str, Any], folder: Path) -> Request:
    """The demo's text, with the case's changes in it, and the case's own facts."""
    text = (DEMO / "base.settings").read_text(encoding="utf-8")
    for old, new in case.get("change", {}).items():
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    (folder / "base.settings").write_text(text, encoding="utf-8")
    lines = ["format = 1"]
    for part, told in case["facts"].items():
        lines += [f"[{part}]", *(f"{name} = {value!r}" for name, value in told.items())]
    (folder / "facts.toml").write_text("\n".join(lines), encoding="utf-8")
    return Request(
        bases=(str(folder / "base.settings"),),
        key_map=str(DEMO / "keymap.toml"),
        recipes=tuple(case["recipes"]),
        facts=(str(folder / "facts.toml"),),
        answers=case.get("answers", {}),
    )


@pytest.mark.parametrize("path", CASES, ids=[path.stem for path in CASES])
def test_what_is_said_and_what_is_not(path: Path, tmp_path: Path) -> None:
    case = tomllib.loads(path.read_text(encoding="utf-8"))
    review = derive(laid_out(case, tmp_path)).review
    found = review.consequences
    first = "\n".join(f"{point.kind}: {point.title}: {point.text}" for point in look_first_points(review))
    for words in case.get("first", ()):
        assert words in first, words
    for words in case.get("not_first", ()):
        assert words not in first, words
    said = "\n".join(f"{item.check}: {item.text}" for item in found)
    for words in case["says"]:
        assert words in said, words
    for words in case["silent"]:
        assert words not in said, words
    verdicts = {item.check: item.verdict for item in found}
    assert {name: verdicts.get(name) for name in case["verdicts"]} == case["verdicts"]


def test_the_demo_and_six_variants() -> None:
    assert len(CASES) >= 7
