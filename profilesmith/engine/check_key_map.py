"""Key map check: every binding read, and what does not fit."""

import json
from collections.abc import Sequence
from typing import Any

from profilesmith.checks.usual import unusual
from profilesmith.engine.read import translation_of
from profilesmith.engine.source import Source
from profilesmith.engine.text_notes import reading_notes, unmapped_lines, unread_lines
from profilesmith.engine.unread import unread_sentence, unread_settings
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem, did_you_mean
from profilesmith.ledger import Line
from profilesmith.ledger.exact import values_json
from profilesmith.ledger.file import problem_json
from profilesmith.profile.absent import absent_words
from profilesmith.review.wording import show_values, visible
from profilesmith.translation.document_to_profile import Translation
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


class MapReport(NamedTuple):
    """text: to print. code: 0 when all is well, 1 when something is to be looked at, 2 when it cannot be used."""

    text: str
    code: int


def check_key_map(bases: Sequence[Source], key_map: Source, form: str) -> MapReport:
    """Read the texts through the map. Raises Refused when map or texts cannot be read at all."""
    return report(translation_of(bases, key_map), form)


def report(translation: Translation, form: str) -> MapReport:
    """What texts read as, and what is wrong with it. form: ``terminal`` or ``json``."""
    gone = [absent for absent in translation.profile.absent.values() if absent.code != "only proposed"]
    look = (gone, dict(unusual(translation.profile)), unread_settings(translation))
    code = 2 if translation.problems else 1 if any(look) else 0
    return MapReport(_json(translation) if form == "json" else _text(translation), code)


def _text(translation: Translation) -> str:
    lines = [unread_sentence(translation), ""] if unread_settings(translation) else []
    lines += [f"{visible(translation.key_map.name)}: {len(translation.key_map.bindings)} bindings"]
    lines += [f"  {note}" for note in reading_notes(translation)]
    lines += ["", "Read", *_read_lines(translation)]
    if translation.problems:
        lines += ["", "Wrong"]
        lines += [f"  {line}" for problem in translation.problems for line in visible_lines(problem)]
    far = dict(unusual(translation.profile))
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
    lines += _unmapped_text(translation)
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


def _unmapped_text(translation: Translation) -> list[str]:
    """The keys that no binding knows, those that look like print settings first."""
    unknown = _unknown(translation)
    if not unknown:
        return _left_alone(translation)
    like = _lookalikes(translation)
    first = [line for line in unknown if line.key in like]
    rest = [line for line in unknown if line.key not in like]
    order = list(like)
    lines = ["", f"Keys that no binding knows: {len(unknown)}"]
    if first:
        lines.append(f"  {len(first)} that may be print settings:")
        for line in sorted(first, key=lambda line: order.index(line.key)):
            lines.append(f"    {line.file}:{line.line} {line.key} = {line.text}  (like {like[line.key]})")
        lines += [f"  {len(rest)} others:"] if rest else []
    lines += [f"    {line.file}:{line.line} {line.key} = {line.text}" for line in rest]
    return [*lines, *_left_alone(translation)]


def _unknown(translation: Translation) -> list[Line]:
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


def _lookalikes(translation: Translation) -> dict[str, str]:
    """Key as shown -> the setting that it looks like, the likeliest first."""
    from profilesmith.suggest.lookalikes import lookalikes  # only where some key is unknown

    unknown = ((line.assignment.section, line.assignment.key) for line in translation.unmapped)
    places = {place for place in unknown if not translation.key_map.leaves_alone(*place)}
    alike = lookalikes(translation.documents, translation.key_map, places)
    result = {}
    for (section, key), like in alike.items():
        shown = visible(f"[{section}] {key}" if section else key)
        result[shown] = f"{like.setting}, which is bound already" if like.bound else like.setting
    return result


def _absent(translation: Translation, name: str) -> str:
    added = " It may be added (add = true)." if name in translation.profile.addable else ""
    return f"{visible(absent_words(translation.profile.absent[name]))}.{added}".strip()


def visible_lines(problem: Problem) -> list[str]:
    """A problem as lines with strangers' text made visible."""
    return [visible(line) for line in str(problem).split("\n")]


def _json(translation: Translation) -> str:
    far = dict(unusual(translation.profile))
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
        "unmapped": _unmapped_json(translation),
        "left_alone": list(translation.key_map.not_bound),
        "unread": [line._asdict() for line in unread_lines(translation)],
    }
    return json.dumps(data, ensure_ascii=False, indent=2) + "\n"


def _unmapped_json(translation: Translation) -> list[dict[str, Any]]:
    like = _lookalikes(translation)
    order = {key: number for number, key in enumerate(like)}
    lines = sorted(_unknown(translation), key=lambda line: order.get(line.key, len(order)))
    return [{**line._asdict(), "looks_like": like.get(line.key, "").partition(",")[0] or None} for line in lines]
