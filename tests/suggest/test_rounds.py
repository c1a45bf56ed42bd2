"""Scores to probabilities: no slot has more than one setting, no setting more than one slot."""

from hypothesis import given
from hypothesis import strategies as st

from profilesmith.suggest.contrast import find_contrast
from profilesmith.suggest.detect_habits import find_habits, writing_of
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.rounds import weigh
from profilesmith.suggest.score import Scored
from profilesmith.suggest.slots import find_slots
from profilesmith.suggest.values import Way
from profilesmith.text.read_document import read_document

NAMES = ("bed.temperature", "first_layer.bed_temperature", "nozzle.temperature")
SCORES = st.lists(st.dictionaries(st.sampled_from(NAMES), st.floats(-8, 12), max_size=3), min_size=1, max_size=5)


def scored(rows: list[dict[str, float]]) -> list[dict[str, Scored]]:
    return [{name: Scored(score, Way(""), score, 0.0, 0) for name, score in row.items()} for row in rows]


@given(SCORES)
def test_rows_and_columns_hold_one_at_most(rows: list[dict[str, float]]) -> None:
    weights = weigh(scored(rows))
    assert all(sum(row.values()) <= 1 + 1e-9 for row in weights)
    assert all(sum(row.get(name, 0.0) for row in weights) <= 1 + 1e-9 for name in NAMES)


def test_what_another_slot_has_better_leaves_a_slot_to_its_next_setting() -> None:
    start = {"first_layer.bed_temperature": 9.0, "bed.temperature": 2.0}
    run = {"first_layer.bed_temperature": 5.0, "bed.temperature": 4.0}
    weights = weigh(scored([start, run]))
    assert weights[0]["first_layer.bed_temperature"] > 0.75
    assert weights[1]["bed.temperature"] > 0.75


def test_the_sibling_of_a_first_layers_key_is_none() -> None:
    """Two keys that differ by one word, of which one says the first layer: the other's word need not be known."""
    text = "tool.temp.start = 419\ntool.temp.blorp = 401\nplate.temp.start = 149\nply.height = 0.2\n"
    habits = find_habits([text])
    document = read_document(text.encode(), "base", habits)
    slots, _ = find_slots((document,), writing_of((document,), habits, load_lexicon()), load_lexicon())
    contrast = find_contrast(slots)
    costs = [contrast.cost("first_layer.nozzle_temperature", index) for index in range(len(slots))]
    assert costs[1] < 0
    assert (costs[0], costs[2], costs[3]) == (0, 0, 0)
