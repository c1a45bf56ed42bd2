"""What a change of a library does to it, as findings: one for each cause and kind, with what shows where it reaches."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from profilesmith.foundation.words import plural
from profilesmith.lint.finding import LintFinding
from profilesmith.review.wording import visible
from profilesmith.workflows.library.effect_blocks import AlikeEffect, CauseBlock

STOPS, ALARMS = "T401", "T402"
WORST = 3  # of many that have one cause


def effect_findings(blocks: Sequence[CauseBlock]) -> Iterator[LintFinding]:
    """An error for what can be derived no longer, a hint for new and worse alarms: one for each cause and kind."""
    for block in blocks:
        stops, alarms = block.of("stops"), block.of("worse", "came")
        if stops:
            message = (
                f"{subject_words(block)}: {_count(stops)} that could be derived before no longer can: {_worst(stops)}"
            )
            fix = (
                "Loosen what stands against it, or give the rule a condition; say in the version that old "
                "results no longer hold."
            )
            yield lint_finding(STOPS, "error", block, message, fix)
        if alarms:
            message = f"{subject_words(block)}: new or worse alarms in {_count(alarms)}: {_worst(alarms)}"
            fix = "See 'What changes' of this check; mend what causes them, or take them on purpose."
            yield lint_finding(ALARMS, "hint", block, message, fix)


def lint_finding(number: str, severity: Any, block: CauseBlock, message: str, fix: str) -> LintFinding:
    return LintFinding(number, severity, block.causes[0].file, None, visible(message), visible(fix))


def subject_words(block: CauseBlock) -> str:
    """``gentle 1.0.0 → 1.1.0``, or the changed files of profiles."""
    if block.is_new:
        return f"{block.recipe} {block.version}, new"
    texts = [item for item in block.causes if item.kind == "text"]
    named = block.causes if len(texts) <= WORST else [item for item in block.causes if item.kind != "text"]
    files = [f"{item.kind} {item.name}{f' ({item.detail})' if item.detail else ''}" for item in named]
    files += [f"{len(texts)} texts"] if len(texts) > WORST else []
    if block.recipe:
        return "; and ".join([f"{block.recipe} {block.before} → {block.version}", *files[1:]])
    return "; ".join(files)


def alarm_words(item: AlikeEffect, short: bool = False) -> str:
    assert item.alarm is not None
    return f"{item.alarm.verdict}: {item.subject}" + ("" if short else f": {item.alarm.text}")


def _count(items: Sequence[AlikeEffect]) -> str:
    return plural(len({place for item in items for place in item.where}), "derivation")


def _worst(items: Sequence[AlikeEffect]) -> str:
    named = [f"{_what(item)} ({item.where[0]})" for item in items[:WORST]]
    left = sum(len(item.where) for item in items) - len(named)
    return "; ".join(named) + (f"; and {left} more" if left > 0 else "")


def _what(item: AlikeEffect) -> str:
    return item.message.rstrip(".") if item.kind == "stops" else f"{alarm_words(item, short=True)}"
