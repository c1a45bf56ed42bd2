"""A check that nobody tests is not taken up: each one that judges stands by its name in a test of this room."""

from __future__ import annotations

import ast
from pathlib import Path

from profilesmith.checks.judge import CHECKS

HERE = Path(__file__).parent
# Held by what a person is told, where the shares are rewritten and the key map is checked.
ELSEWHERE = {
    "large_shares": ("translation/test_held_shares.py", "large-shares"),
    "usual": ("checks/test_usual.py", "usual"),
}


def test_every_check_has_a_test() -> None:
    asked = {
        name
        for path in HERE.glob("test_*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("profilesmith.checks")
        for name in ((node.module or "").rpartition(".")[2], *(item.name for item in node.names))
    }
    modules = {check.__module__.rpartition(".")[2] for check in CHECKS}
    assert len(modules) > 25
    assert sorted(modules - asked) == sorted(ELSEWHERE)
    assert all(word in (HERE.parent / file).read_text(encoding="utf-8") for file, word in ELSEWHERE.values())
