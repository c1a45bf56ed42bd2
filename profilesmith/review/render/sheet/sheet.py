"""Sheet: what a person types in, box by box, grouped by where they look for it."""

from __future__ import annotations

from dataclasses import dataclass

from profilesmith.foundation.named_tuple import NamedTuple


class Step(NamedTuple):
    """What a number is to be. new: the value, or a bound in words; how: what to do about it; only: under what
    condition.
    """

    new: str
    how: str = ""
    only: str = ""


class Item(NamedTuple):
    """One box. name: trade words; old: the value now; key, text, file, line: where and how their own text writes it.

    boxed: whether there is anything to do. file: "" where the sheet's head names the only one.
    """

    name: str
    steps: tuple[Step, ...]
    old: str = ""
    key: str = ""
    text: str = ""
    file: str = ""
    line: int = 0
    note: str = ""
    boxed: bool = True

    @property
    def place(self) -> str:
        line = f"line {self.line}" if self.line else ""
        return ", ".join(part for part in (self.file, line) if part)


class SheetPart(NamedTuple):
    """The boxes of one part of the print, such as Supports."""

    title: str
    items: tuple[Item, ...]


class Ask(NamedTuple):
    """Something to find out first. label: how the boxes call it, "" when none does; words: the question."""

    label: str
    words: str
    otherwise: str = ""


class SheetReason(NamedTuple):
    """A rule and why it asks."""

    rule: str
    why: str
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A whole checklist. stop: why nothing may be typed in yet. look_first: what the checks warn of, (title, text).

    elsewhere: which values it does not hold, and where they are; "" where it leaves none out.
    """

    title: str
    subject: str
    lead: tuple[str, ...]
    parts: tuple[SheetPart, ...]
    stop: tuple[str, ...] = ()
    elsewhere: str = ""
    look_first: tuple[tuple[str, str], ...] = ()
    asks: tuple[Ask, ...] = ()
    start_blocks: tuple[str, ...] = ()
    reasons: tuple[SheetReason, ...] = ()
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
