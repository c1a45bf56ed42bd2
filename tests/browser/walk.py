"""A walk on the page that derives: a Chromium with the network off, and what a person does there."""

from __future__ import annotations

from pathlib import Path
from typing import Any, NamedTuple

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


# Of what passed, only which rules did is asked for: to describe every node of it takes axe several times as long.
LOOK = """(rules) => axe.run(document, { ...rules, resultTypes: ["violations"] }).then((seen) => ({
    found: seen.violations.flatMap((item) => item.nodes.map((node) =>
        [item.id, node.html.slice(0, 120), (node.failureSummary || "").slice(0, 200)])),
    passed: seen.passes.map((item) => item.id),
}))"""


class AxeLook(NamedTuple):
    """found: rule, what breaks it and how. passed: the rules that something on the page was held against."""

    found: list[list[str]]
    passed: set[str]


def axe_look(frame: Any, axe: str, **rules: Any) -> AxeLook:
    """One look of axe-core at a page or a frame. rules: axe's own options."""
    frame.evaluate(axe)
    seen = frame.evaluate(LOOK, rules)
    return AxeLook(seen["found"], set(seen["passed"]))


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
    tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
    looked = page.frames if frames else page.frames[:1]
    return [one for frame in looked for one in axe_look(frame, axe, runOnly=tags, iframes=False).found]
