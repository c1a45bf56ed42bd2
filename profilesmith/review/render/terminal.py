"""The review for a terminal of any width from 60 columns: what changed first, then what is left to the person."""

from __future__ import annotations

import io

from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from profilesmith.review.render import Look
from profilesmith.review.review import Change, Group, Reason, Review
from profilesmith.review.sentences import by_rule, plural, runs, summary, where


def render(review: Review, look: Look) -> str:
    """The review as text, with colours when ``look.colour``."""
    stream = io.StringIO()
    console = Console(
        file=stream, width=max(look.width, 60), force_terminal=look.colour, no_color=not look.colour,
        color_system="standard" if look.colour else None, highlight=False, markup=False, emoji=False,
    )  # fmt: skip
    _Page(console, look).show(review)
    return "".join(f"{line.rstrip()}\n" for line in stream.getvalue().splitlines())


class _Page:
    def __init__(self, console: Console, look: Look) -> None:
        self.console, self.look = console, look

    def line(self, text: str, style: str = "", indent: int = 0) -> None:
        self.console.print(Padding(Text(text, style=style), (0, 0, 0, indent)))

    def head(self, text: str) -> None:
        self.console.print()
        self.line(text, "bold")

    def show(self, review: Review) -> None:
        self.line(review.title, "bold")
        self.line(review.subject)
        if review.recipes:
            self.line(f"recipes: {', '.join(review.recipes)}")
        self.line(summary(review))
        self.conflicts(review)
        for group in review.groups:
            self.group(group)
        self.by_hand(review)
        self.questions(review)
        self.listed("Machine commands in start blocks that contradict the result", review.literals)
        self.rest(review)
        self.listed("Assumed, since nobody said otherwise (say it with --facts or --answer)", review.assumed)
        self.listed("How the text was read", review.notes)
        self.listed("Take care", review.cautions)

    def conflicts(self, review: Review) -> None:
        if review.conflicts:
            self.head("Conflicts: nothing is written")
        for problem in review.conflicts:
            self.line(f"! {problem.message}", "bold red", 2)
            self.line(problem.hint, "", 4)

    def group(self, group: Group) -> None:
        self.head(group.title)
        for reasons, changes in runs(group):
            for change in changes:
                self.change(change)
            for number, reason in enumerate(reasons):
                self.reason(reason, number == 0)

    def change(self, change: Change) -> None:
        text = Text(f"{change.setting:<30} ")
        text.append(change.base, "dim")
        text.append(" → ")
        text.append(change.derived, "bold green")
        extra = {"added": "added", "follows": "follows", "only new": "only in the new one", "only old": "only in the old one"}
        mark = ", ".join(part for part in (change.relative, extra.get(change.status, "")) if part)
        if mark:
            text.append(f"  ({mark})", "cyan")
        self.console.print(Padding(text, (0, 0, 0, 2)))
        if where(change):
            self.line(where(change), "dim", 6)

    def reason(self, reason: Reason, first: bool) -> None:
        if first:
            self.line(reason.why, "", 4)
            source = f"; source: {reason.source}" if reason.source else ""
            note = f"; {reason.note}" if reason.note else ""
            self.line(f"[{reason.cause}: {reason.demand}{note}{source}]", "dim", 4)
        elif reason.status == "unanswered":
            self.line(f"[{reason.cause}: waits for an answer, {reason.note}]", "dim", 4)
        elif reason.status != "kept":
            self.line(f"[{reason.cause}: {reason.demand}; {reason.status}{'; ' if reason.note else ''}{reason.note}]", "dim", 4)

    def by_hand(self, review: Review) -> None:
        if not review.by_hand:
            return
        self.head("Set by hand: this text has no key for it")
        for reason, changes in by_rule(review.by_hand):
            self.line(f"{', '.join(change.setting for change in changes)}: {reason.demand}", "", 2)
            self.line(reason.why, "dim", 4)
            self.line(f"[{reason.cause}]", "dim", 4)

    def questions(self, review: Review) -> None:
        if not review.questions:
            return
        self.head("Not known, so left alone")
        for question in review.questions:
            self.line(f"? {question.ask}", "bold yellow", 2)
            self.line(f"{', '.join(question.settings)} [{', '.join(question.causes)}]", "dim", 4)

    def listed(self, title: str, lines: tuple[str, ...]) -> None:
        if lines:
            self.head(title)
        for text in lines:
            self.line(f"- {text}", "", 2)

    def rest(self, review: Review) -> None:
        """Everything else in one line each, or in full when asked for."""
        counted = (
            ("Already right", [f"{change.setting} {change.base}" for change in review.kept]),
            ("Overruled everywhere", [change.setting for change in review.overruled]),
            ("Rules that do not apply here", [f"{reason.cause}: {reason.note}" for reason in review.idle]),
            ("Keys that the map does not know", [f"{line.file}:{line.line} {line.key}" for line in review.unmapped]),
            ("Lines that are no setting", [f"{line.file}:{line.line} {line.text}" for line in review.unread]),
        )
        shown = [(title, items) for title, items in counted if items]
        if not shown:
            return
        self.console.print()
        for title, items in shown:
            if self.look.full:
                self.line(f"{title}: {len(items)}", "bold")
                for item in items:
                    self.line(f"- {item}", "", 2)
            else:
                few = ", ".join(items[:4]) + (", ..." if len(items) > 4 else "")
                self.line(f"{title}: {len(items)} ({few})", "dim")
        if not self.look.full and any(len(items) > 4 for _, items in shown):
            self.line(f"{plural(len(shown), 'list', 'lists')} in full with --full", "dim")
