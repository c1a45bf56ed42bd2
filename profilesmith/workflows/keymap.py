"""Key map check: every binding read, and what does not fit."""

import json
from typing import Any, NamedTuple

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.review.ledger_json import json_value, problem_json
from profilesmith.review.wording import show_values, visible
from profilesmith.text.document import Habits
from profilesmith.translation.document_to_profile import Translation, nearest_keys, translate
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.read import read_documents, read_key_map
from profilesmith.workflows.request import Request
from profilesmith.workflows.text_notes import reading_notes, unmapped_lines, unread_lines


class MapReport(NamedTuple):
    """text: to print. code: 0 when all is well, 1 when something is to be looked at, 2 when it cannot be used."""

    text: str
    code: int


def check_key_map(request: Request, form: str) -> MapReport:
    """Read the texts through the map. Raises Refused when map or texts cannot be read at all."""
    if form not in ("terminal", "json"):
        raise Refused([Problem("form", f"There is no form {form!r} here.", Place("--as"), "Write terminal or json.")])
    problems: list[Problem] = []
    key_map = read_key_map(request.key_map, request.library, problems)
    documents = read_documents(request.bases, key_map.habits if key_map else Habits(), problems)
    refuse_if(problems)
    assert key_map is not None
    translation = translate(documents, key_map, load_vocabulary())
    code = 2 if translation.problems else 1 if translation.profile.absent else 0
    return MapReport(_json(translation) if form == "json" else _text(translation), code)


def _text(translation: Translation) -> str:
    vocabulary = load_vocabulary()
    lines = [f"{visible(translation.key_map.name)}: {len(translation.key_map.bindings)} bindings"]
    lines += [f"  {note}" for note in reading_notes(translation)]
    lines += ["", "Read"]
    for name, entry in translation.profile.entries.items():
        origin = entry.origin
        value = show_values(vocabulary.settings[name], entry.values)
        lines.append(f"  {name:<31} {value:<14} {visible(origin.file)}:{origin.line} {visible(origin.key)} = {visible(origin.text)}")
    if translation.problems:
        lines += ["", "Wrong"]
        lines += [f"  {line}" for problem in translation.problems for line in visible_lines(problem)]
    if translation.profile.absent:
        lines += ["", "Not found"]
        lines += [f"  {name:<31} {_absent(translation, name)}" for name in translation.profile.absent]
    for title, found in (("Keys that no binding knows", unmapped_lines(translation)), ("Lines that are no setting", unread_lines(translation))):
        if found:
            lines += ["", f"{title}: {len(found)}"]
            lines += [f"  {line.file}:{line.line} {line.key}{' = ' if line.key else ''}{line.text}" for line in found]
    return "\n".join(lines) + "\n"


def _absent(translation: Translation, name: str) -> str:
    binding = translation.key_map.binding(name)
    near = nearest_keys(translation, binding.key) if binding is not None and name not in translation.spots else ""
    added = " It may be added (add = true)." if name in translation.profile.addable else ""
    return f"{visible(translation.profile.absent[name])}. {visible(near)}{added}".strip()


def visible_lines(problem: Problem) -> list[str]:
    """A problem as lines with strangers' text made visible."""
    return [visible(line) for line in str(problem).split("\n")]


def _json(translation: Translation) -> str:
    data: dict[str, Any] = {
        "format": 1, "kind": "profilesmith key map check", "key_map": translation.key_map.name,
        "read": [
            {"setting": name, "value": json_value(entry.values), "file": entry.origin.file, "line": entry.origin.line,
             "key": entry.origin.key, "text": entry.origin.text}
            for name, entry in translation.profile.entries.items()
        ],
        "problems": [problem_json(problem) for problem in translation.problems],
        "absent": {name: _absent(translation, name) for name in translation.profile.absent},
        "unmapped": [line._asdict() for line in unmapped_lines(translation)],
        "unread": [line._asdict() for line in unread_lines(translation)],
    }  # fmt: skip
    return json.dumps(data, ensure_ascii=False, indent=2) + "\n"
