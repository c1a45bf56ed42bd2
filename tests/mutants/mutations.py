"""Small wrong changes to a source text, each at one place: what a careless edit would do to a program."""

import ast
from collections.abc import Iterator
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
_CALLED = {"min": "max", "max": "min", "any": "all", "all": "any"}


class Mutation(NamedTuple):
    """line: where; what: the change in words; source: the whole text with it."""

    line: int
    what: str
    source: str


def mutations(source: str) -> Iterator[Mutation]:
    """All of them, in the order of the text. Docstrings, annotations, words and what is only for types stay."""
    tree = ast.parse(source)
    left_alone = _left_alone(tree)
    for node in list(ast.walk(tree)):
        if id(node) in left_alone or not hasattr(node, "lineno"):
            continue
        for what, undo in _changes(node):
            yield Mutation(node.lineno, what, ast.unparse(tree))
            undo()


def _left_alone(tree: ast.Module) -> set[int]:
    """Nodes whose change would say nothing of what the program does."""
    quiet: list[ast.AST] = []
    for node in ast.walk(tree):
        if isinstance(node, ast.AnnAssign | ast.arg) and node.annotation:
            quiet.append(node.annotation)
        elif isinstance(node, ast.FunctionDef):
            quiet += [node.returns] if node.returns else []
            quiet += node.decorator_list
        elif isinstance(node, ast.Assert | ast.JoinedStr | ast.Import | ast.ImportFrom) or _is_for_types(node):
            quiet.append(node)
    return {id(inner) for node in quiet for inner in ast.walk(node)}


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


def _changes(node: ast.AST) -> Iterator[tuple[str, object]]:
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


def _left_out(node: ast.AST) -> Iterator[tuple[str, object]]:
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


def _put_back(block: list[ast.stmt], at: int, statement: ast.stmt) -> object:
    return lambda: block.__setitem__(at, statement)


def _compared(node: ast.Compare) -> Iterator[tuple[str, object]]:
    was = node.ops[0]
    for other in _COMPARED.get(type(was), ()):
        node.ops[0] = other()
        yield f"{_name(was)} -> {other.__name__}", lambda: node.ops.__setitem__(0, was)


def _constant(node: ast.Constant) -> Iterator[tuple[str, object]]:
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
