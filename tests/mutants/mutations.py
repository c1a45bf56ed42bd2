"""Small wrong changes to a source text, each at one place: what a careless edit would do to a program."""

import ast
from collections.abc import Callable, Iterator
from itertools import islice
from typing import NamedTuple

_COMPARED: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.Gt),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.Lt),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
}
_COUNTED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.BitOr: ast.BitAnd,
    ast.BitAnd: ast.BitOr,
}
_SAYS_NOTHING = (ast.Assert, ast.JoinedStr, ast.Import, ast.ImportFrom)
_CALLED = {"min": "max", "max": "min", "any": "all", "all": "any"}


class Mutation(NamedTuple):
    """line: where; what: the change in words; number: which of the file's it is.

    function: the outermost function or method whose body it changes, by its qualified name; "" outside of all.
    """

    line: int
    what: str
    number: int
    function: str = ""


def mutations(source: str) -> list[Mutation]:
    """All of them, in a fixed order. Docstrings, annotations, words and what is only for types stay."""
    tree = ast.parse(source)
    inside = {id(node): name for name, body in _bodies(tree.body) for part in body for node in ast.walk(part)}
    # A statement left out belongs to the block that it stands in.
    inside |= {id(node): name for name, node in _functions(tree.body)}
    return [
        Mutation(node.lineno, what, number, inside.get(id(node), ""))  # type: ignore[attr-defined]
        for number, (node, what) in enumerate(_one_by_one(tree))
    ]


def mutated(source: str, number: int) -> ast.Module:
    """The text as a tree, with one of its mutations in it. The lines are those of the text."""
    tree = ast.parse(source)
    next(islice(_one_by_one(tree), number, None))
    return ast.fix_missing_locations(tree)


def _one_by_one(tree: ast.Module) -> Iterator[tuple[ast.AST, str]]:
    """What is changed, and how: the tree holds the change while the caller looks at it."""
    left_alone = _left_alone(tree)
    for node in list(ast.walk(tree)):
        if id(node) in left_alone or not hasattr(node, "lineno"):
            continue
        for what, undo in _changes(node):
            yield node, what
            undo()


def _functions(block: list[ast.stmt], of: str = "") -> Iterator[tuple[str, ast.FunctionDef]]:
    for statement in block:
        if isinstance(statement, ast.FunctionDef):
            yield of + statement.name, statement
        elif isinstance(statement, ast.ClassDef):
            yield from _functions(statement.body, f"{of}{statement.name}.")


def _bodies(block: list[ast.stmt]) -> Iterator[tuple[str, list[ast.stmt]]]:
    for name, function in _functions(block):
        yield name, function.body


def _left_alone(tree: ast.Module) -> set[int]:
    """Nodes whose change would say nothing of what the program does."""
    quiet: list[ast.AST] = []
    for node in ast.walk(tree):
        if isinstance(node, ast.AnnAssign | ast.arg) and node.annotation:
            quiet.append(node.annotation)
        elif isinstance(node, ast.FunctionDef):
            quiet += [node.returns] if node.returns else []
            quiet += node.decorator_list
        elif isinstance(node, _SAYS_NOTHING) or _is_for_types(node) or _is_strict(node):
            quiet.append(node)
    return {id(inner) for node in quiet for inner in ast.walk(node)}


def _is_strict(node: ast.AST) -> bool:
    """Of ``zip``: an assertion, too."""
    return isinstance(node, ast.keyword) and node.arg == "strict"


def _is_for_types(node: ast.AST) -> bool:
    if isinstance(node, ast.If):
        return ast.unparse(node.test) == "TYPE_CHECKING"
    return isinstance(node, ast.Assign) and isinstance(node.value, ast.BinOp | ast.Subscript) and _is_alias(node)


def _is_alias(node: ast.Assign) -> bool:
    """``Value = Fraction | bool | str`` and ``Json = dict[str, Any]``: names of types."""
    parts = [part.id for part in ast.walk(node.value) if isinstance(part, ast.Name)]
    return bool(parts) and all(
        part[:1].isupper() or part in ("dict", "list", "tuple", "str", "bool", "int") for part in parts
    )


def _changes(node: ast.AST) -> Iterator[tuple[str, Callable[[], object]]]:
    """(what was changed, how to take it back): the tree is changed while the caller looks at it."""
    if isinstance(node, ast.Compare) and len(node.ops) == 1:
        yield from _compared(node)
    elif isinstance(node, ast.BoolOp):
        was = node.op
        node.op = ast.Or() if isinstance(was, ast.And) else ast.And()
        yield f"{_name(was)} -> {_name(node.op)}", lambda: setattr(node, "op", was)
    elif isinstance(node, ast.BinOp) and type(node.op) in _COUNTED:
        sign = node.op
        node.op = _COUNTED[type(sign)]()
        yield f"{_name(sign)} -> {_name(node.op)}", lambda: setattr(node, "op", sign)
    elif isinstance(node, ast.Constant):
        yield from _constant(node)
    elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in _CALLED:
        name = node.func
        old = name.id
        name.id = _CALLED[old]
        yield f"{old} -> {name.id}", lambda: setattr(name, "id", old)
    elif isinstance(node, ast.If | ast.IfExp | ast.While):
        test = node.test
        node.test = ast.UnaryOp(ast.Not(), test)
        yield f"if {ast.unparse(test)[:40]} -> if not", lambda: setattr(node, "test", test)
    elif isinstance(node, ast.Return) and node.value is not None and not isinstance(node.value, ast.Constant):
        value = node.value
        node.value = ast.Constant(None)
        yield f"return {ast.unparse(value)[:40]} -> return None", lambda: setattr(node, "value", value)
    yield from _left_out(node)


def _left_out(node: ast.AST) -> Iterator[tuple[str, Callable[[], object]]]:
    """A statement that does something, left out."""
    for name in ("body", "orelse"):
        block = getattr(node, name, None)
        if not isinstance(block, list):
            continue
        for at, statement in enumerate(list(block)):
            acts = isinstance(statement, ast.AugAssign | ast.Continue | ast.Break) or (
                isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Call | ast.Yield | ast.YieldFrom)
            )
            if acts:
                block[at] = ast.copy_location(ast.Pass(), statement)
                yield (
                    f"line {statement.lineno} left out: {ast.unparse(statement)[:40]}",
                    _put_back(block, at, statement),
                )


def _put_back(block: list[ast.stmt], at: int, statement: ast.stmt) -> Callable[[], object]:
    return lambda: block.__setitem__(at, statement)


def _compared(node: ast.Compare) -> Iterator[tuple[str, Callable[[], object]]]:
    was = node.ops[0]
    for other in _COMPARED.get(type(was), ()):
        node.ops[0] = other()
        yield f"{_name(was)} -> {other.__name__}", lambda: node.ops.__setitem__(0, was)


def _constant(node: ast.Constant) -> Iterator[tuple[str, Callable[[], object]]]:
    was = node.value
    others: list[object] = []
    if isinstance(was, bool):
        others = [not was]
    elif isinstance(was, int):
        others = [was + 1, was * 2] if was > 1 else [was + 1]
    elif isinstance(was, float):
        others = [was * 2]
    for other in others:
        node.value = other  # type: ignore[assignment]
        yield f"{was!r} -> {other!r}", lambda: setattr(node, "value", was)


def _name(operator: ast.AST) -> str:
    return type(operator).__name__
