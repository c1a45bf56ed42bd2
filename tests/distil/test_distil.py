"""What is found in small pairs that a person can check at a glance."""

from __future__ import annotations

from fractions import Fraction

import pytest

from profilesmith.distil.finding import RuleDoubt
from profilesmith.distil.law import Law, explains
from profilesmith.distil.replay import Replay
from profilesmith.distil.sample import world_of
from profilesmith.facts.facts import FactValue
from profilesmith.reports.distil_report import report
from profilesmith.review.distilled.reasons import doubt_text, no_rule_reason, not_seen_reason, settle_text
from profilesmith.review.distilled.remarks import doubts, tweak_text
from profilesmith.review.distilled.write_recipe import law_text
from tests.distil.hidden import case
from tests.distil.small import VOCABULARY, find, laws, on, only, pair

WALL = "outer_wall.speed"


@pytest.mark.parametrize(
    ("setting", "changes", "law"),
    [
        (WALL, ((60, 20), (40, 20), (15, 15)), 'cap = "20 mm/s"'),  # the worked example of test_bits
        (WALL, ((60, 20), (10, 20), (15, 20)), 'set = "20 mm/s"'),
        (WALL, ((60, 42), (40, 28), (50, 35)), 'scale = "70 %"'),
        (WALL, ((60, 50), (40, 30), (50, 40)), 'shift = "-10 mm/s"'),
        ("support.density", ((12, 30), (15, 30), (40, 40)), 'raise_to = "30 %"'),
        ("nozzle.temperature", ((200, 210), (205, 210), (230, 220), (214, 214)), 'window = ["210 °C", "220 °C"]'),
        ("nozzle.temperature", ((200, 215), (205, 220), (210, 225)), 'shift = "15 °C"'),
        ("wall.count", ((4, 2), (3, 2), (1, 1)), 'cap = "2"'),
    ],
)
def test_kinds(setting: str, changes: tuple[tuple[float, float], ...], law: str) -> None:
    item = only(find(on(setting, *changes)))
    assert law_text(item.law, setting, VOCABULARY) == law
    assert item.exceptions == ()
    assert item.bits < item.without


def test_a_base_beyond_a_cap_that_was_left_alone_speaks_against_it() -> None:
    agreeing = only(find(on(WALL, (60, 20), (40, 20), (15, 15))))
    against = find(on(WALL, (60, 20), (40, 20), (15, 15), (50, 50)))
    assert agreeing.exceptions == ()
    assert [(item.pair, item.after) for item in only(against).exceptions] == [(3, 50)]
    assert only(against).bits > agreeing.bits + 10


@pytest.mark.parametrize(
    ("before", "after", "explained"),
    [
        (220.4, 220.4, False),
        (209.7, 209.7, False),
        (214, 214, True),
        (214, 214.4, False),
        (231, 220, True),
        (231, 220.4, True),
        (231, 221, False),
    ],
)
def test_rounding_excuses_no_value_that_a_bound_should_have_moved_or_left(
    before: float, after: float, explained: bool
) -> None:
    name = "nozzle.temperature"
    world = world_of([pair({name: before}, {name: after}, written="1")], VOCABULARY)
    assert explains(Law("window", (Fraction(210), Fraction(220))), world.seen[name][0], world) == explained


def test_no_rule_is_found_where_changes_are_unrelated() -> None:
    found = find(on(WALL, (60, 23), (40, 31), (50, 47.5)))
    assert found.findings == ()
    assert [item.setting for item in found.no_rule] == [WALL]


def test_nothing_changed_is_nothing_found() -> None:
    found = find(on(WALL, (60, 60), (40, 40)))
    assert (found.findings, found.tweaks, found.no_rule) == ((), (), ())


def test_one_pair_is_ambiguous_and_says_what_would_settle_it() -> None:
    item = only(find(on(WALL, (60, 40))))
    assert law_text(item.law, WALL, VOCABULARY) == 'cap = "40 mm/s"'
    assert {law.operation for law in item.rivals} >= {"set", "shift"}
    told = " ".join(doubts(item, VOCABULARY))
    assert "one pair alone never identifies a rule" in told
    assert item.settle is not None
    assert (item.settle.side, item.settle.end) == ("below", 40)
    assert dict(item.settle.outcomes)["cap"] == item.settle.base
    assert dict(item.settle.outcomes)["set"] == 40
    settle = settle_text(item, VOCABULARY)
    assert "below 40 mm/s" in settle
    assert "a cap leaves it" in settle
    assert "a set gives 40 mm/s" in settle


def test_the_settling_pair_settles() -> None:
    """The base that is asked for, tuned as either rival would have it, leaves that rival alone."""
    asked = on(WALL, (60, 40), (80, 40))
    assert {law.operation for law in only(find(asked)).rivals} == {"set"}
    for after, kind in ((30, "cap"), (40, "set")):
        settled = only(find([*asked, *on(WALL, (30, after))]))
        assert (settled.law.operation, settled.rivals) == (kind, ())


SPEEDS = (WALL, "inner_wall.speed", "top.speed", "infill.speed", "support.speed")


def test_a_group_says_it_with_one_number() -> None:
    bases = ((45, 60, 35, 80, 60), (48, 62, 42, 75, 55))
    samples = [
        pair(
            dict(zip(SPEEDS, base, strict=True)),
            {name: min(value, 40) for name, value in zip(SPEEDS, base, strict=True)},
            f"m{base[0]}",
        )
        for base in bases
    ]
    item = only(find(samples))
    assert item.named == ("printing speeds",)
    assert law_text(item.law, WALL, VOCABULARY) == 'cap = "40 mm/s"'


def test_a_member_with_its_own_cap_is_excepted() -> None:
    names = ("first_layer.speed", *SPEEDS)
    bases = ((30, 45, 60, 35, 80, 60), (25, 48, 62, 42, 75, 55), (18, 48, 62, 42, 75, 55))
    samples = [
        pair(
            dict(zip(names, base, strict=True)),
            {name: min(value, 20 if name == names[0] else 40) for name, value in zip(names, base, strict=True)},
            f"m{number}",
        )
        for number, base in enumerate(bases)
    ]
    found = find(samples)
    assert laws(found) == [("first_layer.speed", 'cap = "20 mm/s"'), ("printing speeds", 'cap = "40 mm/s"')]
    assert found.findings[1].excluded == ("first_layer.speed",)


def test_a_fact_explains_what_no_number_does() -> None:
    windows = {"a": (205, 215), "b": (220, 240), "c": (210, 220)}
    samples = []
    for name, (low, high) in windows.items():
        facts: dict[str, FactValue] = {"spool.nozzle_window": (Fraction(low), Fraction(high))}
        samples.append(pair({"nozzle.temperature": 200}, {"nozzle.temperature": low}, name, facts))
    assert laws(find(samples)) == [("nozzle.temperature", 'window = {fact = "spool.nozzle_window"}')]


def test_a_fact_that_never_varied_leaves_the_number_as_a_rival() -> None:
    facts: dict[str, FactValue] = {
        "spool.nozzle_window": (Fraction(210), Fraction(220)),
        "spool.drying_temperature": Fraction(60),
    }
    samples = [
        pair(
            {"nozzle.temperature": base, "bed.temperature": 50},
            {"nozzle.temperature": 210, "bed.temperature": 60},
            name,
            facts,
        )
        for name, base in (("a", 200), ("b", 205))
    ]
    nozzle, bed = sorted(find(samples).findings, key=lambda item: item.named, reverse=True)
    assert law_text(nozzle.law, "nozzle.temperature", VOCABULARY) == 'window = {fact = "spool.nozzle_window"}'
    assert [law_text(law, "nozzle.temperature", VOCABULARY) for law in nozzle.rivals][:1] == ['raise_to = "210 °C"']
    assert "spool.nozzle_window" in settle_text(nozzle, VOCABULARY)
    assert law_text(bed.law, "bed.temperature", VOCABULARY) == 'raise_to = "60 °C"', (
        "a drying temperature is no bed temperature"
    )


def test_neighbours_of_which_the_same_is_asked_share_a_rule() -> None:
    rows = ((4, 3), (3, 4), (2, 2))
    samples = [
        pair({"top.layers": top, "bottom.layers": bottom}, {"top.layers": 5, "bottom.layers": 5}, f"m{top}")
        for top, bottom in rows
    ]
    item = only(find(samples))
    assert item.named == ("top.layers", "bottom.layers")
    assert law_text(item.law, "top.layers", VOCABULARY) == 'raise_to = "5"'


def test_a_condition_on_a_fact() -> None:
    changes = (("remote", 6, 4), ("remote", 5, 4), ("remote", 7, 4), ("direct", 5, 5), ("direct", 6, 6))
    samples = [
        pair({"retraction.distance": before}, {"retraction.distance": after}, f"m{number}", {"machine.drive": drive})
        for number, (drive, before, after) in enumerate(changes)
    ]
    item = only(find(samples))
    assert law_text(item.law, "retraction.distance", VOCABULARY) == 'cap = "4 mm", when machine.drive is remote'
    assert (len(item.changed), len(item.met), len(item.aside)) == (3, 0, 2)


def test_a_share_of_another_setting() -> None:
    samples = [
        pair({"travel.speed": 200, WALL: wall}, {"travel.speed": 2.5 * wall, WALL: wall}, f"m{wall}")
        for wall in (30, 44, 52, 61)
    ]
    assert laws(find(samples)) == [("travel.speed", 'cap = {of = "outer_wall.speed", times = 2.5}')]


def test_a_share_that_one_pair_alone_shows_is_chance() -> None:
    """30 % beside 20 % is 1.5 times as much, and so is any number of some other."""
    samples = [
        pair({"support.density": 18, "infill.density": fill}, {"support.density": prop, "infill.density": after}, name)
        for name, fill, after, prop in (("a", 18, 10, 18), ("b", 20, 20, 30))
    ]
    assert "support.density" not in {name for name, _ in laws(find(samples))}


def test_held_thickness() -> None:
    """Closing layers that stay as thick: ceil(4 * 0.2 / 0.12) = 7, ceil(3 * 0.24 / 0.12) = 6, ceil(5 * 0.16 / 0.12) =
    7.
    """
    rows = ((4, 0.2, 7), (3, 0.24, 6), (5, 0.16, 7))
    samples = [
        pair({"layer.height": height, "top.layers": layers}, {"layer.height": 0.12, "top.layers": after}, f"m{layers}")
        for layers, height, after in rows
    ]
    assert ("top.layers", 'hold = "thickness"') in laws(find(samples))


def test_switches_and_words() -> None:
    samples = [
        pair({"raft.on": False, "infill.pattern": "grid"}, {"raft.on": True, "infill.pattern": "gyroid"}, "a"),
        pair({"raft.on": True, "infill.pattern": "lines"}, {"raft.on": True, "infill.pattern": "gyroid"}, "b"),
    ]
    assert laws(find(samples)) == [("infill.pattern", 'set = "gyroid"'), ("raft.on", 'set = "on"')]


def test_a_word_that_the_vocabulary_has_not_is_named() -> None:
    found = find([pair({"infill.pattern": "grid"}, {"infill.pattern": "37"}, "a")])
    assert found.findings == ()
    (missed,) = found.not_seen
    assert (missed.reason, missed.word) == ("no word", "37")
    assert "'37'" in not_seen_reason(missed)


def test_what_one_machine_shows_is_its_tweak() -> None:
    found = find(on(WALL, (60, 55), (50, 50), (80, 80)))
    assert found.findings == ()
    tweak = found.tweaks[0]
    assert (tweak.machine, tweak.fits) == ("m0", True)
    assert law_text(tweak.law, WALL, VOCABULARY) == 'cap = "55 mm/s"'


def test_a_departure_from_a_rule_is_a_tweak_over_it_or_stands_against_it() -> None:
    common = ((60, 40), (50, 40), (80, 40), (70, 40))
    for after, fits in ((35, True), (45, False)):
        found = find(on(WALL, *common, (65, after)))
        assert law_text(only(found).law, WALL, VOCABULARY) == 'cap = "40 mm/s"'
        assert [(tweak.machine, tweak.fits) for tweak in found.tweaks] == [("m4", fits)]


def test_a_machine_that_left_alone_what_a_rule_would_move() -> None:
    found = find(on("nozzle.temperature", (200, 215), (205, 215), (208, 215), (212, 215), (210, 210)))
    assert [(item.pair, item.touched) for item in only(found).exceptions] == [(4, False)]
    assert [(tweak.machine, tweak.law.operation, tweak.fits) for tweak in found.tweaks] == [("m4", "set", False)]
    assert "left at 210 °C" in tweak_text(found.tweaks[0], found.samples, VOCABULARY)


ACCELERATIONS = ("first_layer.acceleration", "outer_wall.acceleration", "travel.acceleration", "print.acceleration")


@pytest.mark.parametrize("after", [1500, 1400])
def test_a_rule_that_its_own_pairs_contradict_is_none(after: float) -> None:
    """One machine capped its accelerations, the other left what it has above that cap: no rule for both."""
    mine = dict(zip(ACCELERATIONS, (600, 1500, 2500, 1500), strict=True))
    samples = [
        pair(
            mine,
            {name: min(value, 1000) if name != "travel.acceleration" else value for name, value in mine.items()},
            "a",
        ),
        pair({"print.acceleration": 1500, WALL: 60}, {"print.acceleration": after, WALL: 60}, "b"),
    ]
    found = find(samples)
    assert found.findings == ()
    assert ("a", "outer_wall.acceleration") in {(tweak.machine, tweak.setting) for tweak in found.tweaks}
    told = [tweak.setting for tweak in found.tweaks] + [item.setting for item in found.no_rule]
    assert told.count("print.acceleration") == 1


def test_as_many_exceptions_as_cases_are_no_rule() -> None:
    """Two pairs were capped to 40, two others moved elsewhere: shorter than the list, but no better than a guess."""
    found = find(on(WALL, (60, 40), (50, 40), (71, 53.5), (66, 61.5), (30, 30)))
    assert found.findings == ()
    (none,) = found.no_rule
    assert (none.setting, none.reason) == (WALL, "as many exceptions")
    assert no_rule_reason(none) == "4 pairs changed it; the shortest rule would have as many exceptions as cases"


def test_every_rule_of_several_pairs_says_less_than_the_list_and_has_more_cases_than_exceptions() -> None:
    for seed in range(40):
        for pairs in (2, 3):
            for item in find(list(case(seed, pairs, noise=True).samples)).findings:
                assert item.bits < item.without
                assert len({seen.pair for seen in item.exceptions} - item.changed) < len(item.changed)


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        (((60, 40), (30, 30), (25, 25)), "one pair alone changed it (2 met it already)"),
        (((60, 40), (30, 30), (35, 35), (20, 20)), "one pair alone changed it (3 met it already)"),
    ],
)
def test_what_the_other_pairs_did_is_told_as_it_was(changes: tuple[tuple[float, float], ...], told: str) -> None:
    assert told in map(doubt_text, only(find(on(WALL, *changes))).doubts)


def test_one_machine_alone_that_changed_it_is_told() -> None:
    samples = [
        pair({WALL: base}, {WALL: min(base, 40)}, machine)
        for base, machine in ((60, "a"), (50, "a"), (70, "a"), (30, "b"))
    ]
    assert RuleDoubt("by one machine", met=1) in only(find(samples)).doubts
    assert doubt_text(RuleDoubt("by one machine", met=1)) == "one machine alone changed it (1 met it already)"


def test_one_pair_says_that_its_rules_are_guesses() -> None:
    found = find([pair({WALL: 60, "support.density": 18}, {WALL: 40, "support.density": 30})])
    assert all(item.longer for item in found.findings)
    told = report(found, Replay(2, 0, ()), Replay(2, 0, ()), (), VOCABULARY)
    assert "1 pair of 1 machine: 2 rules, 2 of them ambiguous" in told
    assert "One pair: no rule here is shorter than the plain list of the values." in told
    assert "so a guess" in " ".join(doubts(found.findings[0], VOCABULARY))


def test_points_are_called_points() -> None:
    """A shift of a ratio adds to the per cent: 18 % and -8 % are 10 %, not 16.56 %."""
    assert law_text(Law("shift", (Fraction(-8),)), "infill.density", VOCABULARY) == 'shift = "-8 %" (-8 points)'
    assert law_text(Law("shift", (Fraction(-8),)), WALL, VOCABULARY) == 'shift = "-8 mm/s"'
    assert law_text(Law("scale", (Fraction(55),)), "infill.density", VOCABULARY) == 'scale = "55 %"'


def test_a_group_has_values() -> None:
    mine, other = (
        dict(zip(SPEEDS, (45, 60, 35, 80, 60), strict=True)),
        dict(zip(SPEEDS, (48, 62, 42, 75, 55), strict=True)),
    )
    samples = [pair(base, dict.fromkeys(base, 35.0), name) for name, base in (("a", mine), ("b", other))]
    item = only(find(samples))
    assert "a base whose printing speeds are below 35 mm/s" in settle_text(item, VOCABULARY)


def test_departures_of_the_only_machine_are_exceptions_alone() -> None:
    found = find(on(WALL, (60, 40), (50, 40), (80, 40), (70, 40), (65, 45), machines=1))
    assert len(only(found).exceptions) == 1
    assert found.tweaks == ()


@pytest.mark.parametrize(("written", "found"), [("1", True), ("0.01", False)])
def test_rounding_of_the_file_is_respected(written: str, found: bool) -> None:
    """45 x 0.7 = 31.5, written as 32 in a file of whole numbers; 61 as 43, 38 as 27. A finer file would not write
    these.
    """
    changes = ((45, 32), (61, 43), (38, 27))
    samples = [pair({WALL: before}, {WALL: after}, f"m{before}", written=written) for before, after in changes]
    assert ((WALL, 'scale = "70 %"') in laws(find(samples))) == found


def test_a_setting_that_is_gone_or_new_is_named() -> None:
    found = find([pair({WALL: 60}, {"support.density": 30})])
    assert {item.setting for item in found.not_seen} == {WALL, "support.density"}
