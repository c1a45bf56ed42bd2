"""``python -m tests.house.figures [FOLDER]``: the figures of the house, to be set beside those of another day.

Files, lines, the median and the largest function and file, lines above 120 characters, imports inside of functions,
class names that stand in more than one file, and functions that give a value a name which says nothing of it.
Of the package where no folder is named.
"""

from __future__ import annotations

import ast
import statistics
import sys
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path

PACKAGE = Path(__file__).resolve().parents[2] / "profilesmith"
# Names that fit every value and so tell none.
ALL_PURPOSE = ("found", "told", "pair")
WIDEST = 120


def files(folder: Path = PACKAGE) -> list[Path]:
    return sorted(path for path in folder.rglob("*.py") if "__pycache__" not in path.parts)


@cache
def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


Function = ast.FunctionDef | ast.AsyncFunctionDef


def functions(path: Path) -> list[Function]:
    return [node for node in ast.walk(tree(path)) if isinstance(node, Function)]


def own_nodes(function: Function) -> Iterator[ast.AST]:
    """All nodes of a function but those of functions inside of it."""
    waiting: list[ast.AST] = [function.args, *function.body]
    while waiting:
        node = waiting.pop()
        yield node
        if not isinstance(node, Function):
            waiting.extend(ast.iter_child_nodes(node))


def bound_by(function: Function) -> Iterator[str | None]:
    """The names that a function gives values: as a parameter, by assignment, in a loop or a pattern."""
    for node in own_nodes(function):
        if isinstance(node, ast.Name):
            if isinstance(node.ctx, ast.Store):
                yield node.id
        elif isinstance(node, ast.arg):
            yield node.arg
        elif isinstance(node, ast.MatchAs | ast.MatchStar):
            yield node.name


@cache
def bound_names(path: Path) -> list[tuple[str, frozenset[str | None]]]:
    """Each function of a file, and the names that it gives values: looked up once for all names."""
    return [(function.name, frozenset(bound_by(function))) for function in functions(path)]


def uses_of(name: str, folder: Path = PACKAGE) -> list[str]:
    """The functions that call a value so, as ``file:function``."""
    return [
        f"{path.relative_to(folder)}:{function}"
        for path in files(folder)
        for function, bound in bound_names(path)
        if name in bound
    ]


def shared_class_names(folder: Path = PACKAGE) -> dict[str, list[str]]:
    """Class names that stand in more than one file, with these files."""
    places: dict[str, list[str]] = defaultdict(list)
    for path in files(folder):
        for node in ast.walk(tree(path)):
            if isinstance(node, ast.ClassDef):
                places[node.name].append(str(path.relative_to(folder)))
    return {name: where for name, where in sorted(places.items()) if len(set(where)) > 1}


def inner_imports(path: Path) -> int:
    """Imports that wait until a function is called."""
    inside = {
        node
        for function in functions(path)
        for node in ast.walk(function)
        if isinstance(node, ast.Import | ast.ImportFrom)
    }
    return len(inside)


def figures(folder: Path = PACKAGE) -> Iterator[tuple[str, str]]:
    every = files(folder)
    texts = {path: path.read_text(encoding="utf-8").splitlines() for path in every}
    yield "files; lines", f"{len(every)}; {sum(map(len, texts.values()))}"
    sizes = {path: len(lines) for path, lines in texts.items()}
    largest = max(sizes, key=lambda path: sizes[path])
    yield (
        "file: median; largest",
        (f"{statistics.median(sizes.values()):.0f}; {sizes[largest]} ({largest.relative_to(folder)})"),
    )
    lengths = {
        f"{path.relative_to(folder)}:{node.name}": (node.end_lineno or 0) - node.lineno + 1
        for path in every
        for node in functions(path)
    }
    longest = max(lengths, key=lambda function: lengths[function])
    yield "function: median; largest", f"{statistics.median(lengths.values()):.0f}; {lengths[longest]} ({longest})"
    yield "functions of more than 40 lines", str(sum(lines > 40 for lines in lengths.values()))
    yield f"lines above {WIDEST}", str(sum(len(line) > WIDEST for lines in texts.values() for line in lines))
    yield "imports inside of functions", str(sum(map(inner_imports, every)))
    yield "class names in more than one file", str(len(shared_class_names(folder)))
    for name in ALL_PURPOSE:
        yield f"functions that call a value {name!r}", str(len(uses_of(name, folder)))


if __name__ == "__main__":
    for what, figure in figures(Path(sys.argv[1]).resolve() if len(sys.argv) > 1 else PACKAGE):
        print(f"{what:40}{figure}")
