"""Settings merged by meaning: the laws, for random values of one to three tools, with and without shares."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from profilesmith.merge.decision import AGREED, CONFLICT, KEPT
from profilesmith.merge.held import HeldValue, Holding, same
from profilesmith.merge.settings import ProfileSides, SettingMerge, merge_settings
from profilesmith.merge.three_way import alike, meet_all
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

NAMES = ("outer_wall.speed", "inner_wall.speed", "infill.density", "raft.layers", "support.on")
VALUES = st.sampled_from((20, 30, 40)).map(lambda number: HeldValue(Fraction(number)))
SHARES = st.sampled_from((50, 80)).map(
    lambda share: HeldValue(Fraction(share), Fraction(share, 100), "outer_wall.speed")
)
HOLDINGS = st.lists(st.one_of(VALUES, VALUES, SHARES), min_size=1, max_size=3).map(tuple)
SWITCHES = st.sampled_from((HeldValue(True, text="3"), HeldValue(True, text="4"), HeldValue(False, text="0"))).map(
    lambda held: (held,)
)
SIDES = st.builds(
    lambda numbers, switch: numbers | switch,
    st.dictionaries(st.sampled_from(NAMES[:-1]), HOLDINGS),
    st.dictionaries(st.just(NAMES[-1]), SWITCHES),
)
THREE = st.builds(ProfileSides, SIDES, SIDES, SIDES)


def merge(sides: ProfileSides, choose: str = "") -> dict[str, SettingMerge]:
    return {item.setting: item for item in merge_settings(sides, {}, load_vocabulary(), lambda decision: choose)}


def held(sides: ProfileSides, found: dict[str, SettingMerge], name: str) -> Holding:
    """What the new text is to hold in the end."""
    item = found.get(name)
    return sides.theirs.get(name, ()) if item is None or item.holding is None else item.holding


@settings(max_examples=300, deadline=None, derandomize=True)
@given(THREE, st.sampled_from(("base", "derived")))
def test_no_edit_of_a_hand_goes_without_a_decision(sides: ProfileSides, choose: str) -> None:
    found = merge(sides, choose)
    for name in NAMES:
        old, mine, theirs = (side.get(name, ()) for side in sides)
        assert (name in found) == (not alike(mine, old, same))
        if name in found and found[name].decision.outcome in (KEPT, AGREED) and len(mine) == len(old) == len(theirs):
            tools = zip(held(sides, found, name), old, mine, theirs, strict=True)
            assert all(same(got, edited if not same(edited, was) else new) for got, was, edited, new in tools)


@settings(max_examples=300, deadline=None, derandomize=True)
@given(THREE)
def test_a_conflict_never_vanishes_whoever_is_preferred(sides: ProfileSides) -> None:
    told = [
        {name for name, item in merge(sides, choose).items() if item.decision.outcome == CONFLICT}
        for choose in ("", "base", "derived")
    ]
    assert told[0] == told[1] == told[2]
    turned = merge(ProfileSides(sides.old, sides.theirs, sides.mine))
    assert {name for name, item in turned.items() if item.decision.outcome == CONFLICT} == told[0]
    assert all(item.decision.chosen == "" for item in merge(sides).values() if item.decision.outcome == CONFLICT)


@settings(max_examples=200, deadline=None, derandomize=True)
@given(THREE)
def test_agreement_is_symmetric(sides: ProfileSides) -> None:
    mine = {name for name, item in merge(sides).items() if item.decision.outcome == AGREED}
    theirs = {
        name
        for name, item in merge(ProfileSides(sides.old, sides.theirs, sides.mine)).items()
        if item.decision.outcome == AGREED
    }
    for name in mine ^ theirs:  # one tool agrees, another was moved on one side alone: agreed from where it did not
        verdicts = meet_all(*(side.get(name, ()) for side in sides), same)
        assert "agreed" in verdicts
        assert ("mine" in verdicts) == (name in theirs)
        assert ("theirs" in verdicts) == (name in mine)


@settings(max_examples=200, deadline=None, derandomize=True)
@given(SIDES, SIDES)
def test_identity(old: dict[str, Holding], other: dict[str, Holding]) -> None:
    assert merge(ProfileSides(old, old, other)) == {}
    alone = ProfileSides(old, other, old)
    found = merge(alone)
    assert all(alike(held(alone, found, name), other.get(name, ()), same) for name in NAMES)
    assert {item.decision.outcome for item in found.values()} <= {KEPT}


def test_a_switch_s_text_is_told_where_the_word_does_not_tell() -> None:
    sides = ProfileSides(*({"support.on": (HeldValue(True, text=text),)} for text in ("3", "4", "2")))
    found = merge(sides, "derived")["support.on"]
    assert (found.decision.was, found.decision.hand, found.decision.new) == ('on ("3")', 'on ("4")', 'on ("2")')
    assert found.texts == ("4",)
    plain = merge(
        ProfileSides(
            *({"support.on": (HeldValue(on, text=text),)} for on, text in ((False, "0"), (True, "4"), (False, "0")))
        )
    )
    assert (plain["support.on"].decision.was, plain["support.on"].decision.hand) == ("off", "on")


def test_a_switch_goes_with_its_number() -> None:
    def side(number: int, on: bool) -> dict[str, Holding]:
        return {"raft.layers": (HeldValue(Fraction(number)),), "raft.on": (HeldValue(on),)}

    sides = ProfileSides(side(0, False), side(4, True), side(2, True))
    for choose, number in (("base", None), ("derived", 4)):
        found = {
            item.setting: item
            for item in merge_settings(
                sides, {"raft.on": "raft.layers"}, load_vocabulary(), lambda decision, side=choose: side
            )
        }  # type: ignore[misc]
        assert found["raft.layers"].holding == (None if number is None else (HeldValue(Fraction(number)),))
        assert ("raft.on" in found) == (choose == "derived")


def one(value: int, of: str = "", share: Fraction | None = None, *, keeps: bool = False) -> Holding:
    return (HeldValue(Fraction(value), share, of, keeps=keeps),)


def number(*values: int) -> Holding:
    return tuple(HeldValue(Fraction(value)) for value in values)


HALF, WALLS = Fraction(1, 2), "outer_wall.speed"


@pytest.mark.parametrize(
    ("old", "mine", "theirs", "outcome", "holding", "as_text"),
    [
        (number(40), number(30), number(40), KEPT, number(30), False),
        (number(40), number(30), number(30), AGREED, None, False),
        (number(40), number(30), number(50), CONFLICT, number(30), False),
        (number(40), number(40), number(50), None, None, False),
        # tool by tool: what a hand left alone is the new base's
        (number(40, 40), number(30, 40), number(40, 50), KEPT, number(30, 50), False),
        (number(40, 40), number(30, 40), number(50, 50), CONFLICT, number(30, 50), False),
        # one value for all tools of a hand fits as many as the new text has
        (number(40), number(30), number(40, 40), KEPT, number(30, 30), False),
        (number(40), number(30, 20), number(40), KEPT, number(30, 20), True),
        (number(40), (), number(40), KEPT, (), True),
        ((), number(30), (), KEPT, number(30), True),
        # a share that follows keeps its share of what the new text has
        (one(20, WALLS, HALF), one(10, WALLS, HALF / 2), one(30, WALLS, HALF), KEPT, one(15, WALLS, HALF / 2), False),
        # one that keeps its value is rewritten for it
        (
            one(20, WALLS, HALF, keeps=True),
            one(10, WALLS, HALF / 2, keeps=True),
            one(20, WALLS, HALF / 2, keeps=True),
            KEPT,
            one(10, WALLS, HALF / 4, keeps=True),
            False,
        ),
        # a share against a plain number: only the line itself says it
        (number(20), one(10, WALLS, HALF), number(20), KEPT, one(10, WALLS, HALF), True),
        (one(20, WALLS, HALF), number(10), one(20, WALLS, HALF), KEPT, number(10), True),
        (one(20, WALLS, HALF), one(10, "infill.speed", HALF), one(20, WALLS, HALF), KEPT,
         one(10, "infill.speed", HALF), True),
        # of nothing there is no share to go by
        (one(20, WALLS, HALF, keeps=True), one(10, WALLS, HALF / 2, keeps=True), one(0, WALLS, HALF, keeps=True),
         KEPT, one(10, WALLS, HALF / 2, keeps=True), False),
    ],
)  # fmt: skip
def test_what_the_new_text_is_to_hold(
    old: Holding, mine: Holding, theirs: Holding, outcome: str | None, holding: Holding | None, as_text: bool
) -> None:
    """Each by hand: a value that is one tool, or one share, off is printed with."""
    name = "inner_wall.speed"
    merged = merge(ProfileSides({name: old}, {name: mine}, {name: theirs}), "derived").get(name)
    if outcome is None:
        assert merged is None
        return
    assert merged is not None
    assert (merged.decision.outcome, merged.holding, merged.by_text) == (outcome, holding, as_text)
    based = merge(ProfileSides({name: old}, {name: mine}, {name: theirs}), "base")[name]
    if outcome == CONFLICT and len(mine) == 1:
        assert based.holding is None


def test_words_that_would_not_tell_two_texts_apart_show_how_they_are_written() -> None:
    def switch(text: str) -> Holding:
        return (HeldValue(True, text=text),)

    name = "support.on"
    sides = ProfileSides({name: switch("3")}, {name: switch("4")}, {name: switch("5")})
    decision = merge(sides)[name].decision
    assert (decision.was, decision.hand, decision.new) == ('on ("3")', 'on ("4")', 'on ("5")')
    long = "x" * 41
    off = (HeldValue(False, text="0"),)
    decision = merge(ProfileSides({name: switch("3")}, {name: switch(long)}, {name: off}))[name].decision
    assert (decision.was, decision.hand, decision.new) == ('on ("3")', f'on ("{long[:40]}")', 'off ("0")')
    decision = merge(ProfileSides({name: switch("3")}, {name: off}, {name: switch("3")}))[name].decision
    assert (decision.was, decision.hand, decision.new) == ("on", "off", "on")
    speeds = ProfileSides({WALLS: number(40, 40)}, {WALLS: number(30, 20)}, {WALLS: number(40, 40)})
    decision = merge(speeds)[WALLS].decision
    assert (decision.was, decision.hand) == ("40 mm/s", "30 mm/s | 20 mm/s")
    shares = ProfileSides({WALLS: one(40)}, {WALLS: one(20, "infill.speed", HALF)}, {WALLS: one(40)})
    assert merge(shares)[WALLS].decision.hand == "20 mm/s (50 % of infill.speed)"


def test_one_key_is_one_decision() -> None:
    """A switch that is read off a number, or that shares its key, goes with that one."""
    raft, layers = "raft.on", "raft.layers"
    on, off = (HeldValue(True, text="3"),), (HeldValue(False, text="0"),)
    sides = ProfileSides({raft: on, layers: number(3)}, {raft: off, layers: number(0)}, {raft: on, layers: number(3)})
    merges = {item.setting: item for item in merge_settings(sides, {raft: layers}, load_vocabulary(), lambda _: "")}
    assert merges[layers].holding == number(0)
    assert merges[raft].holding == (HeldValue(False),)
    assert merges[raft].decision == merges[layers].decision
    assert (merges[raft].by_text, merges[raft].texts) == (False, ())
    alone = {item.setting: item for item in merge_settings(sides, {}, load_vocabulary(), lambda _: "")}
    assert alone[raft].texts == ("0",)
    assert alone[raft].decision.what == raft
