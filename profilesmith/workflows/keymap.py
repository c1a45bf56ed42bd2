"""Key map check, for files: every binding read, and what does not fit."""

import re
from collections.abc import Sequence
from pathlib import Path

from profilesmith.engine.check_key_map import MapReport, report
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.text.document import Habits
from profilesmith.translation.document_to_profile import translate
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.read import read_documents, read_key_map
from profilesmith.workflows.request import Request

FORMS = ("terminal", "json")
HEAD = 20_000  # bytes in which a map says what it is


def in_order(key_map: str, bases: Sequence[str]) -> tuple[str, tuple[str, ...]]:
    """The map and the texts of a call, whichever came first: a map says so itself."""
    if len(bases) == 1 and _says_it_is_a_map(bases[0]) and not _says_it_is_a_map(key_map) and Path(key_map).is_file():
        return bases[0], (key_map,)
    return key_map, tuple(bases)


def _says_it_is_a_map(name: str) -> bool:
    try:
        path = Path(name)
        return path.is_file() and re.search(rb"^\s*\[keymap\]", path.read_bytes()[:HEAD], re.M) is not None
    except (OSError, ValueError):
        return False


def check_key_map(request: Request, form: str) -> MapReport:
    """Read the texts through the map. Raises Refused when map or texts cannot be read at all."""
    problems: list[Problem] = []
    key_map = read_key_map(request.key_map, request.library, problems)
    documents = read_documents(request.bases, key_map.habits if key_map else Habits(), problems)
    refuse_if(problems)
    assert key_map is not None
    return report(translate(documents, key_map, load_vocabulary()), form)
