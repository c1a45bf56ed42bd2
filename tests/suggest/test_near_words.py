"""Slips and words of one stem."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.suggest.key_words import stem
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.near_words import KIN, SLIP, Near, by_beginning, is_slip, nearest

LISTED = by_beginning(["width", "inner", "souffle", "infill", "first", "fan", "bord"])
WORDS = st.text("abcdefgh", min_size=4, max_size=9)


@pytest.mark.parametrize(
    ("word", "near"),
    [
        ("widht", Near("width", SLIP)),
        ("iner", Near("inner", SLIP)),
        ("infiil", Near("infill", SLIP)),
        ("frist", Near("first", SLIP)),
        ("fisrt", Near("first", SLIP)),
        ("soufflerie", Near("souffle", KIN)),
        ("rfist", None),  # begins otherwise
        ("board", None),  # a word of its own
        ("fantasy", None),
        ("in", None),
    ],
)
def test_a_word_means_what_it_looks_like(word: str, near: Near | None) -> None:
    assert nearest(word, LISTED) == near


@given(WORDS, st.integers(0, 7))
def test_two_letters_that_changed_places_are_a_slip(word: str, at: int) -> None:
    at = min(at, len(word) - 2)
    swapped = word[:at] + word[at + 1] + word[at] + word[at + 2 :]
    assert is_slip(swapped, word) == (swapped != word)


@given(WORDS, WORDS)
def test_a_slip_is_one_either_way(one: str, other: str) -> None:
    if len(one) == len(other):
        assert is_slip(one, other) == is_slip(other, one)


@pytest.mark.parametrize(
    ("words", "idea"),
    [("filament withdraws", "retraction"), ("beads acros gaps", "bridge"), ("outter wal", "outer")],
)
def test_a_text_with_slips_is_read(words: str, idea: str) -> None:
    assert idea in {idea for term in load_lexicon().read(words.split()) for idea in term.ideas}


def test_forms_of_a_word_have_one_stem() -> None:
    assert len({stem(word) for word in ("pulling", "pulls", "pull")}) == 1
    assert stem("blower") != stem("blows")
    assert stem("heated") != stem("heat")
