"""The review as Markdown for a pull request: changes as tables, long lists folded. Strangers' text is escaped."""

from __future__ import annotations

import re

from profilesmith.ledger.judgement import Finding
from profilesmith.review.consequences import (
    TITLES,
    heading,
    headline,
    look_first,
    measures,
    not_judged,
    of_verdict,
    told,
)
from profilesmith.review.render import Look
from profilesmith.review.review import Change, Group, Review
from profilesmith.review.road import ROAD
from profilesmith.review.sentences import EDITS, LEFT, by_rule, command_name, held_list, runs, unmapped_title

_BLOCK_START = re.compile(r"\A(\d{1,9}(?=[.)](?: |\Z))|(?=[-+](?: |\Z)|--|==))([-+.)=])")
_SPECIAL = re.compile(r"([\\`*_{}\[\]<>#|~&!@])")


def escape(text: str) -> str:
    """Text that Markdown shows as it is, also inside a table cell."""
    escaped = _SPECIAL.sub(
        lambda found: f"&#{ord(found.group(1))};" if found.group(1) in "<>&@`|" else f"\\{found.group(1)}", text
    )
    # A text may begin like a list, a rule or a code block: then its first sign is made an ordinary one.
    if escaped.startswith(" "):
        return f"&#32;{escaped[1:]}"
    return _BLOCK_START.sub(r"\1\\\2", escaped, count=1)


def code(text: str) -> str:
    """Text in a code span; in tables a bar would end the cell."""
    return f"<code>{escape(text)}</code>" if text else ""


def render(review: Review, look: Look) -> str:
    """The review as Markdown."""
    lines = [f"# {escape(review.title)}", "", escape(review.subject), ""]
    if review.recipes:
        lines += [f"Recipes: {', '.join(escape(name) for name in review.recipes)}.", ""]
    lines += [f"**{escape(headline(review))}**", ""]
    if look_first(review):
        lines += [f"**{escape(look_first(review))}**", ""]
    if review.conflicts:
        lines += ["## Conflicts: nothing is written", ""]
        lines += [f"- **{escape(problem.message)}** {escape(problem.hint)}" for problem in review.conflicts] + [""]
    for group in review.groups:
        lines += _group(group)
    lines += _consequences(review, look)
    lines += _by_hand(review) + _questions(review)
    lines += _list(EDITS, review.edits)
    lines += _list(ROAD, review.road)
    lines += _list(LEFT, tuple(map(str, review.literals)))
    lines += _list("Assumed, since nobody said otherwise", tuple(map(str, review.assumed)))
    lines += _list("How the text was read", review.notes)
    lines += _cautions(review, look)
    lines += _folded(review)
    return "\n".join(lines).rstrip("\n") + "\n"


def _group(group: Group) -> list[str]:
    lines = [f"## {escape(group.title)}", ""]
    for reasons, changes in runs(group):
        lines += ["| setting | before | after | change | where |", "| --- | --- | --- | --- | --- |"]
        lines += [_change(change) for change in changes] + [""]
        for number, reason in enumerate(reasons):
            if number == 0:
                note = f"; {escape(reason.note)}" if reason.note else ""
                source = f"; source: {escape(reason.source)}" if reason.source else ""
                lines += [f"{escape(reason.why)} *({escape(reason.cause)}: {escape(reason.demand)}{note}{source})*", ""]
            elif reason.status == "unanswered":
                lines += [f"*({escape(reason.cause)}: waits for an answer, {escape(reason.note)})*", ""]
            elif reason.status != "kept":
                note = f"; {escape(reason.note)}" if reason.note else ""
                lines += [f"*({escape(reason.cause)}: {escape(reason.demand)}; {escape(reason.status)}{note})*", ""]
    return lines


def _change(change: Change) -> str:
    extra = change.status if change.status in ("added", "follows", "gave way", "only new", "only old") else ""
    mark = ", ".join(part for part in (escape(change.relative), extra) if part)
    spot = escape(f"{change.file}:{change.line}" if change.line else change.file)
    equals = f" = {change.new_text}" if change.new_text and not change.command else ""
    texts = f"{spot} {code(f'{change.key}{equals}')}".strip()
    name = command_name(change) if change.command else change.setting
    return f"| {escape(name)} | {escape(change.base)} | **{escape(change.derived)}** | {mark} | {texts} |"


def _consequences(review: Review, look: Look) -> list[str]:
    """What matters in full, what passed folded, what was not judged in one line each."""
    if not review.consequences:
        return []
    lines = [f"## {escape(heading(review))}", ""]
    lines += [_consequence(item, TITLES[item.verdict], look) for item in told(review)]
    lines += [f"- Not judged: {escape(text)}" for text in not_judged(review)]
    passed = [_consequence(item, "Passed", look) for item in of_verdict(review, "passed")]
    if passed:
        lines += ["", f"<details><summary>{len(passed)} passed</summary>", "", *passed, "", "</details>"]
    return [*lines, ""]


def _consequence(item: Finding, word: str, look: Look) -> str:
    found = f" {escape(measures(item))}." if measures(item) else ""
    ask = f" *{escape(item.ask)}*" if item.ask and item.verdict != "passed" else ""
    source = f" *(source: {escape(item.source)})*" if look.sources and item.source else ""
    return f"- **{word}: {escape(item.title)}.**{found} {escape(item.text)}{ask}{source}"


def _cautions(review: Review, look: Look) -> list[str]:
    items = [(text, review.caution_sources.get(text, "") if look.sources else "") for text in review.cautions]
    lines = [f"- {escape(text)}" + (f" *(source: {escape(source)})*" if source else "") for text, source in items]
    return ["## Take care", "", *lines, ""] if lines else []


def _by_hand(review: Review) -> list[str]:
    if not review.by_hand:
        return []
    lines = ["## To set by hand", ""]
    for reason, changes in by_rule(review.by_hand):
        names = ", ".join(escape(change.setting) for change in changes)
        note = f"; {escape(reason.note)}" if reason.note else ""
        lines.append(f"- **{names}**: {escape(reason.demand)}. {escape(reason.why)} *({escape(reason.cause)}{note})*")
    return [*lines, ""]


def _questions(review: Review) -> list[str]:
    if not review.questions:
        return []
    lines = ["## Not known, so left alone", ""]
    for question in review.questions:
        names, causes = (", ".join(escape(item) for item in items) for items in (question.settings, question.causes))
        lines.append(f"- **{escape(question.ask)}** {names} *({causes})*")
    return [*lines, ""]


def _list(title: str, items: tuple[str, ...]) -> list[str]:
    return [f"## {title}", "", *(f"- {escape(item)}" for item in items), ""] if items else []


def _folded(review: Review) -> list[str]:
    parts = (
        held_list(review),
        ("Already right", [f"{change.setting} {change.base}" for change in review.kept]),
        ("Overruled everywhere", [change.setting for change in review.overruled]),
        ("Rules that do not apply here", [f"{reason.cause}: {reason.note}" for reason in review.idle]),
        (unmapped_title(review), [f"{line.file}:{line.line} {line.key}" for line in review.unmapped]),
        ("Lines that are no setting", [f"{line.file}:{line.line} {line.text}" for line in review.unread]),
    )
    lines: list[str] = []
    for title, items in parts:
        if items:
            lines += [
                f"<details><summary>{title}: {len(items)}</summary>",
                "",
                *(f"- {escape(item)}" for item in items),
                "",
                "</details>",
                "",
            ]
    return lines
