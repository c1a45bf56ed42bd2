"""One thing to look at first, as data, and what would mend it: each door words that in its own way."""

from typing import Literal

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.review.review import OpenQuestion

Kind = Literal[
    "conflict",
    "tools",
    "edit",
    "decision",
    "start block",
    "alarm",
    "missed aim",
    "two filaments",
    "unsuited",
    "set by hand",
    "switched off",
    "once",
    "unread",
    "question",
]


class PointMend(NamedTuple):
    """What would mend a point. question: the one to answer; follow: let start blocks follow the new temperatures."""

    follow: bool = False
    question: OpenQuestion | None = None
    words: str = ""


class Point(NamedTuple):
    """One thing to look at. urgent: it stops the work or is likely to spoil the print; else good to know first.

    title: a few words; text: what is so; place: ``base.settings:152`` or "".
    """

    kind: Kind
    urgent: bool
    text: str
    title: str = ""
    place: str = ""
    mend: PointMend = PointMend()
