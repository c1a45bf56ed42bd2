"""The page's door to the engine: one call by name, JSON and bytes in, JSON and bytes out. Runs in the page's worker."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from typing import Any

from profilesmith.browser import shown
from profilesmith.browser.new_text import NewText
from profilesmith.browser.offer import Offer
from profilesmith.foundation.problem import Refused

Json = dict[str, Any]
Answer = tuple[Json, list[bytes]]
Call = Callable[[Json, Sequence[bytes]], Answer]


LATER = ("open", "advise", "undo", "take_mended", "motion", "troubles")


class Desk:
    """All that the page can ask for, by name."""

    def __init__(self) -> None:
        self.offer = Offer()
        self.new_text = new = NewText(self.offer)
        asked = (new.read, new.suggest, new.answer, new.use, new.ask, new.check, new.derive, new.take, new.sheet)
        self.calls: dict[str, Call] = {call.__name__: call for call in (self.offer.begin, self.offer.names, *asked)}
        self.calls |= {name: self._later(name) for name in LATER} | {"warm": self.warm}

    def warm(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """Load what the next steps need, while nobody waits: a page calls it once it is ready."""
        from profilesmith.browser import shown_proposals
        from profilesmith.review.render import page

        return {"loaded": [shown_proposals.__name__, page.__name__]}, []

    def _later(self, name: str) -> Call:
        """A call of what comes after the print: its modules are loaded by the first one, not while somebody waits."""

        def carry_out(asked: Json, raws: Sequence[bytes]) -> Answer:
            from profilesmith.browser.after_print import AfterPrint

            after = AfterPrint(self.offer)
            self.calls |= {name: getattr(after, name) for name in LATER}
            return self.calls[name](asked, raws)

        return carry_out


DESK = Desk()


def call(name: str, asked: str, raws: Sequence[bytes], desk: Desk = DESK) -> tuple[str, list[bytes]]:
    """Carry one call out. A refusal comes back as data, with the sentences that say what is wrong and what to do."""
    try:
        data, out = desk.calls[name](json.loads(asked), raws)
    except Refused as refused:
        data, out = {"refused": [shown.problem(item) for item in refused.problems]}, []
    return json.dumps(data, ensure_ascii=True), out
