"""What a key map's check says: for people, or as JSON."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem, did_you_mean
from profilesmith.ledger import Line
from profilesmith.ledger.exact import values_json
from profilesmith.ledger.file import problem_json
from profilesmith.profile.profile import absent_words
from profilesmith.review.findings.facts_words import far_off_settings
from profilesmith.review.reading_notes import reading_notes, unmapped_lines, unread_lines
from profilesmith.review.unread_lines import unread_sentence
from profilesmith.review.wording import show_values, visible
from profilesmith.translation.document_to_profile import Translation
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


class AlikeSetting(NamedTuple):
    """The setting that a key looks like. bound: to another key already."""

    setting: str
    bound: bool


Alike = Mapping[str, AlikeSetting]
"""Key as shown -> what it looks like, the likeliest first."""


def _like(like: AlikeSetting) -> str:
    return f"{like.setting}, which is bound already" if like.bound else like.setting


def map_text(translation: Translation, alike: Alike) -> str:
    """What was read, what is wrong, what was not found, and which keys nobody knows."""
    lines = [sentence, ""] if (sentence := unread_sentence(translation.documents)) else []
    lines += [f"{visible(translation.key_map.name)}: {len(translation.key_map.bindings)} bindings"]
    lines += [f"  {note}" for note in reading_notes(translation)]
    lines += ["", "Read", *_read_lines(translation)]
    if translation.problems:
        lines += ["", "Wrong"]
        lines += [f"  {line}" for problem in translation.problems for line in visible_lines(problem)]
    far = far_off_settings(translation.profile)
    if far:
        lines += ["", "Far from usual", *(f"  {visible(sentence)}." for sentence in far.values())]
    proposed = [name for name, absent in translation.profile.absent.items() if absent.code == "only proposed"]
    gone = [name for name in translation.profile.absent if name not in proposed]
    if gone:
        lines += ["", "Not found"]
        lines += [f"  {name:<31} {_absent(translation, name)}" for name in gone]
    if proposed:
        lines += ["", f'Proposed, not accepted yet: {len(proposed)} (take the "# " away from a block to accept it)']
        lines += [f"  {name:<31} {_absent(translation, name)}" for name in proposed]
    lines += _unmapped_text(translation, alike)
    unread = unread_lines(translation)
    if unread:
        lines += ["", f"Lines that are no setting: {len(unread)}"]
        lines += [f"  {line.file}:{line.line} {line.text}" for line in unread]
    return "\n".join(lines) + "\n"


def _read_lines(translation: Translation) -> list[str]:
    """Every value in its canonical unit; one that cannot be right is marked."""
    vocabulary, lines = load_vocabulary(), []
    for name, entry in translation.profile.entries.items():
        origin, setting = entry.origin, vocabulary.settings[name]
        wrong = any(setting.implausible(value) for value in entry.values)
        where = f"{visible(origin.file)}:{origin.line} {visible(origin.key)} = {visible(origin.text)}"
        lines.append(
            f"{'!' if wrong else ' '} {name:<31} {show_values(setting, entry.values):<14} "
            f"{where}{'  IMPLAUSIBLE' if wrong else ''}"
        )
    return lines


def _unmapped_text(translation: Translation, alike: Alike) -> list[str]:
    """The keys that no binding knows, those that look like print settings first."""
    unknown = unknown_lines(translation)
    if not unknown:
        return _left_alone(translation)
    first = [line for line in unknown if line.key in alike]
    rest = [line for line in unknown if line.key not in alike]
    order = list(alike)
    lines = ["", f"Keys that no binding knows: {len(unknown)}"]
    if first:
        lines.append(f"  {len(first)} that may be print settings:")
        for line in sorted(first, key=lambda line: order.index(line.key)):
            lines.append(f"    {line.file}:{line.line} {line.key} = {line.text}  (like {_like(alike[line.key])})")
        lines += [f"  {len(rest)} others:"] if rest else []
    lines += [f"    {line.file}:{line.line} {line.key} = {line.text}" for line in rest]
    return [*lines, *_left_alone(translation)]


def unknown_lines(translation: Translation) -> list[Line]:
    """The lines that no binding knows, less those that the map says are no settings."""
    key_map = translation.key_map
    places = [(held.assignment.section, held.assignment.key) for held in translation.unmapped]
    return [
        line
        for line, place in zip(unmapped_lines(translation), places, strict=True)
        if not key_map.leaves_alone(*place)
    ]


def _left_alone(translation: Translation) -> list[str]:
    """How many keys the map says are no settings, and those that it names and the text does not have."""
    names = translation.key_map.not_bound
    if not names:
        return []
    items = [item for document in translation.documents for item in document.assignments]
    there = {item.key for item in items} | {f"[{item.section}] {item.key}" for item in items}
    known = [item.key for item in items]
    lines = ["", f"Left alone, as the map says (not_bound): {sum(name in there for name in names)}"]
    return lines + [
        f"  {visible(name)} is not in the text. {visible(did_you_mean(name.rpartition('] ')[2], known))}".rstrip()
        for name in names
        if name not in there
    ]


def _absent(translation: Translation, name: str) -> str:
    added = " It may be added (add = true)." if name in translation.profile.addable else ""
    return f"{visible(absent_words(translation.profile.absent[name]))}.{added}".strip()


def visible_lines(problem: Problem) -> list[str]:
    """A problem as lines with strangers' text made visible."""
    return [visible(line) for line in str(problem).split("\n")]


def map_json(translation: Translation, alike: Alike) -> str:
    """The same as JSON."""
    far = far_off_settings(translation.profile)
    data: dict[str, Any] = {
        "format": 1,
        "kind": "profilesmith key map check",
        "key_map": translation.key_map.name,
        "read": [
            {
                "setting": name,
                "value": values_json(entry.values),
                "file": entry.origin.file,
                "line": entry.origin.line,
                "key": entry.origin.key,
                "text": entry.origin.text,
                "far_from_usual": far.get(name),
                "implausible": any(load_vocabulary().settings[name].implausible(value) for value in entry.values),
            }
            for name, entry in translation.profile.entries.items()
        ],
        "problems": [problem_json(problem) for problem in translation.problems],
        "absent": {name: _absent(translation, name) for name in translation.profile.absent},
        "proposed": {name: {"key": key, "line": line} for name, (key, line) in translation.key_map.proposed.items()},
        "unmapped": _unmapped_json(translation, alike),
        "left_alone": list(translation.key_map.not_bound),
        "unread": [line._asdict() for line in unread_lines(translation)],
    }
    return json.dumps(data, ensure_ascii=False, indent=2) + "\n"


def _unmapped_json(translation: Translation, alike: Alike) -> list[dict[str, Any]]:
    order = {key: number for number, key in enumerate(alike)}
    lines = sorted(unknown_lines(translation), key=lambda line: order.get(line.key, len(order)))
    names = {key: item.setting for key, item in alike.items()}
    return [{**line._asdict(), "looks_like": names.get(line.key)} for line in lines]
