"""The review as Markdown for a pull request: changes as tables, long lists folded. Strangers' text is escaped."""

from __future__ import annotations

import re

from profilesmith.foundation.words import plural
from profilesmith.ledger.judgement import Finding
from profilesmith.review.consequences import (
    LOOK_FIRST,
    TITLES,
    counts_line,
    heading,
    measures,
    not_judged,
    of_verdict,
    told,
)
from profilesmith.review.look_first import look_first_points
from profilesmith.review.point import Point
from profilesmith.review.render import Look
from profilesmith.review.review import Reason, Review, ValueChange
from profilesmith.review.sentences import ROAD, by_rule, command_name, held_list, runs, unmapped_list

_BLOCK_START = re.compile(r"\A(\d{1,9}(?=[.)](?: |\Z))|(?=[-+](?: |\Z)|--|==))([-+.)=])")
_SPECIAL = re.compile(r"([\\`*_{}\[\]<>#|~&!@])")


def escape(text: str) -> str:
    """Text that Markdown shows as it is, also inside a table cell."""
    escaped = _SPECIAL.sub(
        lambda sign: f"&#{ord(sign.group(1))};" if sign.group(1) in "<>&@`|" else f"\\{sign.group(1)}", text
    )
    # A text may begin like a list, a rule or a code block: then its first sign is made an ordinary one.
    if escaped.startswith(" "):
        return f"&#32;{escaped[1:]}"
    return _BLOCK_START.sub(r"\1\\\2", escaped, count=1)


def code(text: str) -> str:
    """Text in a code span; in tables a bar would end the cell."""
    return f"<code>{escape(text)}</code>" if text else ""


def render(review: Review, look: Look) -> str:
    """The review as Markdown: what to look at first and one table; reasons and lists are folded."""
    recipes = f" Recipes: {', '.join(escape(name) for name in review.recipes)}." if review.recipes else ""
    if review.outputs and not review.conflicts:
        recipes = f" Written: {', '.join(escape(name) for name in review.outputs)}.{recipes}"
    lines = [
        f"# {escape(review.title)}",
        "",
        f"{escape(review.subject)}.{recipes} **{escape(counts_line(review))}**",
        "",
    ]
    lines += _look_first(review)
    if not review.conflicts:
        lines += _table(review)
        lines += _reasons(review)
    lines += _by_hand(review) + _questions(review)
    lines += _list(ROAD, review.road)
    lines += _consequences(review, look)
    if review.kind == "check" or not review.consequences:
        lines += _details(f"Take care: {plural(len(review.cautions), 'note', 'notes')}", _take_care(review, look))
    lines += _folded(review)
    text = "\n".join(lines).rstrip("\n") + "\n"
    return text.replace("</details>\n\n<details>", "</details>\n<details>")


def _look_first(review: Review) -> list[str]:
    points = look_first_points(review)
    if not points:
        return []
    return [f"## {LOOK_FIRST}", *map(_point, points), ""]


def _point(point: Point) -> str:
    title = f"{point.title}: " if point.title else ""
    place = f"{code(point.place)} " if point.place else ""
    words = f" {escape(point.mend.words)}" if point.mend.words else ""
    text = f"{escape(title)}{escape(point.text)}"
    return f"- {place}**{text}**{words}" if point.urgent else f"- {place}{text}{words}"


def _table(review: Review) -> list[str]:
    changes = [change for group in review.groups for change in group.changes]
    if not changes:
        return []
    lines = ["| setting | before | after | change | where | rule |", "| --- | --- | --- | --- | --- | --- |"]
    return [*lines, *map(_change, changes), ""]


def _reasons(review: Review) -> list[str]:
    """Each reason once, with the settings that it decides; what was overruled behind it."""
    names: dict[str, list[str]] = {}
    others: dict[str, list[str]] = {}
    for group in review.groups:
        for reasons, changes in runs(group):
            first, *more = [
                text for number, reason in enumerate(reasons) if (text := _reason(reason, number == 0))
            ] or [""]
            if first:
                settings = [command_name(item) if item.command else item.setting for item in changes]
                names.setdefault(first, []).extend(settings)
                others.setdefault(first, []).extend(more)
    lines = [
        f"- **{escape(', '.join(dict.fromkeys(settings)))}**: {' '.join([first, *dict.fromkeys(others[first])])}"
        for first, settings in names.items()
    ]
    return _details("Reasons and sources", lines)


def _reason(reason: Reason, first: bool) -> str:
    note = f"; {escape(reason.note)}" if reason.note else ""
    if first:
        source = f"; source: {escape(reason.source)}" if reason.source else ""
        return f"{escape(reason.why)} *({escape(reason.cause)}: {escape(reason.demand)}{note}{source})*"
    if reason.status == "unanswered":
        return f"*({escape(reason.cause)}: waits for an answer{note})*"
    return (
        ""
        if reason.status == "kept"
        else f"*({escape(reason.cause)}: {escape(reason.demand)}; {escape(reason.status)}{note})*"
    )


def _details(title: str, lines: list[str]) -> list[str]:
    return [f"<details><summary>{title}</summary>", "", *lines, "", "</details>", ""] if lines else []


def _change(change: ValueChange) -> str:
    spot = escape(f"{change.file}:{change.line}" if change.line else change.file)
    equals = f" = {change.new_text}" if change.new_text and not change.command else ""
    texts = f"{spot} {code(f'{change.key}{equals}')}".strip()
    name = command_name(change) if change.command else change.setting
    reason = next((reason for reason in change.reasons if reason.rule), None)
    rule = f"{reason.recipe} {reason.rule}" if reason else ""
    if change.status in ("added", "follows", "gave way", "only new", "only old"):
        rule = ", ".join(part for part in (rule, change.status) if part)
    if change.recipe_value:
        rule = f"{'follows' if change.follows else 'edited'}; recipe: {change.recipe_value}"
    cells = (
        escape(name),
        escape(change.base),
        f"**{escape(change.derived)}**",
        escape(change.relative),
        texts,
        escape(rule),
    )
    return f"| {' | '.join(cells)} |"


def _consequences(review: Review, look: Look) -> list[str]:
    """What warns stands in full (and under Look first); notes, what was not judged and what passed are folded."""
    if not review.consequences:
        return []
    lines = [_consequence(item, TITLES[item.verdict], look) for item in told(review)]
    waiting = " ".join(escape(text[:1].upper() + text[1:]) for text in not_judged(review))
    lines += [f"- Not judged: {waiting}"] if waiting else []
    passed = [item.title for item in of_verdict(review, "passed")]
    if passed and look.sources:
        lines += [_consequence(item, "Passed", look) for item in of_verdict(review, "passed")]
    elif passed:
        lines.append(f"- Passed: {escape(', '.join(dict.fromkeys(passed)))}.")
    if review.kind == "check":
        return [f"## {escape(heading(review))}", "", *lines, ""]
    # One item for all of them: a pull request shows what changed, and these fold with the consequences.
    care = "<br>".join(_cautions(review, look))
    return _details(escape(heading(review)), [*lines, f"- **Take care.** {care}"] if care else lines)


def _consequence(item: Finding, word: str, look: Look) -> str:
    measured = f" {escape(measures(item))}." if measures(item) else ""
    ask = f" *{escape(item.ask)}*" if item.ask and item.verdict != "passed" else ""
    source = f" *(source: {escape(item.source)})*" if look.sources and item.source else ""
    return f"- **{word}: {escape(item.title)}.**{measured} {escape(item.text)}{ask}{source}"


def _take_care(review: Review, look: Look) -> list[str]:
    return [f"- Take care: {text}" for text in _cautions(review, look)]


def _cautions(review: Review, look: Look) -> list[str]:
    items = [(text, review.caution_sources.get(text, "") if look.sources else "") for text in review.cautions]
    return [f"{escape(text)}" + (f" *(source: {escape(source)})*" if source else "") for text, source in items]


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
    """All the rest, one line a list."""
    parts = (
        ("Assumed, since nobody said otherwise", [str(item) for item in review.assumed]),
        held_list(review),
        ("Already right", [f"{change.setting} {change.base}" for change in review.kept]),
        ("Overruled everywhere", [change.setting for change in review.overruled]),
        ("Rules that do not apply here", [f"{reason.cause}: {reason.note}" for reason in review.idle]),
        ("How the text was read", list(review.notes)),
        unmapped_list(review),
        ("Lines that are no setting", [f"{line.file}:{line.line} {line.text}" for line in review.unread]),
    )
    lines = [
        f"- **{escape(title)} ({len(items)})**: {'; '.join(escape(item) for item in items)}"
        for title, items in parts
        if items
    ]
    return _details("The rest", lines)
