"""A suggestion in words for a terminal, and as JSON."""

import json
from typing import Any

from profilesmith.review.wording import visible
from profilesmith.suggest.proposal import CHECK, SURE, Proposal, Suggestion
from profilesmith.suggest.update_map import Update
from profilesmith.workflows.suggest import Outcome

MOST_LEFTOVER = 12


def suggestion_text(outcome: Outcome, written: str, update: Update | None, accepted: bool) -> str:
    """The groups, what was written, and what to do next."""
    suggestion = outcome.suggestion
    lines = [_habits(outcome), ""]
    lines += _group("Sure", suggestion.of(SURE), False)
    lines += _group("To be checked", suggestion.of(CHECK), True)
    if suggestion.missing:
        lines += [f"Not found: {len(suggestion.missing)}", f"  {', '.join(suggestion.missing)}", ""]
    if suggestion.leftover:
        lines += [f"Keys that nothing is proposed for: {len(suggestion.leftover)}"]
        lines += [f"  {visible(name)}" for name in suggestion.leftover[:MOST_LEFTOVER]]
        more = len(suggestion.leftover) - MOST_LEFTOVER
        lines += [f"  and {more} more", ""] if more > 0 else [""]
    return "\n".join([*lines, *_ending(suggestion, written, update, accepted)]) + "\n"


def _habits(outcome: Outcome) -> str:
    text, first = outcome.suggestion.text, outcome.documents[0]
    names = ", ".join(visible(document.name) for document in outcome.documents)
    sections = "with sections" if any(document.headings for document in outcome.documents) else "without sections"
    comments = text["comments"]
    marks = " ".join(comments) if isinstance(comments, list) else ""
    return (
        f"{names}: {first.codec} text {sections}, delimiter {text['delimiter']!r}, comments {marks or 'none'}, "
        f"decimal mark {text['decimal']!r}, lists with {text['list']!r}."
    )


def _group(title: str, proposals: tuple[Proposal, ...], doubts: bool) -> list[str]:
    if not proposals:
        return []
    lines = [f"{title}: {len(proposals)}"]
    for item in proposals:
        section = f"[{item.section}] " if item.section else ""
        lines.append(f"  {item.setting:<31} {item.value:<14} line {item.line:<4} {visible(f'{section}{item.key} = {item.text}')}")
        if doubts:
            others = "; ".join(f"{other.name} (line {other.line})" for other in item.alternatives)
            ask = " ".join(item.doubts) + (f" Or: {others}" if others else "")
            lines.append(f"    {visible(ask)}")
    return [*lines, ""]


def _ending(suggestion: Suggestion, written: str, update: Update | None, accepted: bool) -> list[str]:
    if not written:
        return ["Nothing was written. Name a file with -o to write the map."]
    if update is not None:
        parts = [f"{len(update.added)} added", f"{len(update.gone)} gone from the text", f"{len(update.back)} back again"]
        return [f"{written} was brought up to date: {', '.join(parts)}. What stood there is kept."]
    lines = [f"{written} was written."]
    if suggestion.of(CHECK) and not accepted:
        lines.append('What is to be checked stands in it behind "# ": open the file and take that away where it is right,')
        lines.append("or go through it with --ask.")
    if not suggestion.of(SURE) and not accepted:
        lines.append("Nothing in it is active yet: it can be used once a block has been accepted.")
    return lines


def suggestion_json(outcome: Outcome, written: str) -> str:
    """Everything, for other programs."""
    suggestion = outcome.suggestion
    data: dict[str, Any] = {
        "format": 1, "kind": "profilesmith key map suggestion", "written": written or None,
        "language": suggestion.language, "text": dict(suggestion.text),
        "sure": [_entry(item) for item in suggestion.of(SURE)], "check": [_entry(item) for item in suggestion.of(CHECK)],
        "missing": list(suggestion.missing), "leftover": list(suggestion.leftover),
    }  # fmt: skip
    return json.dumps(data, ensure_ascii=False, indent=2) + "\n"


def _entry(item: Proposal) -> dict[str, Any]:
    return {
        "setting": item.setting, "section": item.section, "key": item.key, "value": item.value, "file": item.file,
        "line": item.line, "text": item.text, "binding": dict(item.binding), "reasons": list(item.reasons),
        "doubts": list(item.doubts),
        "alternatives": [{"name": other.name, "text": other.text, "line": other.line} for other in item.alternatives],
    }  # fmt: skip
