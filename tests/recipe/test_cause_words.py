"""A cause in words: a maker reads who asks what, and looks there."""

from __future__ import annotations

from fractions import Fraction

import pytest

from profilesmith.ledger import Asked, Cause, Operand
from profilesmith.recipe.cause_words import asked_words, cause_name, demand_words, operand_words
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

F = Fraction
WALL, HEAT = "outer_wall.speed", "nozzle.temperature"
SPEEDS = (Asked("", (F(40), F(50), F(40))),)


@pytest.mark.parametrize(
    ("cause", "name", "words"),
    [
        (Cause("rule", recipe="soft", version="1.0.0", rule=2, asked=(Asked("cap", (F(40),)),)), "soft 1.0.0, rule 2",
         "at most 40 mm/s"),
        (Cause("rule", recipe="soft", version="1.0.0"), "soft 1.0.0", ""),
        (Cause("rule", recipe="soft"), "soft", ""),
        (Cause("rule", recipe="soft", rule=1, words="as it was said"), "soft, rule 1", "as it was said"),
        (Cause("plausible range"), "vocabulary", "within 1 to 1000 mm/s"),
        (Cause("machine limit", asked=(Asked("cap", (F(40),)),)), "machine limit", "at most 40 mm/s"),
        (Cause("share", subject="infill.speed"), "the text itself", "a share of infill.speed"),
        (Cause("held share", asked=SPEEDS), "the text itself", "keeps 40 mm/s | 50 mm/s"),
        (Cause("stuck share", asked=SPEEDS), "the text itself", "keeps 40 mm/s | 50 mm/s"),
        (Cause("added key", asked=SPEEDS), "the text itself", "40 mm/s | 50 mm/s"),
        (Cause("same key", subject="raft.on"), "the text itself", "the same key as raft.on"),
        (Cause("one key", subject="raft.on"), "the text itself", "off while raft.on is on"),
        (Cause("reads as on", subject="raft.on"), "the text itself", "enough to read as on for raft.on"),
        (Cause("start block", subject=HEAT), "start block", f"the same as {HEAT}"),
        (Cause("hand edit", quoted=("40", "")), "hand edit", "40 → nothing"),
        (Cause("share of hand edit", subject=WALL), "hand edit", f"written relative to {WALL}"),
    ],
)  # fmt: skip
def test_who_and_what(cause: Cause, name: str, words: str) -> None:
    assert (cause_name(cause), demand_words(cause, load_vocabulary().settings[WALL])) == (name, words)


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ([Asked("cap", (F(40),), (Operand("fixed", "40 mm/s"),))], "at most 40 mm/s"),
        ([Asked("cap", (), (Operand("fact", "spool.maximum_flow", flow=True),))],
         "cap the speed at which the bead needs spool.maximum_flow"),
        ([Asked("cap", (), (Operand("input", "pace"),))], "cap the answer to pace"),
        ([Asked("window", (F(30), F(40)), ())], "30 mm/s to 40 mm/s"),
        ([Asked("scale", (F(70),), (Operand("fixed", "70 %"),))], "times 70 %"),
        ([Asked("shift", (F(5),), (Operand("fixed", "5 mm/s"),))], "plus 5 mm/s"),
        ([Asked("cap", (F(40),)), Asked("raise_to", (F(20),))], "at most 40 mm/s, at least 20 mm/s"),
        ([], ""),
    ],
)  # fmt: skip
def test_what_a_rule_asks(asked: list[Asked], words: str) -> None:
    assert asked_words(asked, load_vocabulary().settings[WALL]) == words


@pytest.mark.parametrize(
    ("operand", "words"),
    [
        (Operand("setting", WALL), WALL),
        (Operand("setting", WALL, F("1.5"), "3 mm/s"), f"1.5 × {WALL} plus 3 mm/s"),
        (Operand("setting", WALL, F(1), "3 mm/s"), f"{WALL} plus 3 mm/s"),
        (Operand("setting", WALL, F(2)), f"2 × {WALL}"),
        (Operand("input", "pace"), "the answer to pace"),
        (Operand("fact", "spool.maximum_flow"), "spool.maximum_flow"),
        (Operand("fixed", "4 mm3/s", flow=True), "the speed at which the bead needs 4 mm3/s"),
    ],
)
def test_what_stands_in_place_of_a_value(operand: Operand, words: str) -> None:
    assert operand_words(operand) == words
