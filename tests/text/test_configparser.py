"""Outside check: CPython's own configparser reads the same sections, keys and values, on every text that it can read.

The texts are our own, written after the section "Supported INI File Structure" of its documentation. One difference is
meant: an indented line that reads as ``key = value`` is a setting of its own here, and a part of the value above there.
"""

from __future__ import annotations

import configparser
import random

import pytest

from profilesmith.text.document import Habits
from profilesmith.text.read_document import read_document

TEXTS = {
    "simple values": "[ply]\nheight=0.2\nfirst height = 0.3\ntrim : 100\n",
    "keys and values of any kind": (
        "[all]\nkeys can hold blanks = yes\nand dots.too = 1\nand/slashes = 2\n"
        "value = with = signs\nurl: http://bench.example:80/x\n"
    ),
    "several sections": "[a]\nx = 1\n[b]\nx = 2\n[a.b]\nx = 3\n[ spaced ]\nx = 4\n",
    "comments": "# first\n; second\n[a]\n# third\nx = 1\n   ; fourth, indented\ny = 2\n",
    "blank values": "[a]\nx =\ny = \nz=\n",
    "values over several lines": "[a]\nstart = heat\n    wait\n      go\nend = x\n",
    "a value that begins on the next line": "[a]\nstart =\n  heat\n  wait\nend = x\n",
    "blank lines between": "[a]\n\n\nx = 1\n\ny = 2\n\n",
    "quotes are part of a value": "[a]\nx = \"1\"\ny = 'two words'\n",
    "tabs": "[a]\n\tx\t=\t1\t\n\ty = 2\n",
    "signs in values": "[a]\nx = 50%\ny = 210/60\nz = 1;2;3\nhue = a#b\n",
    "an empty section": "[a]\n[b]\nx = 1\n",
    "letters of any script": "[größe]\nhöhe = 0,2\n高さ = 0.3\n",
    "carriage returns": "[a]\r\nx = 1\r\ny = 2\r\n",
    "a key twice": "[a]\nx = 1\nx = 2\n",
    "a section twice": "[a]\nx = 1\n[b]\ny = 1\n[a]\nz = 3\n",
}
Entries = dict[tuple[str, str], str]


def theirs(text: str, inline: tuple[str, ...] | None = None) -> Entries:
    parser = configparser.RawConfigParser(
        strict=False, inline_comment_prefixes=inline, empty_lines_in_values=False, default_section="\0"
    )
    parser.optionxform = str  # type: ignore[assignment,method-assign]
    parser.read_string(text)
    # Blanks inside the brackets are part of a section's name there and not here.
    return {(section.strip(), key): value for section in parser.sections() for key, value in parser.items(section)}


def ours(text: str, habits: Habits) -> Entries:
    document = read_document(text.encode(), "f", habits)
    assert not document.unread
    lines = {(item.section, item.key): document.value(item).splitlines() or [""] for item in document.assignments}
    return {name: "\n".join(line.strip() for line in value) for name, value in lines.items()}


@pytest.mark.parametrize("name", TEXTS)
def test_the_same_entries(name: str) -> None:
    text = TEXTS[name]
    assert ours(text, Habits(comments=("#", ";"), inline=False)) == theirs(text)


@pytest.mark.parametrize(
    "text", ["[a]\nx = 1 ; one\ny = two words # two\nz = 3;4 #5\nw = a;b\n", "[a]\nx = ; nothing\ny = 1\n"]
)
def test_the_same_entries_with_comments_behind_values(text: str) -> None:
    assert ours(text, Habits(comments=("#", ";"), inline=True)) == theirs(text, ("#", ";"))


def test_a_difference_that_is_meant() -> None:
    text = "[a]\nx = 1\n  y = 2\n"
    assert theirs(text) == {("a", "x"): "1\ny = 2"}
    assert ours(text, Habits()) == {("a", "x"): "1", ("a", "y"): "2"}


def test_the_same_entries_of_random_texts() -> None:
    chance = random.Random(11)
    keys = ["x", "ply.height", "two words", "höhe", "k[0]", "K", "a-b"]
    values = ["1", "0.2", "two words", "210/60", '"q"', "", "50%", "a = b", "-"]
    for _ in range(400):
        lines = ["[first]"]
        for _ in range(chance.randrange(1, 12)):
            kind = chance.randrange(6)
            if kind == 0:
                lines.append(f"[{chance.choice(['a', 'b c', 'd.e'])}]")
            elif kind == 1:
                lines.append(chance.choice(["# x = 1", "; y", ""]))
            else:
                lines.append(f"{chance.choice(keys)}{chance.choice(['=', ' = ', '= '])}{chance.choice(values)}")
        text = "\n".join(lines) + chance.choice(["", "\n"])
        assert ours(text, Habits(comments=("#", ";"), inline=False, delimiter="=")) == theirs(text), text
