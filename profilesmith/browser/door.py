"""The page's door to the engine: one call by name, JSON and bytes in, JSON and bytes out. Runs in the page's worker."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from profilesmith.browser import shown
from profilesmith.browser.after_print import AfterPrint
from profilesmith.browser.new_text import NewText
from profilesmith.browser.offer import Offer
from profilesmith.foundation.problem import Refused

Json = dict[str, Any]
Answer = tuple[Json, list[bytes]]
Call = Callable[[Json, Sequence[bytes]], Answer]


class Desk:
    """All that the page can ask for, by name."""

    def __init__(self) -> None:
        self.offer = Offer()
        self.new_text, self.after_print = NewText(self.offer), AfterPrint(self.offer)
        new, after = self.new_text, self.after_print
        asked = (new.read, new.suggest, new.answer, new.use, new.ask, new.check, new.derive, new.take, new.sheet)
        later = (after.open, after.advise, after.undo, after.take_mended, after.motion)
        self.calls: Mapping[str, Call] = {call.__name__: call for call in (self.offer.begin, *asked, *later)}


DESK = Desk()


def call(name: str, asked: str, raws: Sequence[bytes], desk: Desk = DESK) -> tuple[str, list[bytes]]:
    """Carry one call out. A refusal comes back as data, with the sentences that say what is wrong and what to do."""
    try:
        data, out = desk.calls[name](json.loads(asked), raws)
    except Refused as refused:
        data, out = {"refused": [shown.problem(item) for item in refused.problems]}, []
    return json.dumps(data, ensure_ascii=True), out
