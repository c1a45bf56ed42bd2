"""Strangers' text in reviews and messages: recipes, maps and settings files may hold anything.

Outside check: markdown-it, a CommonMark parser, finds no link, picture or foreign element in the Markdown form, and
shows the stranger's words as they were written.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from markdown_it import MarkdownIt

from profilesmith.review.render import RENDERERS, Look, render
from profilesmith.review.render.markdown import escape
from profilesmith.review.wording import LONGEST, visible

Derived = Callable[..., Any]
Text = Callable[..., str]
Program = Callable[..., Any]
NASTY = (
    "<script>alert(1)</script> ![x](http://a.example/p) [link](http://a.example) *bold* `code` "
    "| cell \\ <b>&amp; ~~no~~ @all #1"
)
CONTROL = "\x1b[31mred\x1b[0m \x07 \u202eback \x9b31m \u2028 line \x7f"


def hostile_recipe(name: str, more: str = "") -> str:
    """A recipe in which every text that is shown is hostile."""
    import json

    text = json.dumps(f"{name} {NASTY} {CONTROL}", ensure_ascii=True)
    return (
        f'format = 1\n[recipe]\nname = {text}\nversion = "1.0.0"\ntitle = {text}\nfrom = {text}\n'
        f"authors = [{text}]\ncautions = [{text}]\nlicence = {text}\n"
        f'[inputs.x]\nkind = "speed"\nask = {text}\ndefault = "40 mm/s"\n'
        f'[inputs.y]\nkind = "speed"\nask = {text}\n'
        f'[[rule]]\nsetting = "outer_wall.speed"\ncap = {{ input = "x" }}\nwhy = {text}\nsource = {text}\n'
        f'[[rule]]\nsetting = "infill.speed"\ncap = {{ input = "y" }}\nwhy = {text}\n'
        f'[[rule]]\nsetting = "infill.pattern"\nset = "gyroid"\nwhy = {text}\n'
        f'[[rule]]\nsetting = "raft.on"\nset = "on"\nwhy = {text}\nsource = {text}\n{more}'
    )


BASE = (
    f"rim = 80\ncore = 60\n{NASTY.replace('=', '')} = {NASTY}\nesc\x1b[2J = \x1b[31m\n"
    f"weave = {NASTY}\x1b[1m\nno sign \x1b[5m\n"
)
ONCE = '[[rule]]\nsetting = "travel.speed"\nscale = "50 %"\n'
BINDINGS = (
    '[keymap]\nname = "m \\u001b[31m <b>"\n'
    '[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n[[binding]]\n'
    'setting = "infill.speed"\nkey = "core"\n[[binding]]\nsetting = "infill.pattern"\n'
    'key = "weave"\n'
)


@pytest.fixture
def made(derived: Derived) -> Any:
    return derived(BASE, BINDINGS, hostile_recipe("evil", ONCE))


def harmful(text: str) -> list[str]:
    return [char for char in text if char != "\n" and unicodedata.category(char) in ("Cc", "Cf", "Cs", "Zl", "Zp")]


@pytest.mark.parametrize("form", list(RENDERERS))
def test_no_form_lets_a_control_character_through(form: str, made: Any) -> None:
    assert harmful(render(made.review, form, Look(full=True))) == []


@pytest.mark.parametrize("form", list(RENDERERS))
def test_nor_in_conflicts(form: str, derived: Derived) -> None:
    more = '[[rule]]\nsetting = "outer_wall.speed"\nraise_to = "50 mm/s"\n'
    made = derived(BASE, BINDINGS, hostile_recipe("evil", more))
    assert [problem.code for problem in made.problems] == ["conflict"]
    assert harmful(render(made.review, form, Look(full=True))) == []


def test_nor_the_program_itself(program: Program, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("base.cfg").write_text(BASE)
    Path("map.toml").write_text(f"format = 1\n{BINDINGS}")
    Path("recipe.toml").write_text(
        hostile_recipe("evil", '[[rule]]\nsetting = "outer_wall.speed"\nraise_to = "50 mm/s"\n')
    )
    Path("wrong.toml").write_text(
        'format = 1\n[recipe]\nname = "x"\nversion = "\\u001b[31m"\n[[rule]]\n'
        'setting = "\\u001b[31m"\n"\\u001b[5m" = 1\n'
    )
    Path("odd\x1b[31m.cfg").write_text("x\n")
    with_recipe = ["base.cfg", "--keymap", "map.toml", "--recipe", "recipe.toml"]
    for words in (
        ["derive", *with_recipe],
        ["derive", *with_recipe, "--as", "json"],
        ["explain", "outer_wall.speed", *with_recipe],
        ["explain", "infill.pattern", *with_recipe],
        ["keymap", "check", "map.toml", "base.cfg"],
        ["keymap", "check", "map.toml", "base.cfg", "--as", "json"],
        ["recipe", "show", "recipe.toml"],
        ["recipe", "check", "recipe.toml"],
        ["recipe", "check", "wrong.toml"],
        ["derive", "base.cfg", "--keymap", "map.toml", "--recipe", "wrong.toml"],
        ["derive", "odd\x1b[31m.cfg", "--keymap", "map.toml"],
        ["vocabulary", "\x1b[31m"],
        ["derive", "base.cfg", "--keymap", "\x1b[31m"],
        ["compare", "base.cfg", "base.cfg", "--keymap", "map.toml", "--full"],
        ["derive", *with_recipe, "--answer", "\x1b[31m=1"],
    ):
        ran = program(*words)
        assert harmful(ran.out + ran.err) == [], words


class Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)


def test_markdown_holds_no_foreign_markup(made: Any) -> None:
    tokens = MarkdownIt("commonmark").enable("table").parse(render(made.review, "markdown", Look(full=True)))
    flat = [child for token in tokens for child in (token.children or [token])]
    assert [
        token.type
        for token in flat
        if token.type in ("image", "link_open", "fence", "code_block", "code_inline", "s_open")
    ] == []
    parser = Tags()
    for token in flat:
        if token.type in ("html_inline", "html_block"):
            parser.feed(token.content)
    assert set(parser.tags) <= {"code", "details", "summary", "br", "sub"}


def test_markdown_tables_keep_their_columns(made: Any) -> None:
    tokens = MarkdownIt("commonmark").enable("table").parse(render(made.review, "markdown", Look(full=True)))
    rows: list[int] = []
    for token in tokens:
        if token.type == "tr_open":
            rows.append(0)
        elif token.type in ("td_open", "th_open"):
            rows[-1] += 1
    assert rows
    assert set(rows) == {rows[0]}


@pytest.mark.parametrize(
    "text", [NASTY, "a_b_c", "2 * 3 * 4", "1 < 2 & 3 > 2", "~/x", "a\\b", "x`y`z", "#5 !", "[ ]", "$x$", "a|b"]
)
def test_escaped_text_is_shown_as_it_was_written(text: str) -> None:
    import html

    shown = MarkdownIt("commonmark").enable(["table", "strikethrough"]).renderInline(escape(text))
    assert html.unescape(shown) == text


@pytest.mark.parametrize("text", ["- item", "+ item", "1. item", "    indented", "-----"])
def test_a_reason_that_begins_like_a_block(text: str) -> None:
    assert [token.type for token in MarkdownIt("commonmark").parse(escape(text))] == [
        "paragraph_open",
        "inline",
        "paragraph_close",
    ]


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("plain", "plain"),
        ("\x1b[31m", "\\u001b[31m"),
        ("a\tb\nc\r", "a\\u0009b\\u000ac\\u000d"),
        ("\u202e", "\\u202e"),
        ("\u2028", "\\u2028"),
        ("\udcff", "\\udcff"),
        ("grün 高", "grün 高"),
        ("\x9b", "\\u009b"),
        ("\u200b", "\\u200b"),
        ("", ""),
    ],
)
def test_control_characters_are_shown(text: str, shown: str) -> None:
    assert visible(text) == shown


def test_a_very_long_text_is_cut() -> None:
    assert visible("x" * 1_000_000) == "x" * LONGEST + "…"
    assert len(visible("\x1b" * 1_000_000)) <= LONGEST + 1
