"""Guide: the pages that ship, by topic."""

from __future__ import annotations

from importlib.resources import files

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean

TOPICS = (
    "start",
    "keymap",
    "facts",
    "recipe",
    "motion",
    "rederive",
    "batch",
    "distil",
    "mend",
    "library",
    "browser",
    "promises",
    "safety",
)
"""In the order in which a newcomer meets them; each is a Markdown file in ``profilesmith/guide/``."""


class Page(NamedTuple):
    """title: the first line, without its mark. text: Markdown, the title included."""

    topic: str
    title: str
    text: str


def page(topic: str) -> Page:
    """One page. Raises Refused for a topic that is not there."""
    if topic not in TOPICS:
        hint = did_you_mean(topic, TOPICS, f"There are: {', '.join(TOPICS)}.")
        raise Refused([Problem("topic", f"The guide has no page {topic!r}.", Place("guide"), hint)])
    text = (files("profilesmith") / "guide" / f"{topic}.md").read_text(encoding="utf-8")
    return Page(topic, text.partition("\n")[0].removeprefix("# "), text)


def pages() -> list[Page]:
    """All pages, in reading order."""
    return [page(topic) for topic in TOPICS]
