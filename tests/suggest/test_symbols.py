"""Keys that are symbols, and the legends that explain their letters."""

import pytest

from profilesmith.suggest.key_words import raw_words
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.symbols import key_reader, read_legend

KEYS = ("v_o", "v_i", "T_n", "T_b", "h", "h_1", "n_w", "phi_s", "a_max")
LEXICON = load_lexicon()


def strongest(key: str, *remarks: str, keys: tuple[str, ...] = KEYS) -> list[str]:
    terms = key_reader(remarks, (*keys, key), LEXICON).read(key)
    return [max(sorted(term.ideas), key=lambda idea: term.ideas[idea]) if term.ideas else "" for term in terms]


def test_a_legend_with_signs() -> None:
    legend = read_legend(["h = thickness, v = speed, T = temperature"], {"h", "v", "T"}, LEXICON)
    assert {sign: max(term.ideas, key=lambda idea: term.ideas[idea]) for sign, term in legend.anywhere.items()} == {
        "h": "height",
        "v": "speed",
        "T": "temperature",
    }
    assert all(term.firm for term in legend.anywhere.values())


def test_a_legend_of_indices_says_things_only() -> None:
    legend = read_legend(["Subscripts: 0 opening layer, e external, f filling"], {"0", "e", "f"}, LEXICON)
    assert not legend.anywhere
    assert legend.tails["0"].ideas["first"] == 1
    assert legend.tails["e"].ideas["outer"] == 1
    assert "diameter" not in legend.tails["0"].ideas


def test_a_legend_without_signs_needs_several_definitions() -> None:
    line = "v Geschwindigkeit in mm/s, a Beschleunigung in mm/s2, b Breite in mm"
    assert set(read_legend([line], {"v", "a", "b"}, LEXICON).anywhere) == {"v", "a", "b"}
    assert not read_legend(["a wall is laid first"], {"a", "v"}, LEXICON).anywhere


def test_what_no_key_holds_is_not_read() -> None:
    assert not read_legend(["x = speed, y = width"], {"v", "w"}, LEXICON).anywhere


def test_a_setting_that_is_switched_off_is_no_legend() -> None:
    assert not read_legend(["v = 50"], {"v"}, LEXICON).anywhere
    assert not read_legend(["v = speed"], {"v"}, LEXICON).anywhere


@pytest.mark.parametrize(
    ("key", "ideas"),
    [
        ("v_o", ["speed", "outer"]),
        ("T_n", ["temperature", "nozzle"]),
        ("t_min", ["time", "least"]),
        ("n_w", ["count", "wall"]),
        ("ρ_s", ["density", "support"]),
    ],
)
def test_letters_without_a_legend_are_guessed(key: str, ideas: list[str]) -> None:
    assert strongest(key) == ideas
    assert not any(term.firm for term in key_reader((), KEYS, LEXICON).read("v_o"))


def test_the_case_of_a_letter_counts() -> None:
    assert strongest("T") == ["temperature"]
    assert strongest("t") == ["time"]


def test_a_legend_goes_before_the_guess() -> None:
    assert strongest("v_s", "subscripts: s shell, i infill") == ["speed", "wall"]


def test_letters_that_are_written_together() -> None:
    told = ("v = speed, T = temperature", "index: A outer wall, R pull back")
    assert strongest("vA", *told, keys=("vA", "vR", "TA")) == ["speed", "outer"]
    assert raw_words("φF") == ["φ", "F"]
    assert raw_words("v₀") == ["v", "0"]


def test_keys_of_words_are_read_as_words() -> None:
    reader = key_reader((), ("a thing", "first layer speed", "wall speed", "bed heat"), LEXICON)
    assert not reader.symbolic
    assert [term.text for term in reader.read("first layer speed")] == ["first layer", "speed"]
