"""Keys split where a reader would split them."""

import pytest

from profilesmith.suggest.key_words import field_names, fold, spellings, split_words


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("firstLayerTemp", ["first", "layer", "temp"]),
        ("outer_wall.speed-mm/s", ["outer", "wall", "speed", "mm", "s"]),
        ("wall[0].speed", ["wall", "0", "speed"]),
        ("Tempo Außenwand", ["tempo", "aussenwand"]),
        ("L1_TN", ["l", "1", "tn"]),
        ("NozzleMM", ["nozzle", "mm"]),
        ("GANTRY SLIP", ["gantry", "slip"]),
        ("vitesse_première_couche", ["vitesse", "premiere", "couche"]),
        ("HTTPPort", ["http", "port"]),
        ("скорость стенки", ["скорость", "стенки"]),
        ("???", []),
    ],
)
def test_words_of_a_key(key: str, words: list[str]) -> None:
    assert split_words(key) == words


def test_case_and_accents_are_folded_away() -> None:
    assert fold("DÜSE") == fold("Düse") == "duse"
    assert fold("Straße") == "strasse"
    assert fold("cœur") == "coeur"


def test_umlauts_may_be_written_out() -> None:
    assert spellings("höhe") == {"hohe", "hoehe"}


def test_a_packed_key_names_its_fields() -> None:
    assert field_names("Hitze Grund Düse/Bett", "/", 2) == ["Hitze Grund Düse", "Hitze Grund Bett"]


@pytest.mark.parametrize(("key", "separator"), [("pair", "/"), ("a/b/c", "/"), ("a b", " "), ("/x", "/")])
def test_a_key_that_does_not_name_them_is_every_fields_name(key: str, separator: str) -> None:
    assert field_names(key, separator, 2) == [key, key]
