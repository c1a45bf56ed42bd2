"""Rooms that work out say what they found by codes and numbers; sentences are made in ``review/``.

What a program can see of that: a text of words is made (an f-string with two words in a row, or a constant of four).
Left out are docstrings, what a mistake says, and the sources of limits and formulas, which are quoted. A mistake is an
error as a value: a ``Problem``, or a finding of the lint, with one sentence what is wrong and one what to do, written
where it is seen, since only there all that it names is at hand; nobody reads it back, its code is what programs go by.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parents[2] / "profilesmith"
ROOMS = ("checks", "physics", "recipe", "translation", "engine", "merge", "workflows", "revision", "distil")
WORDS = re.compile(r"[A-Za-z]{2,}[,:;]? [a-z]{2,}")
LONGEST = 3  # words of a constant that is still a name
OF_MISTAKES = ("Problem", "LintFinding", "lint_finding", "Hints", "did_you_mean", "complain", "wrong", "_wrong")
OF_HINTS = ("make_folder", "no_such_file", "cannot_read", "OSError")  # those that make a mistake of what they are given
OF_PATTERNS = ("compile", "late")
SPARED_NAMES = ("message", "hint", "source", "fix", "error")
OF_CODES = ("Absent", "Cause", "Note", "AgeReason")  # a code may have four words: it is worded in review/ and reports/
# What these say is the one place where it is said, for mistakes here and for reviews alike.
OWN_WORDS = {
    "recipe/operations/": "an operation knows itself: its words for checklist, schema and mistakes stand in its entry",
    "recipe/cause_words.py": "what a cause and its demand are called; a conflict is a mistake and names both sides",
}


def name_of(call: ast.Call) -> str:
    called = call.func
    return called.id if isinstance(called, ast.Name) else called.attr if isinstance(called, ast.Attribute) else ""


def is_spared_name(target: ast.expr) -> bool:
    return isinstance(target, ast.Name) and target.id.lower().rpartition("_")[2].removesuffix("s") in SPARED_NAMES


def spared_in(node: ast.AST) -> list[ast.AST]:
    """The parts of a node whose texts do not count."""
    if isinstance(node, ast.Raise | ast.Assert) or (
        isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    ):
        return [node]
    if isinstance(node, ast.Call):
        if name_of(node) in OF_CODES:
            return node.args[:1]
        if name_of(node) in (*OF_MISTAKES, *OF_HINTS, *OF_PATTERNS) or "problem" in name_of(node).lower():
            return [node]
        return [word for word in node.keywords if word.arg in SPARED_NAMES]
    if isinstance(node, ast.Subscript):
        return [node] if isinstance(node.value, ast.Name) and node.value.id == "Annotated" else []
    if isinstance(node, ast.FunctionDef):
        return [node] if node.name.endswith("_hint") else []
    if isinstance(node, ast.AugAssign):
        return [node] if is_spared_name(node.target) else []
    targets = node.targets if isinstance(node, ast.Assign) else [node.target] if isinstance(node, ast.AnnAssign) else []
    return [node] if any(map(is_spared_name, targets)) else []


def texts(tree: ast.Module) -> Iterator[tuple[int, str]]:
    """Line and text of all that is made of words; ``0`` stands for what is put into an f-string."""
    spared = {id(inner) for node in ast.walk(tree) for part in spared_in(node) for inner in ast.walk(part)}
    joined = [node for node in ast.walk(tree) if isinstance(node, ast.JoinedStr)]
    spared |= {id(part) for node in joined for part in node.values}
    for node in ast.walk(tree):
        if id(node) in spared:
            continue
        if isinstance(node, ast.JoinedStr):
            text = "".join(part.value if isinstance(part, ast.Constant) else "0" for part in node.values)
            if WORDS.search(text):
                yield node.lineno, text
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and len(node.value.split()) > LONGEST:
            yield node.lineno, node.value


FILES = sorted(path for room in ROOMS for path in (PACKAGE / room).rglob("*.py"))


@pytest.mark.parametrize("room", ROOMS)
def test_no_sentence_is_made(room: str) -> None:
    made = {
        str(path.relative_to(PACKAGE)): list(texts(ast.parse(path.read_text(encoding="utf-8"))))
        for path in FILES
        if path.is_relative_to(PACKAGE / room)
    }
    assert {
        name: sentences for name, sentences in made.items() if sentences and not name.startswith(tuple(OWN_WORDS))
    } == {}


def test_it_sees_what_it_is_to_see() -> None:
    slip = (
        '"""A module that says something of itself."""\n'
        'SOURCE = "a law out of a book that is quoted"\n'
        'text = f"It takes {found} times as long."\n'
        'name = "hand edit"\n'
        'known = "one two three four"\n'
        'wrong = Problem("code", f"The key {key} is not known.", hint="Write another one into it.")\n'
        'raise ValueError(f"only brackets above {zero} can be divided")\n'
    )
    assert [text for _, text in texts(ast.parse(slip))] == ["It takes 0 times as long.", "one two three four"]
