"""Words to ideas: phrases first, then words, stems, compounds, shortened words."""

import tomllib
from os import environ
from pathlib import Path
from subprocess import run
from sys import executable

import pytest

from profilesmith.suggest.abbreviations import LANGUAGES, LETTERS, shortened
from profilesmith.suggest.ideas import THINGS, load_schemas
from profilesmith.suggest.key_words import split_words
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

KNOWLEDGE = Path(__file__).resolve().parents[2] / "profilesmith" / "knowledge"
IDEAS = set(tomllib.loads((KNOWLEDGE / "vocabulary.en.toml").read_text(encoding="utf-8"))["trade"])
# ideas of what is no setting of ours, and competes for keys
FOREIGN = {"return", "iron", "small", "wipe", "box", "tool"}


def ideas_of(key: str) -> list[set[str]]:
    return [set(term.ideas) for term in load_lexicon().read(split_words(key)) if term.ideas]


def strongest(key: str) -> list[str]:
    terms = [term for term in load_lexicon().read(split_words(key)) if term.ideas]
    return [max(sorted(term.ideas), key=lambda idea: term.ideas[idea]) for term in terms]


@pytest.mark.parametrize(
    ("key", "ideas"),
    [
        ("firstLayerSpeed", ["first", "speed"]),
        ("hot end heat", ["nozzle", "temperature"]),
        ("walls", ["wall"]),
        ("Außenwandgeschwindigkeit", ["outer", "speed"]),
        ("Schichthöhe", ["layer", "height"]),
        ("Schichthoehe", ["layer", "height"]),
        ("épaisseur première couche", ["height", "first"]),
        ("température plateau", ["temperature", "bed"]),
        ("layerheight", ["layer", "height"]),
        ("retractions", ["retraction"]),
    ],
)
def test_ideas_of_a_key(key: str, ideas: list[str]) -> None:
    assert strongest(key) == ideas


def test_a_counted_row_may_be_a_layer() -> None:
    assert {"count", "layer"} <= ideas_of("rows")[0]


def test_the_first_of_counted_things_is_the_first() -> None:
    assert "first" in ideas_of("row[1].pace")[1]


def test_a_particle_needs_no_explaining() -> None:
    terms = load_lexicon().read(split_words("épaisseur de la couche"))
    assert [term.small for term in terms] == [False, True, True, False]


def test_an_unknown_word_stands_for_nothing() -> None:
    assert [(term.text, dict(term.ideas), term.firm) for term in load_lexicon().read(["zzyzx"])] == [
        ("zzyzx", {}, False)
    ]


@pytest.mark.parametrize(
    "word", ["camera", "vorschau", "capteur", "remark", "motor", "ratées", "misslungen", "rejects", "frame may do"]
)
def test_words_that_warn(word: str) -> None:
    assert load_lexicon().word(word)[0].decoy == 1


def test_the_language_of_some_words() -> None:
    lexicon = load_lexicon()
    assert lexicon.language_of(["vitesse", "couche", "buse"]) == "fr"
    assert lexicon.language_of(["tempo", "schicht", "duse"]) == "de"
    assert lexicon.language_of(["zzyzx"]) == ""


@pytest.mark.parametrize(
    ("short", "idea"),
    [
        ("temp", "temperature"),
        ("spd", "speed"),
        ("nz", "nozzle"),
        ("lyr", "layer"),
        ("v", "speed"),
        ("accel", "acceleration"),
    ],
)
def test_shortened_words(short: str, idea: str) -> None:
    found = load_lexicon().word(short)[0].ideas if short in ("temp", "spd", "accel") else shortened(short)
    assert idea in found


@pytest.mark.parametrize("word", ["température", "a1", "lengthy"])
def test_long_or_odd_words_are_no_abbreviations(word: str) -> None:
    assert shortened(word) == {}


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_languages_words_are_complete_and_lower_case(language: str) -> None:
    data = tomllib.loads((KNOWLEDGE / f"vocabulary.{language}.toml").read_text(encoding="utf-8"))
    assert set(data["trade"]) == set(IDEAS)
    assert set(data["like"]) <= IDEAS | FOREIGN
    for table in ("trade", "like", "switch", "patterns", "units", "measured"):
        for words in data[table].values():
            assert len(words) == len(set(words))
            if table != "units":
                assert all(word == word.lower().strip() for word in words)
    assert not set(data["switch"]["on"]) & {"off", "no", "nein", "non"}
    assert set(data["patterns"]) == {"lines", "grid", "triangles", "hexagons", "gyroid", "concentric", "cubic"}


def test_every_setting_is_made_of_ideas_that_have_words() -> None:
    schemas = load_schemas()
    assert schemas.named.keys() == load_vocabulary().settings.keys()
    for schemas_of_kind in schemas.kinds.values():
        for schema in schemas_of_kind:
            assert schema.parts
            assert schema.ideas <= IDEAS | FOREIGN, schema.setting.id
            assert schema.other or any(part.thing for part in schema.parts), schema.setting.id
            assert not schema.setting.is_number or len(schema.typical) == 2
            for number in schema.typical + schema.common:
                assert schema.low <= number <= schema.high, schema.setting.id
    assert THINGS <= IDEAS
    assert {idea for ideas in LETTERS.values() for idea in ideas.split()} <= IDEAS


def test_no_two_settings_are_made_of_the_same_ideas() -> None:
    made = [
        (schema.setting.kind, *sorted(part.number for part in schema.parts)) for schema in load_schemas().named.values()
    ]
    assert len(set(made)) == len(made)


def test_the_lexicon_is_the_same_in_every_process() -> None:
    """Of phrases whose words have the same stems one counts: the same one, however a process hashes texts."""
    program = (
        "from profilesmith.suggest.load_lexicon import load_lexicon\n"
        "print([(stems, term.text) for stems, term in load_lexicon().inflected.items()])"
    )
    said = [
        run(
            [executable, "-c", program], env={**environ, "PYTHONHASHSEED": seed}, capture_output=True, check=True
        ).stdout
        for seed in ("1", "2")
    ]
    assert len(said[0]) > 1000
    assert said[0] == said[1]
