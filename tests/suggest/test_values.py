"""What a value says for a setting."""

from fractions import Fraction

import pytest

from profilesmith.suggest.detect_habits import find_habits, writing_of
from profilesmith.suggest.ideas import load_schemas
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.shapes import pattern_of
from profilesmith.suggest.slots import find_slots
from profilesmith.suggest.values import Way, find_fits, is_on
from profilesmith.text.read_document import read_document


def fits_of(value: str, setting: str) -> dict[Way, float]:
    text = f"key = {value}\n"
    habits = find_habits([text])
    document = read_document(text.encode(), "base", habits)
    lexicon = load_lexicon()
    (slot,) = find_slots((document,), writing_of((document,), habits, lexicon), lexicon)[0]
    return {
        fit.way: fit.gain
        for schema, fits in find_fits(slot, load_schemas(), lexicon)
        if schema.setting.id == setting
        for fit in fits
    }


@pytest.mark.parametrize(
    ("value", "setting", "unit"),
    [
        ("60", "outer_wall.speed", "mm/s"),
        ("3600", "outer_wall.speed", "mm/min"),
        ("6", "travel.speed", "in/s"),
        ("205", "nozzle.temperature", "°C"),
        ("401", "nozzle.temperature", "°F"),
        ("520", "nozzle.temperature", "K"),
        ("200", "layer.height", "um"),
        ("0.2", "layer.height", "mm"),
        (".008", "layer.height", "in"),
        ("0.68", "support.overhang_angle", "rad"),
        ("7500", "layer.minimum_time", "ms"),
        ("0.15", "infill.density", "fraction"),
        ("255", "fan.power", "0-255"),
        ("1.75", "filament.diameter", "mm"),
    ],
)
def test_the_likeliest_unit_of_a_bare_number(value: str, setting: str, unit: str) -> None:
    fits = {way: gain for way, gain in fits_of(value, setting).items() if not way.share}
    best = max(fits.values())
    assert unit in {way.unit for way, gain in fits.items() if gain == best}


@pytest.mark.parametrize(
    ("value", "setting"),
    [
        ("1200", "nozzle.temperature"),
        ("2.5", "wall.count"),
        ("yes", "layer.height"),
        ("60 mm/s", "layer.height"),
        ("0.2", "infill.pattern"),
        ("120", "support.density"),
        ("300", "fan.power"),
    ],
)
def test_values_that_cannot_be_a_settings(value: str, setting: str) -> None:
    assert fits_of(value, setting) == {}


def test_a_share_is_one_way_to_read_a_speed_but_not_a_pull() -> None:
    assert Way("%", True) in fits_of("45 %", "first_layer.speed")
    assert fits_of("45 %", "retraction.speed") == {}


def test_a_value_that_is_met_again_and_again_counts_for_more() -> None:
    assert fits_of("1.75", "filament.diameter")[Way("mm")] > fits_of("1.8", "filament.diameter")[Way("mm")] + 1


@pytest.mark.parametrize(
    ("text", "state"),
    [("yes", True), ("Nein", False), ("jawohl", True), ("sans", False), ("left out", False), ("blue", None)],
)
def test_words_of_switches(text: str, state: bool | None) -> None:
    assert is_on(text, load_lexicon()) is state


@pytest.mark.parametrize(
    ("text", "shape"),
    [("Wabe", "hexagons"), ("honeycomb", "hexagons"), ("twill", "gyroid"), ("carreaux", "grid"), ("oak", "")],
)
def test_words_of_shapes(text: str, shape: str) -> None:
    assert pattern_of(text, load_lexicon()) == shape


def test_numbers_are_exact_on_the_way_in() -> None:
    assert Fraction("0.1") == Fraction(1, 10)
    assert fits_of("0.1", "layer.height")
