"""Findings as text: lines for a terminal, plain lines that a pull request can show, and JSON (``lint.schema.json``)."""

import json
from collections import Counter
from collections.abc import Iterable, Sequence

from profilesmith.lint.finding import LintFinding
from profilesmith.review.wording import visible

FORMS = ("terminal", "plain", "json")


def render(findings: Sequence[LintFinding], form: str) -> str:
    """Findings in one of FORMS."""
    return {"terminal": render_terminal, "plain": render_plain, "json": render_json}[form](findings)


def render_terminal(findings: Sequence[LintFinding]) -> str:
    """One finding a paragraph, then a line that counts them."""
    lines: list[str] = []
    for item in findings:
        lines += [f"{item.place}: {item.severity} {item.number}", f"  {item.message}", f"  {item.fix}"]
    return "\n".join([*(visible(line) for line in lines), count_line(findings)]) + "\n"


def count_line(findings: Iterable[LintFinding]) -> str:
    """``2 errors, 1 hint``; a rule that was skipped is counted too."""
    counts = Counter(item.severity for item in findings)
    said = [f"{counts[kind]} {kind}{'' if counts[kind] == 1 else 's'}" for kind in ("error", "hint") if counts[kind]]
    if counts["skipped"]:
        said.append(f"{counts['skipped']} rule{'' if counts['skipped'] == 1 else 's'} skipped")
    return ", ".join(said) or "nothing to complain about"


def render_plain(findings: Sequence[LintFinding]) -> str:
    """``file:line: severity R104 message``, one line each. Line 1 stands for the whole file, so that every line has
    one.
    """
    return "".join(
        f"{visible(f'{item.file}:{item.line or 1}: {item.severity} {item.number} {item.message}')}\n"
        for item in findings
    )


def render_json(findings: Sequence[LintFinding]) -> str:
    """A document that fits ``knowledge/lint.schema.json``. Nothing is escaped twice: JSON does it."""
    counts = Counter(item.severity for item in findings)
    document = {
        "format": 1,
        "kind": "profilesmith lint",
        "errors": counts["error"],
        "hints": counts["hint"],
        "skipped": counts["skipped"],
        "findings": [item._asdict() for item in findings],
    }
    return json.dumps(document, ensure_ascii=True, indent=2) + "\n"
