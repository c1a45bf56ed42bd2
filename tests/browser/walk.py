"""A walk on the page that derives: a Chromium with the network off, and what a person does there."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

READY = 120_000  # ms: a loaded machine is no fault


class Walk:
    """A page with all that it asked for, said and stored."""

    def __init__(self, page: Any, path: Path) -> None:
        self.page, self.asked, self.said = page, [], []
        page.set_default_timeout(READY)
        page.on("request", lambda request: self.asked.append(request.url))
        page.on("console", lambda message: self.said.append(message.text))
        page.on("pageerror", lambda error: self.said.append(str(error)))
        page.goto(path.as_uri())
        page.wait_for_selector("html[data-ready='1']", timeout=READY)

    def text(self, path: Path) -> None:
        self.page.set_input_files("#text-file", str(path))
        self.page.wait_for_selector("input[name=map]:checked", timeout=READY)
        self.settled()

    def want(self, *recipes: str) -> None:
        for word in recipes:
            self.page.check(f"#recipe-{word}")
            self.settled()

    def settled(self) -> None:
        """Until nothing is asked of the engine any more."""
        idle = 0
        for _ in range(READY // 50):
            self.page.wait_for_timeout(50)
            idle = idle + 1 if self.page.evaluate("engine.waiting.size === 0") else 0
            if idle == 3:
                return
        raise AssertionError("the engine does not come to rest")

    def saved(self, name: str) -> bytes:
        with self.page.expect_download() as waiting:
            self.page.get_by_role("button", name=f"Save: {name}", exact=True).click()
        return Path(waiting.value.path()).read_bytes()


def axe_finds(page: Any, axe: str, frames: bool = True) -> list[Any]:
    """What axe-core finds in the page and in the frames of its reviews."""
    for node in page.query_selector_all("iframe") if frames else ():  # no script runs in it; for this look it is opened
        node.evaluate(
            """(node) => new Promise((done) => {
                node.addEventListener("load", done, { once: true });
                node.setAttribute("sandbox", "allow-same-origin allow-scripts");
                node.srcdoc += " ";
            })"""
        )
    looked = page.frames if frames else page.frames[:1]
    for frame in looked:
        frame.evaluate(axe)
    tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
    found: list[Mapping[str, Any]] = []
    for frame in looked:
        found += frame.evaluate("(tags) => axe.run(document, {runOnly: tags, iframes: false})", tags)["violations"]
    return [(item["id"], [node["html"][:120] for node in item["nodes"]]) for item in found]
