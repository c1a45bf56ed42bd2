"""A word that warns is a picture only where enough settings of one thing carry it; limits and sensors never are."""

from types import SimpleNamespace
from typing import Any

import pytest

from profilesmith.suggest.lexicon import Term
from profilesmith.suggest.relief import LIKELY, relieved_words
from profilesmith.suggest.score import DECOY, Scored

BLOCK = ("infill.density", "infill.pattern", "infill.speed", "infill.overlap")


def slot(word: str, around: str = "", firm: bool = False) -> Any:
    """A place whose key, or section, has one word that warns."""
    own = (Term(word, decoy=1.0, firm=firm),) if word else ()
    return SimpleNamespace(own=own, around=(Term(around, decoy=1.0),) if around else ())


def relieved(slots: list[Any], names: tuple[str, ...], score: float = LIKELY + 1, missing: int = 0) -> frozenset[str]:
    weights = [1.0 if item.own else 0.8 for item in slots]
    scores = [
        {name: Scored(score + DECOY * weight, None, 0.0, 0.0, missing)}  # type: ignore[arg-type]
        for name, weight in zip(names, weights, strict=True)
    ]
    schemas: Any = SimpleNamespace(named={name: SimpleNamespace(parts=()) for name in names})
    return relieved_words(slots, scores, schemas)


@pytest.mark.parametrize(("number", "word"), [(1, set()), (2, set()), (3, {"block"}), (4, {"block"})])
def test_three_settings_of_one_thing_make_a_picture(number: int, word: set[str]) -> None:
    """Fewer may be chance: a script for each of two things is a common text."""
    assert relieved([slot("block")] * number, BLOCK[:number]) == word


def test_settings_of_several_things_are_no_picture() -> None:
    assert relieved([slot("block")] * 3, ("infill.density", "support.density", "raft.layers")) == set()


def test_things_with_few_settings_of_their_own_are_known_by_none() -> None:
    assert relieved([slot("block")] * 3, ("bed.temperature", "bed.x", "bed.y")) == set()


def test_a_heading_warns_less_and_is_relieved_as_well() -> None:
    assert relieved([slot("", around="block")] * 3, BLOCK[:3]) == {"block"}


@pytest.mark.parametrize("word", ["limit", "sensor"])
def test_limits_and_sensors_get_no_relief(word: str) -> None:
    """What they hold looks like settings by nature: a highest speed is a speed."""
    assert relieved([slot(word)] * 4, BLOCK) == set()


def test_a_firm_word_two_words_or_a_poor_score_give_none() -> None:
    assert relieved([slot("block", firm=True)] * 3, BLOCK[:3]) == set()
    assert relieved([slot("block", around="macro")] * 3, BLOCK[:3]) == set()
    assert relieved([slot("block")] * 3, BLOCK[:3], score=LIKELY) == set()
    assert relieved([slot("block")] * 3, BLOCK[:3], missing=2) == set()
    assert relieved([slot("block")] * 3, BLOCK[:3], missing=1) == {"block"}
