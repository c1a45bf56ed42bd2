"""The data files under knowledge/, held against rules that the program's own readers know nothing of.

Outside checks: two rows of a published table that are known to be wrong (IJB 2023, 9(5), 756, table 2: PLA with a
modulus of 2.097 MPa and a glass transition of 107 °C) must fall outside the ranges. Values that work and values in a
wrong unit are common practice, no source.
"""

from __future__ import annotations

import re
import tomllib
import unicodedata
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

KNOWLEDGE = Path(__file__).resolve().parents[2] / "profilesmith" / "knowledge"
LANGUAGES = ("de", "fr")

# Copied from the settled table of settings, in its order: adding or losing a setting is a decision, not a slip.
TABLE = """
    layer.height layer.minimum_time first_layer.height first_layer.speed first_layer.bead_width
    first_layer.nozzle_temperature first_layer.bed_temperature first_layer.acceleration bead.width bead.flow wall.count
    outer_wall.speed outer_wall.bead_width outer_wall.acceleration inner_wall.speed top.layers bottom.layers top.speed
    bottom.speed infill.density infill.pattern infill.speed infill.overlap bridge.speed bridge.fan support.on
    support.density support.pattern support.overhang_angle support.gap support.side_gap support.contact_layers
    support.contact_density support.speed raft.on raft.layers raft.gap raft.margin raft.speed brim.on brim.width
    skirt.loops nozzle.diameter nozzle.temperature bed.temperature chamber.temperature fan.power fan.minimum_power
    fan.off_layers retraction.on retraction.distance retraction.speed retraction.minimum_travel retraction.lift
    travel.speed travel.acceleration print.acceleration filament.diameter filament.maximum_flow
"""
SETTINGS = tuple(TABLE.split())
UNIT = {
    "length": "mm",
    "speed": "mm/s",
    "acceleration": "mm/s2",
    "temperature": "°C",
    "ratio": "%",
    "angle": "°",
    "duration": "s",
    "flow": "mm3/s",
    "count": "",
    "density": "g/cm3",
    "pressure": "MPa",
    "mass": "g",
    "stiffness": "N/mm",
}
LONGER_UNITS = {"m": ("length", 1000), "min": ("duration", 60), "h": ("duration", 3600), "kg": ("mass", 1000)}
PATTERNS = ["lines", "grid", "triangles", "hexagons", "gyroid", "concentric", "cubic"]
TRIGGERS = {"always", "heat", "liner", "long_print", "drying", "sanding", "painting", "skin"}
MARKS = {"looked up", "from memory", "computed", "common practice"}


def load(name: str) -> dict[str, Any]:
    data = tomllib.loads((KNOWLEDGE / name).read_text(encoding="utf-8"))
    assert data.pop("format") == 1
    return data


VOCABULARY = load("vocabulary.toml")
MATERIALS = load("materials.toml")
FACTS = load("facts.toml")["facts"]
RANGES = [(name, key) for name, own in MATERIALS["materials"].items() for key in own if isinstance(own[key], dict)]


def amount(text: str, kind: str) -> Decimal:
    """The number of ``"12 mm"`` in the canonical unit of a kind; fails on any other unit or spelling."""
    number, _, unit = text.partition(" ")
    assert re.fullmatch(r"-?\d+(\.\d+)?", number), text
    if unit in LONGER_UNITS and LONGER_UNITS[unit][0] == kind:
        return Decimal(number) * LONGER_UNITS[unit][1]
    assert unit == UNIT[kind], f"{text}: {kind} is in {UNIT[kind]!r}"
    return Decimal(number)


def plausible(setting: str) -> tuple[Decimal, Decimal]:
    table = VOCABULARY["settings"][setting]
    return amount(table["plausible"][0], table["kind"]), amount(table["plausible"][1], table["kind"])


def test_every_setting_is_there_exactly_once_and_in_order() -> None:
    assert len(SETTINGS) == len(set(SETTINGS))
    assert tuple(VOCABULARY["settings"]) == SETTINGS


@pytest.mark.parametrize("setting", SETTINGS)
def test_a_setting_is_complete(setting: str) -> None:
    table = VOCABULARY["settings"][setting]
    assert table["area"] in VOCABULARY["areas"]
    assert table["meaning"]
    assert 3 <= len(table["words"]) <= 8
    if table["kind"] in ("switch", "choice"):
        assert "plausible" not in table
        assert "resolution" not in table
        assert (table.get("values") == PATTERNS) == (table["kind"] == "choice")
        return
    low, high = plausible(setting)
    step = amount(table["resolution"], table["kind"])
    assert 0 < step < high - low
    assert low < high
    assert "values" not in table
    usual = [amount(text, table["kind"]) for text in table["usual"]]
    typical = [amount(text, table["kind"]) for text in table["typical"]]
    assert low <= usual[0] <= typical[0] < typical[1] <= usual[1] <= high


def test_areas_are_all_used() -> None:
    assert {table["area"] for table in VOCABULARY["settings"].values()} == set(VOCABULARY["areas"])


def test_groups_follow_their_rules() -> None:
    rules = {
        "printing speeds": r"(?!travel|retraction).*\.speed",
        "accelerations": r".*\.acceleration",
        "nozzle temperatures": r"nozzle\.temperature|.*\.nozzle_temperature",
        "bed temperatures": r"bed\.temperature|.*\.bed_temperature",
    }
    assert set(VOCABULARY["groups"]) == set(rules)
    for name, rule in rules.items():
        group = VOCABULARY["groups"][name]
        assert group["meaning"]
        assert group["members"] == [setting for setting in SETTINGS if re.fullmatch(rule, setting)]


@pytest.mark.parametrize("kind_end", [("speed", "3600"), ("acceleration", "1"), ("temperature", "558")])
def test_no_setting_of_a_kind_admits_a_value_of_a_wrong_unit(kind_end: tuple[str, str]) -> None:
    """60 mm/s in mm/min, 1000 mm/s2 in m/s2, 285 °C in K."""
    kind, number = kind_end
    names = [name for name in SETTINGS if VOCABULARY["settings"][name]["kind"] == kind]
    assert names
    for name in names:
        low, high = plausible(name)
        assert not low <= Decimal(number) <= high, name


WRONG_UNIT = [
    ("layer.height", "200"),
    ("layer.height", "0.008"),
    ("bead.width", "450"),
    ("bead.flow", "1"),
    ("support.gap", "200"),
    ("filament.diameter", "1750"),
    ("nozzle.diameter", "400"),
    ("layer.minimum_time", "5000"),
    ("bed.temperature", "333"),
    ("fan.power", "255"),
    ("nozzle.temperature", "0"),
    ("support.overhang_angle", "135"),
    ("raft.gap", "150"),
]


@pytest.mark.parametrize(("setting", "number"), WRONG_UNIT)
def test_a_value_in_a_wrong_unit_is_outside(setting: str, number: str) -> None:
    low, high = plausible(setting)
    assert not low <= Decimal(number) <= high


CAN_BE_ZERO = """bed.temperature first_layer.bed_temperature chamber.temperature fan.power fan.minimum_power bridge.fan
    fan.off_layers retraction.distance retraction.lift brim.width skirt.loops raft.gap support.gap layer.minimum_time
    infill.density wall.count top.layers bottom.layers raft.layers support.contact_layers"""
WORKING = [(name, "0") for name in CAN_BE_ZERO.split()] + [
    ("layer.height", "0.05"),
    ("layer.height", "1.5"),
    ("bead.width", "0.45"),
    ("bead.width", "8"),
    ("outer_wall.speed", "10"),
    ("infill.speed", "500"),
    ("nozzle.temperature", "75"),
    ("nozzle.temperature", "450"),
    ("bed.temperature", "160"),
    ("bead.flow", "112.5"),
    ("support.overhang_angle", "65"),
    ("infill.overlap", "25"),
    ("filament.diameter", "2.85"),
    ("filament.maximum_flow", "1.2"),
    ("retraction.distance", "6.5"),
    ("print.acceleration", "20000"),
    ("brim.width", "20"),
]


@pytest.mark.parametrize(("setting", "number"), WORKING)
def test_a_working_value_is_inside(setting: str, number: str) -> None:
    low, high = plausible(setting)
    assert low <= Decimal(number) <= high


def spellings(word: str) -> set[str]:
    """A word as a key may spell it: as it is, without accents, with umlauts written out."""
    bare = "".join(letter for letter in unicodedata.normalize("NFD", word) if not unicodedata.combining(letter))
    written_out = word.replace("ä", "ae").replace("ö", "oe").replace("ü", "ue").replace("ß", "ss")
    return {form.replace(" ", "").replace("-", "").replace("'", "") for form in (word, bare, written_out)}


def all_words() -> list[tuple[str, str]]:
    pairs = [(name, word) for name, table in VOCABULARY["settings"].items() for word in table["words"]]
    for language in LANGUAGES:
        words = load(f"vocabulary.{language}.toml")["words"]
        pairs += [(name, word) for name, own in words.items() for word in own]
    return pairs


def test_no_word_is_claimed_by_two_settings() -> None:
    owner = {re.sub("[._]", "", name): name for name in SETTINGS}
    for name, word in all_words():
        assert word == word.lower() == word.strip()
        for form in spellings(word):
            assert owner.setdefault(form, name) == name, f"{word!r} means {owner[form]} and {name}"


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_language_covers_every_setting(language: str) -> None:
    data = load(f"vocabulary.{language}.toml")
    assert data["language"] == language
    assert tuple(data["words"]) == SETTINGS
    for words in data["words"].values():
        assert 2 <= len(words) == len(set(words)) <= 6


@pytest.mark.parametrize("name", FACTS)
def test_a_fact_is_complete(name: str) -> None:
    fact = FACTS[name]
    assert re.fullmatch(r"(machine|spool|part)\.[a-z_]+", name)
    assert fact["meaning"]
    assert fact["ask"].endswith("?")
    measured = fact["kind"] in ("quantity", "window")
    assert fact["kind"] in ("choice", "quantity", "window", "text", "hardness")
    assert measured == ("unit_kind" in fact) == ("plausible" in fact)
    assert (fact["kind"] == "choice") == (len(fact.get("values", ())) >= 2)
    if measured:
        low, high = (amount(text, fact["unit_kind"]) for text in fact["plausible"])
        assert low < high


def test_limits_name_settings_and_facts_of_one_kind() -> None:
    limits = load("limits.toml")["limit"]
    assert limits
    for limit in limits:
        assert limit["as"] == "cap"
        assert limit["why"]
        assert limit["source"]
        for setting in limit["setting"]:
            assert VOCABULARY["settings"][setting]["kind"] == FACTS[limit["fact"]]["unit_kind"]


@pytest.mark.parametrize(("material", "key"), RANGES)
def test_a_material_range_is_a_range_with_a_source(material: str, key: str) -> None:
    found = MATERIALS["materials"][material][key]
    kind = MATERIALS["properties"][key]["kind"]
    low, high = amount(found["low"], kind), amount(found["high"], kind)
    least, most = (amount(text, kind) for text in found["plausible"])
    assert least <= low < high <= most
    assert found["low"].endswith(f" {found['unit']}")
    assert found["high"].endswith(f" {found['unit']}")
    assert found["source"]
    assert found["mark"] in MARKS


def test_materials_have_names_that_do_not_clash() -> None:
    owner: dict[str, str] = {}
    for key, table in MATERIALS["materials"].items():
        assert table["name"]
        assert table["also"]
        assert isinstance(table["flexible"], bool)
        assert table["rubbery"] <= table["flexible"]
        for name in (key, *table["also"]):
            assert owner.setdefault(name.lower(), key) == key


@pytest.mark.parametrize(("key", "number"), [("modulus", "2.097"), ("glass_transition", "107")])
def test_known_bad_rows_of_a_published_table_are_caught(key: str, number: str) -> None:
    least, most = MATERIALS["materials"]["PLA"][key]["plausible"]
    kind = MATERIALS["properties"][key]["kind"]
    assert not amount(least, kind) <= Decimal(number) <= amount(most, kind)


def test_cautions_are_short_sourced_and_defer() -> None:
    cautions = load("cautions.toml")["caution"]
    assert {caution["trigger"] for caution in cautions} == TRIGGERS
    assert len({caution["id"] for caution in cautions}) == len(cautions)
    defers = re.compile("instructions|[Ll]ocal rules|qualified|safety data sheet|label|professionals")
    exposure = re.compile(r"\d\s*(mg|µg|ug|ng|ppm|ppb|fibres|particles)\b", re.IGNORECASE)
    for caution in cautions:
        assert caution["source"]
        assert caution["when"]
        assert defers.search(caution["text"]), caution["id"]
        assert len(re.findall(r"[.!?](?:\s|$)", caution["text"])) <= 2, caution["id"]
        assert not any(exposure.search(str(value)) for value in caution.values()), caution["id"]
        assert ("above" in caution) == (caution["trigger"] in ("heat", "liner"))
        assert ("factor" in caution) == (caution["trigger"] == "long_print")
        assert amount(caution.get("above", "1 °C"), "temperature") > 0
        assert Decimal(caution.get("factor", "2")) > 1
