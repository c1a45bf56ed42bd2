"""Meaning is kept as data: no file takes a sentence of ours apart to find out what was meant.

What a program can see of that: a method that looks into a text is given words that only a person would read.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from tests.house.test_house import FILES, PACKAGE, tree

LOOKING = {"startswith", "endswith", "removeprefix", "removesuffix", "partition", "rpartition", "split", "rsplit"}
PROSE = re.compile(r"[A-Za-z]{2,}[,:]? |[a-z] '|^ ?\([a-z]+\)?$| to$|--[a-z]")
# Texts of other people, files that people write, and ledgers that older versions wrote in words.
OTHERS = {
    "library/schemas/map_schema.py": {"choice "},
    "library/schemas/recipe_schema.py": {"count ", "choice "},
    "suggest/update_map.py": {"# gone: "},
    "foundation/toml_mistakes.py": {" (at "},  # the TOML reader's own message
    "workflows/coupon/plan.py": {" to "},
    "ledger/format_1.py": {" (", " (answer)"},
}

OF_THE_TERMINAL = (
    "review/render/command.py",
    "review/render/answer_option.py:",
    "review/render/terminal_page.py:",
    "review/render/brief.py:",
)


def looks(path: Path) -> Iterator[tuple[int, str]]:
    """Every text that a looking method is given: a constant, in the call or under a name of the same file."""
    module = tree(path)
    named = {
        target.id: node.value.value
        for node in ast.walk(module)
        if isinstance(node, ast.Assign) and isinstance(node.value, ast.Constant)
        for target in node.targets
        if isinstance(target, ast.Name)
    }
    for node in ast.walk(module):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in LOOKING:
            for inner in (part for argument in node.args for part in ast.walk(argument)):
                text = inner.value if isinstance(inner, ast.Constant) else named.get(getattr(inner, "id", ""))
                if isinstance(text, str):
                    yield node.lineno, text


def test_no_sentence_is_taken_apart() -> None:
    taken = []
    for path in FILES:
        name = str(path.relative_to(PACKAGE))
        for line, text in looks(path):
            if PROSE.search(text) and text not in OTHERS.get(name, set()):
                taken.append(f"{name}:{line} looks for {text!r}")
    assert taken == []


def test_it_sees_what_it_is_to_see(tmp_path: Path) -> None:
    file = tmp_path / "slip.py"
    file.write_text('OLD = " (default)"\nx = a.startswith("the key ") or a.removesuffix(OLD) or a.partition(": ")\n')
    assert [text for _, text in looks(file) if PROSE.search(text)] == ["the key ", " (default)"]


def test_how_the_command_line_is_answered_only_the_terminal_says() -> None:
    """Rows, questions and reviews are for every door."""
    rooms = ("recipe", "translation", "ledger", "checks", "merge", "review")
    found = [
        f"{path.relative_to(PACKAGE)}:{node.lineno}"
        for path in FILES
        if path.relative_to(PACKAGE).parts[0] in rooms
        for node in ast.walk(tree(path))
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and re.search(r"--[a-z]{4}", node.value)
    ]
    assert [item for item in found if not item.startswith(OF_THE_TERMINAL)] == []
