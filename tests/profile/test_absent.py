"""Why a setting has no value: a maker mends the map or the text by it, so each reason says where to look."""

from __future__ import annotations

import pytest

from profilesmith.profile.profile import ABSENT, Absent, absent_words

REASONS = [
    (Absent("key missing", ("a", "", "")), "the key 'a' is not in the text", True),
    (Absent("key missing", ("a", "", "b")), "the key 'a' is not in the text (did you mean 'b'?)", True),
    (Absent("key missing", ("a", "x", "")), "the key 'a' is not in the text in section 'x'", True),
    (Absent("key elsewhere", ("a", "x", "y", "z")), "the key 'a' is not in section 'x', but in 'y', 'z'", True),
    (Absent("key elsewhere", ("a", "", "y")), "the key 'a' is not, but in 'y'", True),
    (Absent("key blank", ("a", "base.cfg:3")), "the key 'a' has no value in base.cfg:3", True),
    (Absent("key is zero", ("a",)), "it is a share of 'a', which is 0", False),
    (Absent("key has no value", ("a",)), "it is a share of 'a', which has no value", False),
    (Absent("reference has no value", ("a.b",)), "it is a share of a.b, which has no value here", False),
    (Absent("only proposed", ("a", "m.toml:3")), "proposed at m.toml:3 ('a'), not accepted yet", False),
]


@pytest.mark.parametrize(("absent", "words", "slip"), REASONS)
def test_each_reason(absent: Absent, words: str, slip: bool) -> None:
    assert (absent_words(absent), absent.is_slip) == (words, slip)


def test_every_reason_is_here() -> None:
    assert {absent.code for absent, _, _ in REASONS} == set(ABSENT)
