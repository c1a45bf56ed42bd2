"""What people say of settings in words: all layers but the first, counts with a noun, shares of a key, lists above."""

import pytest

from profilesmith.engine.read import Source
from profilesmith.engine.suggest import suggest
from profilesmith.suggest.proposal import CHECK, SURE, Proposal

HEAD = """# lengths mm, paces mm/s, heat C
[heat]
tip, opening layer = 214
tip afterwards = 207
bed, opening layer = 62
bed afterwards = 56
tip may never pass = 280
[pace]
outside wall = 36
walls behind it = 55
filling = 72
lids = 70 % of walls behind it
hopping about = 150
belts are good for = 300
[wind]
part fan = 100 %
still for the first = 2 layers
never below = 30 %
[foot]
# one of these: nothing, ring, brim, raft
under the part = brim
"""


@pytest.fixture(scope="module")
def proposals() -> dict[str, Proposal]:
    found = suggest((Source("my.settings", HEAD.encode()),), "my-bench")
    return {item.setting: item for item in found.suggestion.proposals}


@pytest.mark.parametrize(
    ("setting", "key"),
    [
        ("first_layer.nozzle_temperature", "tip, opening layer"),
        ("nozzle.temperature", "tip afterwards"),
        ("first_layer.bed_temperature", "bed, opening layer"),
        ("bed.temperature", "bed afterwards"),
        ("top.speed", "lids"),
        ("travel.speed", "hopping about"),
        ("fan.off_layers", "still for the first"),
        ("brim.on", "under the part"),
        ("raft.on", "under the part"),
    ],
)
def test_each_key_is_proposed(setting: str, key: str, proposals: dict[str, Proposal]) -> None:
    assert proposals[setting].key == key


def test_the_share_names_what_it_is_of(proposals: dict[str, Proposal]) -> None:
    assert proposals["top.speed"].binding["relative_to"] == "inner_wall.speed"


def test_a_count_with_its_noun_has_no_unit(proposals: dict[str, Proposal]) -> None:
    assert "unit" not in proposals["fan.off_layers"].binding


def test_a_list_above_the_key_tells_its_texts(proposals: dict[str, Proposal]) -> None:
    on, off = proposals["brim.on"].binding["on"], proposals["brim.on"].binding["off"]
    assert (on, off, proposals["raft.on"].binding["on"]) == ("brim", "nothing", "raft")


def test_limits_are_never_sure(proposals: dict[str, Proposal]) -> None:
    limits = {"tip may never pass", "belts are good for"}
    assert [item for item in proposals.values() if item.key in limits and item.certainty == SURE] == []
    assert {item.certainty for item in proposals.values()} <= {SURE, CHECK}
