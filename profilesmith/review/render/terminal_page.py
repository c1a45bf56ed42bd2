"""The whole review in lines for a terminal: what changed first, with reasons, then what is left to the person."""

from profilesmith.foundation.words import plural
from profilesmith.ledger.judgement import Finding
from profilesmith.review.consequences import (
    TITLES,
    closing,
    heading,
    headline,
    lower_first,
    measures,
    not_judged,
    of_verdict,
    told,
)
from profilesmith.review.render import Look
from profilesmith.review.render.answer_option import ASSUMED, answer_option, assumed_option
from profilesmith.review.render.brief import look_first_lines
from profilesmith.review.render.terminal_lines import StyledLine
from profilesmith.review.review import AreaChanges, Reason, Review, ValueChange
from profilesmith.review.sentences import ROAD, by_rule, command_name, held_list, runs, unmapped_list, where

STYLES = {"stop": "bold red", "caution": "bold yellow", "note": "cyan"}


def page_lines(review: Review, look: Look) -> list[StyledLine]:
    """All of it."""
    page = _Page(look)
    page.show(review)
    return page.lines


class _Page:
    def __init__(self, look: Look) -> None:
        self.look = look
        self.lines: list[StyledLine] = []

    def line(self, text: str, style: str = "", indent: int = 0) -> None:
        self.lines.append(StyledLine(indent, ((text, style),)))

    def head(self, text: str) -> None:
        self.line("")
        self.line(text, "bold")

    def show(self, review: Review) -> None:
        self.line(review.title, "bold")
        self.line(review.subject)
        if review.recipes:
            self.line(f"recipes: {', '.join(review.recipes)}")
        self.line(headline(review))
        self.lines += [
            StyledLine(item.indent, ((item.text, item.style),), item.hang) for item in look_first_lines(review)
        ]
        for group in review.groups:
            self.group(group)
        self.consequences(review)
        self.by_hand(review)
        self.questions(review)
        self.listed(ROAD, review.road)
        self.rest(review)
        self.listed(ASSUMED, tuple(map(assumed_option, review.assumed)))
        self.listed("How the text was read", review.notes)
        self.cautions(review)
        self.closing(review)

    def closing(self, review: Review) -> None:
        for text in ("", *closing(review)) if closing(review) else ():
            self.line(text, "bold yellow")

    def group(self, group: AreaChanges) -> None:
        self.head(group.title)
        for reasons, changes in runs(group):
            for change in changes:
                self.change(change)
            for number, reason in enumerate(reasons):
                self.reason(reason, number == 0)

    def change(self, change: ValueChange) -> None:
        extra = {
            "added": "added",
            **{word: word for word in ("follows", "gave way")},
            "only new": "only in the new one",
            "only old": "only in the old one",
        }
        mark = ", ".join(part for part in (change.relative, extra.get(change.status, "")) if part)
        self.lines.append(
            StyledLine(
                2,
                (
                    (f"{command_name(change) if change.command else change.setting:<30} ", ""),
                    (change.base, "dim"),
                    (" → ", ""),
                    (change.derived, "bold green"),
                    (f"  ({mark})" if mark else "", "cyan"),
                ),
            )
        )
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
            self.line(
                f"[{reason.cause}: {reason.demand}; {reason.status}{'; ' if reason.note else ''}{reason.note}]",
                "dim",
                4,
            )

    def consequences(self, review: Review) -> None:
        """What matters in full, what passed in one line, what was not judged in one line each."""
        if review.consequences:
            self.head(heading(review))
        for item in told(review):
            self.consequence(item, TITLES[item.verdict], STYLES[item.verdict])
        passed = of_verdict(review, "passed")
        if self.look.full:
            for item in passed:
                self.consequence(item, "Passed", "green")
        elif passed:
            names = ", ".join(lower_first(item.title) for item in passed[:4]) + (", ..." if len(passed) > 4 else "")
            self.line(f"Passed: {len(passed)} ({names}); in full with --full", "dim", 2)
        for text in not_judged(review):
            self.line(f"? Not judged: {text}", "yellow", 2)

    def consequence(self, item: Finding, word: str, style: str) -> None:
        measured = measures(item)
        self.lines.append(
            StyledLine(2, ((f"{word}: ", style), (item.title, "bold"), (f"  {measured}" if measured else "", "")))
        )
        self.line(item.text, "", 4)
        if item.ask and item.verdict != "passed":
            self.line(f"? {item.ask}", "dim", 4)
        if self.look.sources and item.source:
            self.line(f"[source: {item.source}]", "dim", 4)

    def cautions(self, review: Review) -> None:
        if review.cautions:
            self.head("Take care")
        for text in review.cautions:
            self.line(f"- {text}", "", 2)
            source = review.caution_sources.get(text, "") if self.look.sources else ""
            if source:
                self.line(f"[source: {source}]", "dim", 4)

    def by_hand(self, review: Review) -> None:
        if not review.by_hand:
            return
        self.head("To set by hand")
        for reason, changes in by_rule(review.by_hand):
            self.line(f"{', '.join(change.setting for change in changes)}: {reason.demand}", "", 2)
            if reason.note:
                self.line(f"! {reason.note}" if reason.is_slip else reason.note, "yellow", 4)
            self.line(reason.why, "dim", 4)
            self.line(f"[{reason.cause}]", "dim", 4)

    def questions(self, review: Review) -> None:
        if review.questions:
            self.head("Not known, so left alone")
        for question in review.questions:
            self.line(f"? {question.ask} {answer_option(question.about)}".rstrip(), "bold yellow", 2)
            self.line(f"{', '.join(question.settings)} [{', '.join(question.causes)}]", "dim", 4)

    def listed(self, title: str, lines: tuple[str, ...]) -> None:
        if lines:
            self.head(title)
        for text in lines:
            self.line(f"- {text}", "", 2)

    def rest(self, review: Review) -> None:
        """Everything else in one line each, or in full when asked for."""
        counted = (
            held_list(review),
            ("Already right", [f"{change.setting} {change.base}" for change in review.kept]),
            ("Overruled everywhere", [change.setting for change in review.overruled]),
            ("Rules that do not apply here", [f"{reason.cause}: {reason.note}" for reason in review.idle]),
            unmapped_list(review),
            ("Lines that are no setting", [f"{line.file}:{line.line} {line.text}" for line in review.unread]),
        )
        shown = [(title, items) for title, items in counted if items]
        if not shown:
            return
        self.line("")
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
