"""Pages of one browser, lent to one test after the other.

A new page is a new process of the browser, which takes longer than most of what a test does on it.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from tests.browser.walk import READY

NO_MEDIA = {"media": "null", "forced_colors": "null", "reduced_motion": "null"}  # as the browser has them by itself


class Watched:
    """A page of the browser with all that it said, asked for or popped up."""

    def __init__(self, page: Any, path: Path) -> None:
        self.page, self.said, self.asked, self.dialogs = page, [], [], []
        page.set_default_timeout(READY)
        self.ears = {
            "console": lambda message: self.said.append(message.text),
            "pageerror": lambda error: self.said.append(str(error)),
            "request": lambda request: self.asked.append(request.url),
            "dialog": self.pop,
        }
        for event, ear in self.ears.items():
            page.on(event, ear)
        page.goto(path.as_uri())

    def pop(self, dialog: Any) -> None:
        self.dialogs.append(dialog.message)
        dialog.dismiss()

    def open_all(self) -> None:
        self.page.evaluate("document.querySelectorAll('details').forEach((fold) => { fold.open = true; })")


class LentPages:
    """script: whether pages run it. alone: the test leaves traces that no page loses, and its page is closed after."""

    def __init__(self, browser: Any) -> None:
        self.browser = browser
        self.free: dict[bool, list[Any]] = {True: [], False: []}
        self.lent: list[tuple[Watched, bool, bool]] = []

    def lend(self, path: Path, width: int, scheme: str, script: bool, alone: bool) -> Watched:
        """A page with nothing stored, nothing allowed and no history that a test could see, on a file."""
        free = self.free[script]
        page = free.pop() if free and not alone else self.browser.new_context(java_script_enabled=script).new_page()
        page.set_viewport_size({"width": width, "height": 900})
        page.emulate_media(color_scheme=scheme, **NO_MEDIA)
        watched = Watched(page, path)
        self.lent.append((watched, script, alone))
        return watched

    def take_back(self) -> None:
        """All that are lent."""
        lent, self.lent = self.lent, []
        for watched, script, alone in lent:
            page = watched.page
            if alone:
                page.context.close()
                continue
            for event, ear in watched.ears.items():
                page.remove_listener(event, ear)
            if script:
                page.evaluate("localStorage.clear(); sessionStorage.clear()")
            page.goto("about:blank")
            page.context.clear_permissions()
            page.context.clear_cookies()
            self.free[script].append(page)
