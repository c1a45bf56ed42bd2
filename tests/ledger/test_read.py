"""What is no ledger of ours, told as it stands."""

import pytest

from profilesmith.foundation.problem import Problem
from profilesmith.ledger.read import read_ledger
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


@pytest.mark.parametrize(
    ("said", "named"), [("7", "format 7;"), ("3.5", "format 7/2;"), ("null", "a format that is no number;")]
)
def test_another_format_is_named_as_it_stands(said: str, named: str) -> None:
    found = read_ledger(f'{{"kind": "profilesmith ledger", "format": {said}}}', "l", load_vocabulary())
    assert isinstance(found, Problem)
    assert found.code == "newer-format"
    assert named in found.message
