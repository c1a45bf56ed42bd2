"""What is doubtful is told by name: the word, the other setting or key, the units, the value."""

from pathlib import Path

import pytest

from profilesmith.suggest.detect_habits import find_habits, writing_of
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.proposal import CHECK, Proposal
from profilesmith.suggest.suggest_key_map import Suggester
from profilesmith.text.document import Habits
from profilesmith.text.read_document import read_document

TUNED = Path(__file__).resolve().parents[1] / "cases" / "dialects" / "tuned"
BENCH = """\
[Body]
SliceThick = 180
BeadW = 0.44
FillShare = 18
[Pace]
SkinPace = 3000
InnerSkinPace = 4200
FillPace = 5400
LidPace = 2700
HopPace = 10800
BridgePace = 1800
GapPace = 1500
[Warmth]
TipHeat = 208
TipHeatBottom = 213
PlateHeat = 58
PlateHeatBottom = 62
ChamberHeat = 0
[Air]
FanShare = 255
FanShareMin = 90
FanShareBridge = 255
[Draw]
PullLen = 1.2
PullPace = 2100
PushPace = 1800
PullLift = 200
WipeOn = 1
[Prop]
PropOn = yes
PropShare = 14
[Foot]
FootKind = skirt
SkirtTurns = 2
BrimWide = 5
"""


@pytest.fixture(scope="module")
def bench() -> dict[str, Proposal]:
    return proposals(BENCH.encode())


def proposals(text: bytes) -> dict[str, Proposal]:
    habits = find_habits([read_document(text, "base", Habits()).text])
    document = read_document(text, "base", habits)
    suggester = Suggester((document,), writing_of((document,), habits, load_lexicon()))
    return {item.setting: item for item in suggester.suggestion("x").proposals}


@pytest.mark.parametrize(
    ("setting", "words"),
    [
        ("first_layer.speed", ("'pace' says speed", "no word says first layer", "'push' is not understood")),
        ("first_layer.speed", ("It could as well be retraction.speed (for which '[Draw] PullPace' is taken)",)),
        ("first_layer.speed", ("'[Draw] PullPace' (line 25, taken for retraction.speed) or",)),
        ("fan.power", ("'fan' says fan", "'share' is only guessed to say power")),
        ("fan.power", ("It could as well be bridge.fan (for which '[Air] FanShareBridge' is taken)",)),
        (
            "retraction.on",
            ("'wipe' often names something that is no print setting", "Only its section ('draw') says retraction"),
        ),
        ("bridge.speed", ("'bridge' says bridge", "'[Pace] GapPace' (line 12) is the next likeliest")),
    ],
)
def test_a_doubt_names_what_it_is_about(bench: dict[str, Proposal], setting: str, words: tuple[str, ...]) -> None:
    told = " ".join(bench[setting].doubts)
    assert bench[setting].certainty == CHECK
    assert not [word for word in words if word not in told], told


@pytest.mark.parametrize(
    ("dialect", "setting", "words"),
    [
        ("kestrel-bench", "first_layer.bead_width", ("1.2 is taken for 1.2 mm", "'h_0 = 0.00025' is read in m")),
        ("kestrel-bench", "outer_wall.speed", ("(in m/min)", "a remark of the text speaks of cm/s", "33 mm/s")),
        ("kestrel-bench", "filament.diameter", ("1.75e-3 is taken for 1.75 mm (in m)", "the text names m nowhere")),
        ("prompt-corner", "outer_wall.speed", ("(in in/min)", "is read in in/s", "a share")),
        ("tidewater", "top.speed", ("85 is taken for a share of 85 %", "85 mm/s would do as well")),
        ("tidewater", "bridge.fan", ("45 is unusual for bridge.fan: mostly it is 50 to 100 %",)),
    ],
)
def test_a_unit_is_told_with_what_it_vies_with(dialect: str, setting: str, words: tuple[str, ...]) -> None:
    base = next(path for path in sorted((TUNED / dialect).iterdir()) if path.name.startswith("base"))
    told = " ".join(proposals(base.read_bytes())[setting].doubts)
    assert not [word for word in words if word not in told], told


def test_no_doubt_is_told_in_general_terms(bench: dict[str, Proposal]) -> None:
    """The sentences that named nothing: each must now name a word, a key, a setting or a number in it."""
    for item in bench.values():
        for doubt in item.doubts:
            assert "'" in doubt or any(sign.isdigit() for sign in doubt) or "." in doubt.rstrip(".?"), doubt
            assert doubt.endswith((".", "?", ")"))
