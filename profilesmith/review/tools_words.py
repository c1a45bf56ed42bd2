"""Which of several tools a derivation changed, and what all of them share, in words."""

from collections.abc import Iterator

from profilesmith.facts.facts import fact_kinds
from profilesmith.foundation.words import plural
from profilesmith.ledger import Question
from profilesmith.ledger.ledger import TOOL, Tools
from profilesmith.review.point import PointMend
from profilesmith.review.review import OpenQuestion as AskedFor


def tools_words(tools: Tools) -> Iterator[tuple[bool, str, PointMend]]:
    """Whether it is urgent, what is so, and what to do: the question that settles it, or words."""
    if tools.chosen:
        yield bool(tools.shared), f"{_own_words(tools)}{_shared_words(tools)}", _apart(tools)
    elif tools.own:
        about = Question("fact", TOOL, kind="quantity", unit_kind="count")
        text = f"All {tools.many} tools were changed, since nobody said which of them carries the spool"
        yield True, text, PointMend(question=AskedFor(fact_kinds()[TOOL].ask, tools.own, (), about))


def _own_words(tools: Tools) -> str:
    if not tools.shared:
        return f"Tool {tools.chosen} of {tools.many} was changed, the others stay as they are"
    if not tools.own:
        return f"Nothing was changed for tool {tools.chosen} of {tools.many} alone"
    own = plural(len(tools.own), "setting", "settings")
    return f"{own} changed for tool {tools.chosen} of {tools.many} alone"


def _shared_words(tools: Tools) -> str:
    if not tools.shared:
        return ""
    shared = plural(len(tools.shared), "setting", "settings")
    has = "has" if len(tools.shared) == 1 else "have"
    return f", but {shared} that {has} one value for all tools changed for all of them: {', '.join(tools.shared)}"


def _apart(tools: Tools) -> PointMend:
    words = f"print what does not need tool {tools.chosen} from the text as it was" if tools.shared else ""
    return PointMend(words=words)
