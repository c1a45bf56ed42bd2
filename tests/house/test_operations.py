"""An operation says all of itself in the table of ``recipe/operations``: no other file knows one by its name."""

from __future__ import annotations

import ast
import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from profilesmith.foundation.quantity import CANONICAL
from profilesmith.recipe.operations import BY_NAME, OPERATIONS, RATIO
from profilesmith.recipe.operations.operation import EVERY_KIND
from tests.house.test_house import PACKAGE, tree

TABLE = PACKAGE / "recipe" / "operations"
FILES = sorted(path for path in PACKAGE.rglob("*.py") if TABLE not in path.parents)
SHARED = {"window": "kind"}
"""A fact, an input and a figure may be a window too: the word may stand where a ``kind`` is asked or given."""


def _of_a_kind(module: ast.Module) -> set[int]:
    """The constants that are kinds: compared with ``.kind``, given as ``kind=``, or a key's value in ``{"kind":
    ...}``.
    """
    places: list[ast.expr] = []
    for node in ast.walk(module):
        if isinstance(node, ast.Compare) and any(ast.unparse(part).endswith("kind") for part in [node.left]):
            places += node.comparators
        elif isinstance(node, ast.keyword) and node.arg == "kind":
            places.append(node.value)
        elif isinstance(node, ast.Call) and ast.unparse(node.func) == "fact_names":
            places += node.args
    return {id(inner) for place in places for inner in ast.walk(place)}


def _named(path: Path) -> Iterator[str]:
    module = tree(path)
    kinds = _of_a_kind(module)
    for node in ast.walk(module):
        if (
            isinstance(node, ast.Constant)
            and node.value in BY_NAME
            and not (node.value in SHARED and id(node) in kinds)
        ):
            yield f"{path.relative_to(PACKAGE)}:{node.lineno} names {node.value!r}"


# Words of other things: kinds of facts by their forms, kinds of figures by their painters, and what an input may be.
OTHER_WINDOWS = {
    "checks/figures.py",
    "checks/facts_agree.py",
    "recipe/load_recipe.py",
    "review/render/figures/figure.py",
    "review/render/figures/table.py",
    "review/render/page.py",
    "reports/vocabulary.py",
}


def test_nobody_else_knows_an_operation_by_its_name() -> None:
    naming = [
        line
        for path in FILES
        for line in _named(path)
        if not (str(path.relative_to(PACKAGE)) in OTHER_WINDOWS and line.endswith("'window'"))
    ]
    assert naming == []


def test_the_template_of_the_schema_names_none() -> None:
    """Else a new operation would be refused by every editor until somebody thinks of the template."""
    template = json.loads((PACKAGE / "knowledge" / "recipe.schema.json").read_text(encoding="utf-8"))
    assert template["$defs"]["rule"]["properties"].keys().isdisjoint(BY_NAME)


@pytest.mark.parametrize("operation", OPERATIONS, ids=lambda operation: operation.name)
def test_an_entry_is_whole(operation) -> None:
    assert operation.meaning.endswith(".")
    assert operation.phrase.count("{}") == operation.by_hand[0].count("{}") == 1
    assert operation.noun.startswith(("a ", "an "))
    assert operation.kinds <= EVERY_KIND
    assert set(operation.beside) <= BY_NAME.keys() - {operation.name}
    assert operation.asks, "its demand asks for nothing"
    assert BY_NAME[operation.instead].takes("temperature") or operation.takes("temperature")


def test_no_share_of_a_temperature() -> None:
    """10 % of 20 °C is no temperature: the zero of that scale is a convention. This holds for what is added, too."""
    shares = [operation for operation in OPERATIONS if operation.reads == RATIO]
    assert shares
    assert not any(operation.takes("temperature") for operation in shares)
    assert not shares[0]._replace(kinds=frozenset(CANONICAL)).takes("temperature")
