"""A suggestion in words for a terminal, and as JSON."""

import json
from typing import Any

from profilesmith.engine.suggest import SuggestedMap
from profilesmith.foundation.words import plural
from profilesmith.review.unread_lines import unread_sentence
from profilesmith.review.wording import visible
from profilesmith.suggest.proposal import CHECK, SURE, Proposal, Suggestion
from profilesmith.suggest.update_map import Update
from profilesmith.translation.key_map import KeyMap

MOST_LEFTOVER = 12


def suggestion_text(outcome: SuggestedMap, written: str, update: Update | None, accepted: bool) -> str:
    """The groups, what was written, and what to do next."""
    suggestion, waiting = outcome.suggestion, outcome.waiting
    fresh = suggestion._replace(proposals=tuple(item for item in suggestion.proposals if item.setting not in waiting))
    unread = unread_sentence(outcome.documents)
    lines = [unread, ""] if unread else []
    lines += [_habits(outcome), ""]
    lines += _group("New, and sure" if outcome.old else "Sure", fresh.of(SURE), False)
    lines += _group("New, to be checked" if outcome.old else "To be checked", fresh.of(CHECK), True)
    lines += _in_the_map(outcome.old, sorted(waiting - outcome.taken))
    if suggestion.missing:
        lines += [f"Not found: {len(suggestion.missing)}", f"  {', '.join(suggestion.missing)}", ""]
    if suggestion.leftover:
        lines += [f"Keys that nothing is proposed for: {len(suggestion.leftover)}"]
        lines += [f"  {visible(name)}" for name in suggestion.leftover[:MOST_LEFTOVER]]
        more = len(suggestion.leftover) - MOST_LEFTOVER
        lines += [f"  and {more} more", ""] if more > 0 else [""]
    if suggestion.left_alone:
        lines += [f"Left alone, as the map says (not_bound): {len(suggestion.left_alone)}", ""]
    return "\n".join([*lines, *_ending(fresh, written, update, accepted)]) + "\n"


def _in_the_map(old: KeyMap | None, waiting: list[str]) -> list[str]:
    """What the map that is brought up to date holds already."""
    if old is None:
        return []
    lines = [f"In the map already: {plural(len(old.bindings), 'binding')}"]
    lines += [f'Waiting in it behind "# ": {len(waiting)}', f"  {', '.join(waiting)}"] if waiting else []
    return [*lines, ""]


def _habits(outcome: SuggestedMap) -> str:
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
        lines.append(
            f"  {item.setting:<31} {item.value:<14} line {item.line:<4} {visible(f'{section}{item.key} = {item.text}')}"
        )
        if doubts:
            lines += [f"    {visible(doubt)}" for doubt in item.doubts]
            others = "; ".join(f"{other.name} (line {other.line})" for other in item.alternatives)
            lines += [f"    or: {visible(others)}"] if others else []
    return [*lines, ""]


def _ending(suggestion: Suggestion, written: str, update: Update | None, accepted: bool) -> list[str]:
    if not written:
        return ["Nothing was written. Name a file with -o to write the map."]
    if update is not None:
        return _brought_up(written, update)
    lines = [f"{written} was written."]
    if suggestion.of(CHECK) and not accepted:
        lines.append(
            'What is to be checked stands in it behind "# ": open the file and take that away where it is right,'
        )
        lines.append("or go through it with --ask.")
    if not suggestion.of(SURE) and not accepted:
        lines.append("Nothing in it is active yet: it can be used once a block has been accepted.")
    return lines


def _brought_up(written: str, update: Update) -> list[str]:
    """What was changed in a map that existed, by name where that is not on the screen yet."""
    parts = [f"{len(update.added)} added"]
    for names, what in (
        (update.accepted, "accepted"),
        (update.gone, "gone from the text"),
        (update.back, "back again"),
    ):
        parts += [f"{len(names)} {what} ({', '.join(names)})"] if names else []
    lines = [f"{written} was brought up to date: {'; '.join(parts)}. What stood there is kept."]
    if update.added:
        lines.append(
            "To keep a proposal away for good, delete its block and write its key into not_bound below [keymap]."
        )
    return lines


def suggestion_json(outcome: SuggestedMap, written: str) -> str:
    """Everything, for other programs."""
    suggestion = outcome.suggestion
    data: dict[str, Any] = {
        "format": 1,
        "kind": "profilesmith key map suggestion",
        "written": written or None,
        "language": suggestion.language,
        "text": dict(suggestion.text),
        "sure": [_entry(item) for item in suggestion.of(SURE)],
        "check": [_entry(item) for item in suggestion.of(CHECK)],
        "missing": list(suggestion.missing),
        "leftover": list(suggestion.leftover),
        "left_alone": list(suggestion.left_alone),
        "waiting": sorted(outcome.waiting - outcome.taken),
    }
    return json.dumps(data, ensure_ascii=False, indent=2) + "\n"


def _entry(item: Proposal) -> dict[str, Any]:
    return {
        "setting": item.setting,
        "section": item.section,
        "key": item.key,
        "value": item.value,
        "file": item.file,
        "line": item.line,
        "text": item.text,
        "binding": dict(item.binding),
        "reasons": list(item.reasons),
        "doubts": list(item.doubts),
        "alternatives": [{"name": other.name, "text": other.text, "line": other.line} for other in item.alternatives],
    }
