"""A check that nobody tests is not taken up: each one that judges stands by its name in a test of this room."""

from __future__ import annotations

import ast
from pathlib import Path

from profilesmith.checks.judge import CHECKS

HERE = Path(__file__).parent
# Held by what a person is told, where the shares are rewritten and the key map is checked.
ELSEWHERE = {
    "contradictions.check_shares": ("translation/test_held_shares.py", "large-shares"),
    "contradictions.check_usual": ("checks/test_usual.py", "usual"),
}


def asked(path: Path) -> set[str]:
    """The functions of the room's modules that a test names: ``liner.check`` of a module, or by themselves."""
    nodes = list(ast.walk(ast.parse(path.read_text(encoding="utf-8"))))
    imports = [
        (node.module or "", item)
        for node in nodes
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("profilesmith.checks")
        for item in node.names
    ]
    modules = {item.asname or item.name: item.name for module, item in imports if module == "profilesmith.checks"}
    return {
        *(f"{module.rpartition('.')[2]}.{item.name}" for module, item in imports),
        *(
            f"{modules[node.value.id]}.{node.attr}"
            for node in nodes
            if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id in modules
        ),
    }


def test_every_check_has_a_test() -> None:
    tested = set[str]().union(*map(asked, HERE.glob("test_*.py")))
    checks = {f"{check.__module__.rpartition('.')[2]}.{check.__name__}" for check in CHECKS}
    assert len(checks) == len(CHECKS) > 30
    assert sorted(checks - tested) == sorted(ELSEWHERE)
    assert all(word in (HERE.parent / file).read_text(encoding="utf-8") for file, word in ELSEWHERE.values())
