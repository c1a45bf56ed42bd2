"""Proposals on small texts: words that the text teaches, switches, shares, angles, lists, what goes with what."""

from collections.abc import Callable, Mapping
from fractions import Fraction

import pytest

from profilesmith.facts.facts import Fact
from profilesmith.foundation.place import Place
from profilesmith.suggest.detect_habits import find_habits, writing_of
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.proposal import CHECK, SURE, Proposal
from profilesmith.suggest.suggest_key_map import Suggester
from profilesmith.text.read_document import read_document

Propose = Callable[..., Mapping[str, Proposal]]


@pytest.fixture
def propose() -> Propose:
    def run(text: str, facts: Mapping[str, Fact] | None = None) -> Mapping[str, Proposal]:
        habits = find_habits([text])
        document = read_document(text.encode(), "base", habits)
        writing = writing_of((document,), habits, load_lexicon())
        return {item.setting: item for item in Suggester((document,), writing, facts).suggestion("x").proposals}

    return run


PLAIN = """
layer height = 0.2
first layer height = 0.25
outer wall speed = 50
inner wall speed = 70
infill speed = 80
infill density = 15
nozzle temperature = 205
bed temperature = 60
retraction length = 0.8
retraction speed = 35
travel speed = 150
"""


def test_trade_words_are_sure(propose: Propose) -> None:
    found = propose(PLAIN)
    assert len(found) == 11
    assert {item.certainty for item in found.values()} == {SURE}
    assert found["outer_wall.speed"].binding == {
        "setting": "outer_wall.speed",
        "key": "outer wall speed",
        "unit": "mm/s",
    }
    assert "'outer wall' says outer wall" in found["outer_wall.speed"].reasons


def test_a_text_teaches_its_own_words(propose: Propose) -> None:
    """Nobody lists "grault", but what stands with it can only be the infill's, and so with "plugh" and the support."""
    found = propose(
        PLAIN.replace("infill", "grault")
        + (
            "grault pattern = honeycomb\ngrault overlap = 20\nplugh density = 10\n"
            "plugh pattern = lines\nplugh overhang angle = 50\n"
            "plugh speed = 60\nplugh gap = 0.2\nplugh side gap = 0.6\n"
        )
    )
    assert found["infill.overlap"].key == "grault overlap"
    assert found["infill.speed"].key == "grault speed"
    assert found["infill.density"].key == "grault density"
    assert found["support.density"].key == "plugh density"
    assert found["support.side_gap"].key == "plugh side gap"


@pytest.mark.parametrize(
    ("decoy", "setting", "key"),
    [
        ("maximum nozzle temperature = 280", "nozzle.temperature", "nozzle temperature"),
        ("camera speed = 50", "outer_wall.speed", "outer wall speed"),
        ("preview layer height = 0.2", "layer.height", "layer height"),
        ("bed sensor temperature = 60", "bed.temperature", "bed temperature"),
        ("old infill density = 15", "infill.density", "infill density"),
        ("motor speed = 150", "travel.speed", "travel speed"),
        ("power brick fan = 40 %\nfan power = 100 %\nfan minimum power = 30 %", "fan.power", "fan power"),
        ("filament dryer temperature = 48", "nozzle.temperature", "nozzle temperature"),
    ],
)
def test_decoys_lose(propose: Propose, decoy: str, setting: str, key: str) -> None:
    found = propose(decoy + "\n" + PLAIN)
    assert found[setting].key == key
    assert decoy.split(" = ")[0] not in {item.key for item in found.values()}


def test_no_key_goes_to_two_settings(propose: Propose) -> None:
    places = [item.place for item in propose(PLAIN + "wall = 3\nsupport = 1\nheat tip/plate = 205/60\n").values()]
    assert len(places) == len(set(places))


@pytest.mark.parametrize(
    ("line", "entries"),
    [
        ("support = yes", {}),
        ("support = 1", {}),
        (
            "support = fitted\nraft = left out\nbrim = yes\nskirt = no\ndraw back = yes",
            {"on": "fitted", "off": "left out"},
        ),
        ("support = 3", {"on_when": "> 0", "on": "3", "off": "0"}),
        ("support = rigged", {"on": "rigged", "off": "off"}),
    ],
)
def test_spellings_of_a_switch(propose: Propose, line: str, entries: dict[str, str]) -> None:
    binding = dict(propose(PLAIN + line + "\nsupport speed = 60\n")["support.on"].binding)
    assert binding == {"setting": "support.on", "key": "support", **entries}


@pytest.mark.parametrize(
    ("line", "side", "sure"),
    [
        ("support angle from the bed plane = 40", "horizontal", True),
        ("support angle = 55", "vertical", False),
        ("support angle = 35", "horizontal", False),
        ("support angle off vertical = 35", "vertical", True),
    ],
)
def test_where_an_overhang_is_measured_from(propose: Propose, line: str, side: str, sure: bool) -> None:
    found = propose(PLAIN + line + "\n")["support.overhang_angle"]
    assert found.binding["angle_from"] == side
    assert any("measured from" in doubt for doubt in found.doubts) is not sure


def test_a_share_is_of_what_its_remark_names(propose: Propose) -> None:
    found = propose("; x\n" + PLAIN + "top speed = 1.1    ; times the outer wall\n")["top.speed"]
    assert found.binding["relative_to"] == "outer_wall.speed"
    assert found.binding["unit"] == "fraction"


@pytest.mark.parametrize("times", ["of", "x", "von"])
def test_a_part_of_a_named_key_is_a_share(propose: Propose, times: str) -> None:
    found = propose(PLAIN + f"top speed = 0.75 {times} outer wall speed\n")["top.speed"]
    assert found.binding["relative_to"] == "outer_wall.speed"
    assert found.binding["unit"] == "fraction"


def test_the_longest_key_that_a_remark_names_is_meant(propose: Propose) -> None:
    text = (
        "[first layer]\nspeed: 22\n\n[wall]\nspeed inside: 60\nspeed outside: 65 % of speed inside\n\n"
        "[infill]\nspeed: 75\ndensity: 20 %\n\n[nozzle]\ntemperature: 205 C\n"
    )
    assert propose(text)["outer_wall.speed"].binding["relative_to"] == "inner_wall.speed"


def test_a_number_of_something_is_a_count(propose: Propose) -> None:
    assert propose(PLAIN + "top layers = 4 of solid layers\n")["top.layers"].text.startswith("4")


@pytest.mark.parametrize("end", ["", ";"])
def test_a_column_of_units_may_say_what_a_share_is_of(propose: Propose, end: str) -> None:
    rows = [
        ("outer wall speed", "60", "mm/s"),
        ("inner wall speed", "70", "mm/s"),
        ("infill speed", "80", "mm/s"),
        ("travel speed", "150", "mm/s"),
        ("support speed", "75", "% of inner wall speed"),
        ("layer height", "0.2", "mm"),
        ("nozzle temperature", "205", "C"),
    ]
    found = propose("".join(f"{';'.join(row)}{end}\n" for row in rows))["support.speed"]
    assert (found.binding["unit"], found.binding["relative_to"]) == ("%", "inner_wall.speed")


def test_a_share_may_be_of_a_general_speed(propose: Propose) -> None:
    text = (
        "print speed = 60 mm/s\nouter wall speed = 80 %\ninfill speed = 120 %\n"
        "nozzle temperature = 205 C\nlayer height = 0.2 mm\n"
    )
    found = propose(text)
    assert found["outer_wall.speed"].binding["relative_key"] == "print speed"
    assert found["infill.speed"].certainty == CHECK


def test_one_unit_for_all_speeds(propose: Propose) -> None:
    """Among speeds of thousands a 45 is no speed of 45 mm/s: it is a share."""
    found = propose(
        "outer wall speed = 3000\ninner wall speed = 4200\ninfill speed = 4800\n"
        "support speed = 3600\ntravel speed = 9000\n"
        "bridge speed = 1800\nfirst layer speed = 45\nlayer height = 0.2\nnozzle temperature = 205\n"
    )
    assert found["infill.speed"].binding["unit"] == "mm/min"
    assert found["first_layer.speed"].binding["unit"] == "%"


def test_values_that_do_not_go_together_are_mended_or_doubted(propose: Propose) -> None:
    found = propose(PLAIN.replace("first layer height = 0.25", "first layer height = 1.25"))["first_layer.height"]
    assert found.certainty == CHECK
    assert found.binding["relative_to"] == "layer.height"


def test_lists_and_packed_values(propose: Propose) -> None:
    text = PLAIN.replace("nozzle temperature = 205", "nozzle temperature = 205; 202").replace(
        "retraction length = 0.8", "retraction length = 0.8; 0.9"
    )
    found = propose(text.replace("bed temperature = 60", "first layer heat nozzle/bed = 208/62"))
    assert found["nozzle.temperature"].binding["tools"] is True
    assert found["first_layer.bed_temperature"].binding["split"] == "/"
    assert found["first_layer.bed_temperature"].binding["field"] == 2


def test_a_number_for_a_shape_is_left_as_it_is(propose: Propose) -> None:
    found = propose(PLAIN + "infill pattern = 7\n")["infill.pattern"]
    assert "choices" not in found.binding
    assert found.certainty == SURE
    assert any("7 is a number for a shape" in reason for reason in found.reasons)


def test_facts_help(propose: Propose) -> None:
    text = PLAIN + "bore a = 0.4\nnozzle bore b = 0.6\nnozzle bore = 0.4\n"
    bore = {"machine.nozzle_diameter": Fact(Fraction("0.6"), Place())}
    assert propose(text, bore)["nozzle.diameter"].key == "nozzle bore b"
    assert propose(text)["nozzle.diameter"].key == "nozzle bore"


def test_alternatives_stand_beside_what_is_to_be_checked(propose: Propose) -> None:
    found = propose(PLAIN + "wall pace a = 60\nbridge pace = 30\nbridge pace b = 31\n")["bridge.speed"]
    assert found.certainty == CHECK
    assert "bridge pace" in found.alternatives[0].name


def test_the_same_text_gives_the_same_proposals(propose: Propose) -> None:
    assert propose(PLAIN) == propose(PLAIN)
