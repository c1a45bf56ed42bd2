"""What a check of a library found, in words, as JSON, and as one line for each finding."""

from __future__ import annotations

import json
from collections import Counter

from profilesmith.catalogue.changes_words import changes_lines
from profilesmith.lint.finding import LintFinding
from profilesmith.lint.render import render_plain
from profilesmith.reports.library.effects import effect_data, effect_lines
from profilesmith.review.render.markdown import escape
from profilesmith.review.wording import visible
from profilesmith.workflows.library.checked import LibraryChecked
from profilesmith.workflows.library.effect_findings import WORST

MANY = 8  # findings of one number, from which on a few stand for all
FORMS = ("terminal", "markdown", "json", "lines")


def render_report(report: LibraryChecked, form: str) -> str:
    """The report in one of the FORMS."""
    if form == "json":
        return json.dumps(_json(report), ensure_ascii=True, indent=2) + "\n"
    if form == "markdown":
        return "\n".join([*_markdown(report), ""])
    if form == "lines":
        return render_plain(report.findings)
    return "\n".join([*_terminal(report), ""])


def _terminal(report: LibraryChecked) -> list[str]:
    lines = [visible(line) for block in _rule_blocks(report) for line in (*block, "")]
    if report.changed.since:
        lines += [
            visible(_effects_head(report)),
            *([""] if report.changed.blocks else []),
            *effect_lines(report.changed.blocks),
            "",
        ]
    findings, more = _few(report)
    for item in findings:
        head = f"{item.place}: {item.severity} {item.number} {item.message}"
        lines += [visible(line) for line in (head, f"  {item.fix}" if item.fix else "") if line]
    lines += map(visible, more)
    if report.findings:
        lines.append("")
    lines.append(visible(_summary(report)))
    if report.count("skipped"):
        lines.append(f"Not asked: {_many(report.count('skipped'), 'rule')}, named above as skipped.")
    if report.remembered:
        lines.append(
            f"{_many(report.remembered, 'derivation')} of an earlier check: nothing that they depend on changed."
        )
    return lines


def _rule_blocks(report: LibraryChecked) -> list[list[str]]:
    """For each recipe that changed the lines that say how."""
    return [lines for changes in report.changed.rules if (lines := changes_lines(changes))]


def _effects_head(report: LibraryChecked) -> str:
    if report.changed.effects is None:
        return f"{report.changed.since} holds no library that reads: nothing was derived to be held against it."
    if report.profiles and report.recipes and not report.derivations:
        return "No reference profile reads: nothing could be derived, and nothing is known of what changes."
    if report.changed.blocks:
        return f"What changes on the reference profiles since {report.changed.since}:"
    return f"On the reference profiles every recipe derives what it did at {report.changed.since}."


def _few(report: LibraryChecked) -> tuple[list[LintFinding], list[str]]:
    """The findings that are shown, and a line for each number of which there are many; beside a revision alone.

    One changed machine may give every recipe the same finding; who looks at a change is to see the others as well.
    """
    if not report.changed.since:
        return list(report.findings), []
    counts = Counter((item.severity, item.number) for item in report.findings)
    many = {key for key, count in counts.items() if count > MANY}
    seen: Counter[tuple[str, str]] = Counter()
    shown = []
    for item in report.findings:
        key = (item.severity, item.number)
        seen[key] += 1
        if key not in many or seen[key] <= WORST:
            shown.append(item)
    more = [
        (
            f"{counts[key] - WORST} more of {key[0]} {key[1]}: '--as lines' lists them all, "
            f"'profilesmith library rules {key[1]}' tells why"
        )
        for key in sorted(many)
    ]
    return shown, more


def _markdown(report: LibraryChecked) -> list[str]:
    """For a pull request: the verdict, what changes, what was found, and the rules that changed folded away."""
    lines = [f"**{escape(visible(_summary(report)))}**", ""]
    findings, more = _few(report)
    for item in findings:
        lines.append(f"- {item.severity} {item.number} {escape(visible(f'{item.place}: {item.message}'))}")
    lines += [*(f"- {escape(visible(text))}" for text in more), *([""] if report.findings else [])]
    if report.changed.since:
        head = "## " if report.changed.blocks else ""
        lines += [
            f"{head}{escape(visible(_effects_head(report)))}",
            "",
            *effect_lines(report.changed.blocks, markdown=True),
            "",
        ]
    for block in _rule_blocks(report):
        lines += _folded([line for line in block if line])
    return lines


def _folded(lines: list[str]) -> list[str]:
    """What changed in a recipe, rule by rule, behind its first line."""
    first, *more = (_item(line) for line in lines)
    if not more:
        return [first.removeprefix("- "), ""]
    return [
        "<details>",
        f"<summary>{first.removeprefix('- ')}</summary>",
        "",
        *more,
        "",
        "</details>",
        "",
    ]


def _item(line: str) -> str:
    """A line of a list in plain text as one of Markdown: what stands indented belongs to the item above it."""
    text = escape(visible(line.strip().removeprefix("- ")))
    return f"  - {text}" if line.startswith("  ") else f"- {text}"


def _summary(report: LibraryChecked) -> str:
    tried = (
        f"{_many(report.recipes, 'recipe')} and {_many(report.pairs, 'pair')} on "
        f"{_many(report.profiles, 'reference profile')}"
    )
    counts = f"{_many(report.errors, 'error')}, {_many(report.count('hint'), 'hint')}"
    return (
        f"{report.name}{' (strict)' if report.strict else ''}: {tried}, "
        f"{_many(report.derivations, 'derivation')}: {counts}."
    )


def _many(count: int, word: str) -> str:
    return f"{count:,} {word}{'' if count == 1 else 's'}"


def _json(report: LibraryChecked) -> dict[str, object]:
    return {
        "format": 1,
        "kind": "library check",
        "library": report.name,
        "strict": report.strict,
        "recipes": report.recipes,
        "pairs": report.pairs,
        "profiles": report.profiles,
        "derivations": report.derivations,
        "errors": report.errors,
        "hints": report.count("hint"),
        "skipped": report.count("skipped"),
        "findings": [
            {
                "number": item.number,
                "severity": item.severity,
                "file": item.file,
                "line": item.line,
                "message": item.message,
                "fix": item.fix,
            }
            for item in report.findings
        ],
        "changes": [line for block in _rule_blocks(report) for line in block if line],
        "since": report.changed.since,
        "effects": [effect_data(effect) for effect in report.changed.effects or ()],
    }
