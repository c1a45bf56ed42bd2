"""Which of several tools a derivation changed, and what all of them share, in words."""

from collections.abc import Iterator

from profilesmith.facts.facts import fact_kinds
from profilesmith.foundation.words import plural
from profilesmith.ledger import Question
from profilesmith.ledger.ledger import TOOL, Tools
from profilesmith.review.review import OpenQuestion as AskedFor


def tools_words(tools: Tools) -> Iterator[tuple[bool, str, AskedFor | None]]:
    """Whether it is urgent, what is so, and the question that settles it."""
    shared = ""
    if tools.shared:
        count = plural(len(tools.shared), "changed setting", "changed settings")
        shared = f"All {tools.many} tools share {count}: {', '.join(tools.shared)}. "
    if tools.chosen:
        yield (
            bool(shared),
            f"{shared}Tool {tools.chosen} of {tools.many} was changed, the others stay as they are",
            None,
        )
    elif tools.own:
        about = Question("fact", TOOL, kind="quantity", unit_kind="count")
        text = f"All {tools.many} tools were changed, since nobody said which of them carries the spool"
        yield True, text, AskedFor(fact_kinds()[TOOL].ask, tools.own, (), about)
