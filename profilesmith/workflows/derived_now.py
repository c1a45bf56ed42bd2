"""A derived file as it reads now."""

from __future__ import annotations

from pathlib import Path

from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.ledger.read import Stored
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.read import read_documents, read_key_map
from profilesmith.workflows.request import Request
from profilesmith.workflows.request_again import derived_paths, key_map_word


def read_now(derived: str, stored: Stored, request: Request) -> Translation:
    """A derived file as it is now. Raises Refused."""
    problems: list[Problem] = []
    key_map = read_key_map(request.key_map or key_map_word(stored, Path(derived).parent), request.library, problems)
    refuse_if(problems)
    assert key_map is not None
    documents = read_documents(map(str, derived_paths([derived], stored)), key_map.habits, problems)
    refuse_if(problems)
    now = translate(documents, key_map, load_vocabulary())
    refuse_if(now.problems)
    return now
