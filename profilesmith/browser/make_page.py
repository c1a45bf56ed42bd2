"""The one file: page, style, script, words, a library and the packed parts, under a policy that lets nothing leave."""

from __future__ import annotations

import gzip
import json
import re
import tomllib
from base64 import b64encode
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from profilesmith import __version__
from profilesmith.browser.parts import PageParts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.review.render.html.frame import asset, digest

HERE = Path(__file__).resolve().parent / "page"
SCRIPTS = ("parts.js", "engine.js", "fields.js", "texts.js", "wanted.js", "result.js", "after.js", "page.js")
# The review and the checklist are shown in a frame that inherits this page's policy: their styles stand in it.
FRAMED = (("base.css", "page.css"), ("base.css", "checklist.css"), ("base.css", "whole_sheet.css"))
EXPORTS = re.compile(r"export\s*\{\s*(\w+) as loadPyodide.*?\};?\s*(//# sourceMappingURL=.*)?\s*$", re.DOTALL)


# The loader takes a worker that can import scripts for one that it does not know; this one imports nothing.
FIRST = "self.importScripts = undefined;"


class PageShelf(NamedTuple):
    """What of a library goes into the page: each a word, the name for messages, and the text. example: name and
    text.
    """

    name: str
    recipes: tuple[Mapping[str, str], ...]
    maps: tuple[Mapping[str, str], ...]
    facts: tuple[Mapping[str, str], ...]
    troubles: tuple[Mapping[str, str], ...] = ()
    example: Mapping[str, str] | None = None


def make_page(parts: PageParts, shelf: PageShelf) -> str:
    """The file's text."""
    style = asset("base.css") + _own("page.css")
    code = "\n".join(_own(name) for name in SCRIPTS)
    packed = {
        "script": _packed(_worker_script(parts).encode()),
        "archive": _packed(parts.archive),
        "engine": _packed(parts.engine),
    }
    about = {
        "version": __version__,
        "library": shelf.name,
        "megabytes": round(sum(map(len, packed.values())) / 1e6, 1),
        "notices": _own("notices.txt"),
    }
    values = {
        "policy": policy(style, code),
        "style": style,
        "code": code,
        "words": _json(tomllib.loads(_own("words.toml"))),
        "library": _json({**shelf._asdict(), "name": shelf.name}),
        "about": _json(about),
        "lock": _json(json.loads(parts.lock)),
        **packed,
    }
    return re.sub(r"@(\w+)@", lambda match: values[match.group(1)], _own("page.html"))


def policy(style: str, code: str) -> str:
    """Nothing from anywhere: this style and script by their hashes, the engine, and a worker made by the page
    itself.
    """
    styles = " ".join(f"'sha256-{digest(text)}'" for text in (style, *("".join(map(asset, names)) for names in FRAMED)))
    return (
        f"default-src 'none'; style-src {styles}; script-src 'sha256-{digest(code)}' 'wasm-unsafe-eval'; "
        "worker-src blob:; base-uri 'none'; form-action 'none'"
    )


def _worker_script(parts: PageParts) -> str:
    """One classic script: the engine's own, its loader and ours. Chromium starts no module worker for a page on a
    disk.
    """
    script = parts.script.decode().replace("export default _createPyodideModule;", "")
    script = script.replace("import.meta.url", "self.location.href")
    loader, count = EXPORTS.subn(r"return { loadPyodide: \1 };", parts.loader.decode())
    assert count == 1, "the loader has another form than the pinned one"
    head = "const createPyodideModule = _createPyodideModule;"
    return f"{FIRST}\n{script}\n{head}\nconst {{ loadPyodide }} = (() => {{\n{loader}\n}})();\n{_own('worker.js')}"


def _packed(raw: bytes) -> str:
    return b64encode(gzip.compress(raw, 9, mtime=0)).decode()


def _json(value: Any) -> str:
    """JSON that cannot end the element that it stands in."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")


def _own(name: str) -> str:
    return (HERE / name).read_text(encoding="utf-8")
