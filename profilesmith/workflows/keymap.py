"""Key map check, for files: every binding read, and what does not fit."""

from profilesmith.engine.check_key_map import MapReport, report
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.text.document import Habits
from profilesmith.translation.document_to_profile import translate
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.read import read_documents, read_key_map
from profilesmith.workflows.request import Request

FORMS = ("terminal", "json")


def check_key_map(request: Request, form: str) -> MapReport:
    """Read the texts through the map. Raises Refused when map or texts cannot be read at all."""
    problems: list[Problem] = []
    key_map = read_key_map(request.key_map, request.library, problems)
    documents = read_documents(request.bases, key_map.habits if key_map else Habits(), problems)
    refuse_if(problems)
    assert key_map is not None
    return report(translate(documents, key_map, load_vocabulary()), form)
