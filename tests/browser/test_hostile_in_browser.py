"""A stranger's recipe, map, facts and text, all hostile and all accepted, through every form; the pages in a real
browser.

Outside check: the browser itself finds no script that ran, no request that left, no element that the text brought
along.
"""

from __future__ import annotations

import json
import unicodedata
from collections.abc import Callable
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from markdown_it import MarkdownIt

Program = Callable[..., Any]
MARKUP = (
    "<script>window.pwned=1;alert(1)</script><img src=https://example.invalid/x "
    "onerror=window.pwned=2><!-- --><iframe src=//example.invalid></iframe>"
    "</style></title></textarea>[a](javascript:window.pwned=3)![b](https://example.invalid/y) "
    "| `c` | **d** <svg onload=window.pwned=4> {{7*7}} {% raw %}"
)
CONTROL = "\x1b]0;title\x07\x1b[2J\x9b31m\u202egnp\u2066\u200b\u2028\x00"
FOREIGN = (
    "img, iframe, svg[onload], object, embed, base, link, form, a[href^='javascript'], "
    "a[href*='invalid'], [onerror], [onload], [onclick], meta[http-equiv='refresh']"
)


def text(word: str) -> str:
    """A TOML text that holds everything that might do harm."""
    return json.dumps(f"{word} {MARKUP} {CONTROL}", ensure_ascii=True)


def lay_out(folder: Path) -> None:
    recipe = (
        f'format = 1\n[recipe]\nname = {text("name")}\nversion = "1.0.0"\ntitle = {text("title")}\n'
        f"from = {text('from')}\nto = {text('to')}\nauthors = [{text('author')}]\n"
        f'cautions = [{text("caution")}]\nlicence = {text("licence")}\n[inputs.x]\nkind = "speed"\n'
        f'ask = {text("ask")}\ndefault = "40 mm/s"\n[inputs.y]\nkind = "speed"\n'
        f"ask = {text('ask')}\n"
        f'[[rule]]\nsetting = "outer_wall.speed"\ncap = {{ input = "x" }}\nwhy = {text("why")}\n'
        f"source = {text('source')}\n"
        f'[[rule]]\nsetting = "infill.speed"\ncap = {{ input = "y" }}\nwhy = {text("why")}\n'
        f'[[rule]]\nsetting = "raft.on"\nset = "on"\nwhy = {text("why")}\n'
        f"source = {text('source')}\n"
    )
    (folder / "recipe.toml").write_text(recipe, encoding="utf-8")
    (folder / "map.toml").write_text(
        f"format = 1\n[keymap]\nname = {text('map')}\nabout = {text('about')}\n[[binding]]\n"
        'setting = "outer_wall.speed"\nkey = "rim<b>"\n'
        '[[binding]]\nsetting = "infill.speed"\nkey = "core"\n[[binding]]\nsetting = "infill.pattern"\nkey = "weave"\n',
        encoding="utf-8",
    )
    (folder / "facts.toml").write_text(
        f"format = 1\n[spool]\nname = {text('spool')}\nmaterial = {text('material')}\n", encoding="utf-8"
    )
    base = (
        f"rim<b> = 80\ncore = 60\nweave = {MARKUP}{CONTROL}\n"
        f"{MARKUP.replace('=', '')}{CONTROL} = {MARKUP}{CONTROL}\n"
        f"no sign {MARKUP.replace('=', '')}{CONTROL}\n"
    )
    (folder / "base.cfg").write_bytes(base.encode())


@pytest.fixture
def call(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    monkeypatch.chdir(tmp_path)
    lay_out(tmp_path)
    return ["derive", "base.cfg", "--keymap", "map.toml", "--recipe", "recipe.toml", "--facts", "facts.toml", "--full"]


def obeyed(shown: str) -> list[str]:
    """The characters that a terminal or an editor would obey."""
    return [char for char in shown if char != "\n" and unicodedata.category(char) in ("Cc", "Cf", "Cs", "Zl", "Zp")]


class Elements(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.add(tag)


@pytest.mark.parametrize("form", ["terminal", "markdown", "checklist", "json", "page", "checklist-page"])
def test_nothing_is_obeyed_in_any_form(form: str, call: list[str], program: Program) -> None:
    ran = program(*call, "--as", form)
    assert ran.code in (0, 1), ran.err
    assert obeyed(ran.out + ran.err) == []
    assert "u001b" in ran.out, "it is shown"


def test_markdown_is_text_alone(call: list[str], program: Program) -> None:
    tokens = MarkdownIt("commonmark").enable("table").parse(program(*call, "--as", "markdown").out)
    flat = [child for token in tokens for child in (token.children or [token])]
    assert [token.type for token in flat if token.type in ("image", "link_open", "fence", "code_block")] == []
    elements = Elements()
    for token in flat:
        if token.type in ("html_inline", "html_block"):
            elements.feed(token.content)
    assert elements.found <= {"code", "details", "summary", "br", "sub"}


@pytest.mark.parametrize("form", ["page", "checklist-page"])
@pytest.mark.parametrize("script", [True, False], ids=["with script", "without script"])
def test_a_page_is_inert(form: str, script: bool, call: list[str], program: Program, opened: Any) -> None:
    seen = opened(program(*call, "--as", form).out, script=script)
    seen.page.wait_for_timeout(50)
    if script:
        seen.open_all()
        assert seen.page.evaluate("window.pwned") is None
    assert seen.dialogs == []
    assert seen.said == []
    assert len(seen.asked) == 1, "the file itself and nothing else"
    assert seen.page.locator(FOREIGN).count() == 0
    assert seen.page.locator("script").count() <= 1
    words = seen.page.locator("body").text_content()
    assert "<script>window.pwned=1" in words, "markup is shown as text"
    assert "\\u001b" in words
    assert "\\u202e" in words


def test_so_is_the_checklist_of_a_recipe(call: list[str], program: Program, opened: Any) -> None:
    ran = program("recipe", "show", "recipe.toml", "--as", "checklist-page")
    assert ran.code == 0
    seen = opened(ran.out)
    assert seen.page.evaluate("window.pwned") is None
    assert (seen.dialogs, seen.said, len(seen.asked)) == ([], [], 1)
    assert seen.page.locator(FOREIGN).count() == 0


def test_so_is_a_ledger_that_somebody_sent(call: list[str], program: Program, opened: Any) -> None:
    assert program(*call, "-o", "out.cfg", "--quiet").code in (0, 1)
    path = Path("out.cfg.ledger.json")
    data = json.loads(path.read_text(encoding="utf-8"))
    nasty = f"{MARKUP}{CONTROL}"
    finding = {
        "check": "x",
        "verdict": "stop",
        "title": nasty,
        "text": nasty,
        "before": nasty,
        "after": nasty,
        "limit": nasty,
        "headroom": nasty,
        "source": nasty,
        "ask": nasty,
        "settings": [nasty],
    }
    figure = {
        "id": nasty,
        "title": nasty,
        "kind": "bars",
        "unit": nasty,
        "series": [{"name": nasty, "points": [[nasty, 1]]}],
        "limits": [{"name": nasty, "value": 1}],
        "marks": [],
        "note": nasty,
    }
    path.write_text(
        json.dumps({**data, "findings": [finding], "figures": [figure], "literals": [nasty], "written_by": nasty}),
        encoding="utf-8",
    )
    for form in ("terminal", "markdown", "checklist"):
        assert obeyed(program("review", "out.cfg", "--as", form, "--full").out) == []
    seen = opened(program("review", "out.cfg", "--as", "page").out)
    seen.open_all()
    assert seen.page.evaluate("window.pwned") is None
    assert (seen.dialogs, seen.said, len(seen.asked)) == ([], [], 1)
    assert seen.page.locator(FOREIGN).count() == 0
