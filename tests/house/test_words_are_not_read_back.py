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
SAID = {"message", "hint", "note"}  # what a mistake or a reason says to people
PROSE = re.compile(r"[A-Za-z]{2,}[,:]? |[a-z] '|^ ?\([a-z]+\)?$| to$|--[a-z]")
WORD = re.compile(r"[A-Za-z]{3,}[,:;.]?")  # of a sentence, which "replace" would make another one of
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


def of_what_is_said(path: Path) -> Iterator[int]:
    """The lines that look into what a mistake says, or take a word of a sentence out of it."""
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            of, how = node.func.value, node.func.attr
            said = isinstance(of, ast.Attribute) and of.attr in SAID
            word = node.args[0].value if node.args and isinstance(node.args[0], ast.Constant) else ""
            if (said and how in {*LOOKING, "count", "find", "index", "replace"}) or (
                how == "replace" and isinstance(word, str) and WORD.fullmatch(word)
            ):
                yield node.lineno
        elif isinstance(node, ast.Compare) and isinstance(node.ops[0], ast.In | ast.NotIn):
            asked = node.comparators[0]
            if isinstance(node.left, ast.Constant) and isinstance(asked, ast.Attribute) and asked.attr in SAID:
                yield node.lineno


def test_no_mistake_is_asked_by_its_words() -> None:
    """It has a code, a place, a key and a setting for that. A hardness is what people write: "92 Shore A"."""
    asked = [f"{path.relative_to(PACKAGE)}:{line}" for path in FILES for line in of_what_is_said(path)]
    assert [item for item in asked if not item.startswith("facts/facts.py:")] == []


def test_it_sees_who_asks_a_mistake_by_its_words(tmp_path: Path) -> None:
    file = tmp_path / "slip.py"
    file.write_text(
        'a = problem.message.split("\'")[1]\nb = "key" in item.note\nc = words.replace("profile:", "text:")\n'
        'd = item.message.rstrip(".")\ne = text.replace("_", " ")\n'
    )
    assert sorted(of_what_is_said(file)) == [1, 2, 3]


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
