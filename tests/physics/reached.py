"""Which functions of physics/ the rest of the package reaches, by reading its source: directly, or through another."""

from __future__ import annotations

import ast
import inspect
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

PACKAGE = Path(__file__).resolve().parents[2] / "profilesmith"
PHYSICS = "profilesmith.physics"


def reached(functions: dict[str, Callable[..., Any]]) -> set[str]:
    """Names (``file.name``) of those that a file outside of physics/ imports or calls, and of what these call."""
    found = {name for path in PACKAGE.rglob("*.py") if path.parent.name != "physics" for name in _named(path)}
    waiting = found & set(functions)
    done: set[str] = set()
    while waiting:
        name = waiting.pop()
        done.add(name)
        waiting |= _called(functions[name], functions) - done
    return done


def _named(path: Path) -> set[str]:
    text = path.read_text(encoding="utf-8")
    if PHYSICS not in text:
        return set()
    tree = ast.parse(text)
    found: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith(PHYSICS):
            module = (node.module or "").removeprefix(PHYSICS).removeprefix(".")
            for alias in node.names:
                found |= {f"{module}.{alias.name}"} if module else _attributes(tree, alias.name)
    return found


def _attributes(tree: ast.AST, module: str) -> set[str]:
    """``melt.equal_flow_pressure_ratio`` of a file that imports the module ``melt``."""
    return {
        f"{module}.{node.attr}"
        for node in ast.walk(tree)
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == module
    }


def _called(function: Callable[..., Any], functions: dict[str, Callable[..., Any]]) -> set[str]:
    """Functions of the room that one names, through private ones of its file too."""
    module = sys.modules[function.__module__]
    known = {id(value): name for name, value in functions.items()}
    found: set[str] = set()
    for node in ast.walk(ast.parse(inspect.getsource(function))):
        value = getattr(module, node.id, None) if isinstance(node, ast.Name) else None
        if id(value) in known and value is not function:
            found.add(known[id(value)])
        elif inspect.isfunction(value) and value is not function and value.__name__.startswith("_"):
            found |= _called(value, functions)
    return found
