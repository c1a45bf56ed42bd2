"""What keys say about each other: limits, special cases, pictures among words that warn, the speed that others
rest on.
"""

from collections.abc import Callable, Mapping

import pytest

from profilesmith.suggest.contrast import find_contrast
from profilesmith.suggest.detect_habits import find_habits, writing_of
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.proposal import SURE, Proposal
from profilesmith.suggest.slots import find_slots
from profilesmith.suggest.suggest_key_map import Suggester
from profilesmith.text.read_document import read_document

Propose = Callable[[str], Mapping[str, Proposal]]


@pytest.fixture
def propose() -> Propose:
    def run(text: str) -> Mapping[str, Proposal]:
        habits = find_habits([text])
        document = read_document(text.encode(), "base", habits)
        return {
            item.setting: item
            for item in Suggester((document,), writing_of((document,), habits, load_lexicon()))
            .suggestion("x")
            .proposals
        }

    return run


PLAIN = """\
layer height = 0.2
outer wall speed = 50
inner wall speed = 70
infill density = 15
nozzle heat = 205
bed heat = 60
retraction length = 0.8
travel speed = 150
acceleration = 1000
"""


@pytest.mark.parametrize("word", ["zorb", "edge", "scald"])
def test_whatever_lies_above_everything_else_is_a_limit(propose: Propose, word: str) -> None:
    limits = f"nozzle heat {word} = 255\nbed heat {word} = 105\nspeed {word} = 300\nacceleration {word} = 5000\n"
    found = propose(limits + PLAIN)
    assert found["nozzle.temperature"].key == "nozzle heat"
    assert found["bed.temperature"].key == "bed heat"
    assert not [item.key for item in found.values() if word in item.key and item.certainty == SURE]


def test_a_first_layer_by_an_unknown_word_is_no_limit(propose: Propose) -> None:
    found = propose(PLAIN + "nozzle heat zorb = 210\nbed heat zorb = 65\nspeed zorb = 20\nlayer height zorb = 0.25\n")
    assert found["first_layer.nozzle_temperature"].key == "nozzle heat zorb"
    assert found["first_layer.bed_temperature"].key == "bed heat zorb"


def test_the_plain_key_is_the_general_one(propose: Propose) -> None:
    for lines in (
        "heat tip/plate = 203/58\nheat tip/plate [0] = 208/63\n",
        "heat tip/plate [0] = 208/63\nheat tip/plate = 203/58\n",
    ):
        found = propose(PLAIN.replace("nozzle heat = 205\nbed heat = 60\n", "") + lines)
        assert found["nozzle.temperature"].key == found["bed.temperature"].key == "heat tip/plate"


def test_contrast_looks_inside_a_section_only() -> None:
    text = "[a]\nheat = 205\nheat opening = 210\n[b]\nheat late = 60\n"
    document = read_document(text.encode(), "base", find_habits([text]))
    slots, _ = find_slots((document,), writing_of((document,), find_habits([text]), load_lexicon()), load_lexicon())
    assert find_contrast(slots).special == {1}
    assert find_contrast(slots).cost("nozzle.temperature", 1) < 0
    assert find_contrast(slots).cost("nozzle.temperature", 2) == 0


def test_a_word_that_warns_may_be_a_picture(propose: Propose) -> None:
    camera = "camera density = 12\ncamera pattern = grid\ncamera overlap = 20\ncamera speed = 80\n"
    found = propose(PLAIN.replace("infill density = 15\n", "") + camera)
    assert found["infill.density"].key == "camera density"
    assert "support.density" not in propose(PLAIN + "camera = yes\ncamera speed = 12\n")


@pytest.mark.parametrize(
    ("head", "key"), [("; all speeds hang off drumbeat\n", "drumbeat"), ("", "reference pace"), ("", "grundtempo")]
)
def test_what_shares_are_shares_of(propose: Propose, head: str, key: str) -> None:
    text = (
        f"{head}{key} = 60 mm/s\nouter wall speed = 80 %\ninner wall speed = 100 %\n"
        "infill speed = 130 %\ntop speed = 85 %\n"
    )
    found = propose(text + "layer height = 0.2 mm\nnozzle heat = 205 C\ninfill density = 15 %\n")
    assert {found[name].binding.get("relative_key") for name in ("outer_wall.speed", "infill.speed", "top.speed")} == {
        key
    }


def test_a_numbered_list_is_read_by_its_remarks(propose: Propose) -> None:
    text = (
        "P100 = 0.2 ; layer thickness, mm\nP101 = 48 ; speed, outer wall, mm/s\n"
        "P102 = 207 ; nozzle temperature, C\nP103 = 300 ; speed limit of the machine, mm/s\n"
    )
    found = propose(text + "P104 = 15 ; infill density, %\nP105 = 60 ; bed temperature, C\n")
    assert {name: item.key for name, item in found.items()} == {
        "layer.height": "P100",
        "outer_wall.speed": "P101",
        "nozzle.temperature": "P102",
        "infill.density": "P104",
        "bed.temperature": "P105",
    }


def test_a_remark_right_above_explains_a_key(propose: Propose) -> None:
    text = (
        "# layer thickness, mm\nP1 = 0.2\n\n# speed of the outer wall, mm/s\nP2 = 48\n\n"
        "# nozzle temperature, C\nP3 = 207\n\n# bed temperature, C\nP4 = 60\n"
    )
    found = propose(text)
    assert found["layer.height"].key == "P1"
    assert found["outer_wall.speed"].key == "P2"


def test_a_remark_on_the_whole_text_heads_no_key(propose: Propose) -> None:
    head = "# file of the camera club\n"
    keys = "".join(f"spare {number} = x{number}\n" for number in range(20))
    assert propose(head + PLAIN + keys)["nozzle.temperature"].certainty == SURE


def test_two_units_in_the_remarks_leave_a_doubt(propose: Propose) -> None:
    speeds = "; speeds m/min, short moves cm/s\n" + PLAIN.replace("= 50", "= 3").replace("= 70", "= 4.2").replace(
        "= 150", "= 9"
    )
    item = propose(speeds + "support speed = 3.6\n")["support.speed"]
    assert item.certainty != SURE
