"""Texts whose keys are codes, explained in a list of their own: in columns, above, behind, gone on with below."""

from pathlib import Path

import pytest

from profilesmith.suggest.detect_habits import find_habits
from profilesmith.suggest.key_runs import run_head
from profilesmith.suggest.key_tables import explained_codes, is_code, tabled_names
from profilesmith.suggest.remark_names import meanings
from profilesmith.workflows.suggest import MapOrder, suggest

NAMES = (
    "height of a layer, mm",
    "outer wall, mm/s",
    "nozzle heat, C",
    "walls",
    "bed heat, C",
    "infill, mm/s",
    "top",
    "floor",
)
VALUES = ("0.2", "40", "210", "3", "60", "70", "5", "4")


def keys(form: str) -> list[str]:
    return [form.format(at) for at in range(8, 8 + len(NAMES))]


@pytest.mark.parametrize("form", ["§{}", "P{}", "{}", "K-{}", "1.{}"])
@pytest.mark.parametrize("sign", [" -> ", " = ", ": ", " "])
def test_a_list_of_two_columns_is_no_row_of_settings(form: str, sign: str) -> None:
    cells = [f"{key} {name}".ljust(40) for key, name in zip(keys(form), NAMES, strict=True)]
    table = "\n".join("".join(cells[at : at + 2]).rstrip() for at in range(0, len(cells), 2))
    rows = "\n".join(f"{key}{sign}{value}" for key, value in zip(keys(form), VALUES, strict=True))
    habits = find_habits([f"{table}\n\n{rows}\n"])
    assert habits.delimiters[0] == (sign.strip() or " ")
    assert not habits.next_key
    assert dict(tabled_names(table.split("\n"), keys(form))) == dict(zip(keys(form), NAMES, strict=True))


def test_a_unit_in_a_column_of_its_own_is_told_with_the_name() -> None:
    lines = [f"  {key}   mm/s   {name}" for key, name in zip(keys("§{}"), NAMES, strict=True)]
    assert tabled_names(lines, keys("§{}"))["§9"] == "mm/s ; outer wall, mm/s"


def test_a_name_goes_on_in_the_line_below_that_is_set_in() -> None:
    lines = [line for key in keys("P{}") for line in (f"{key}  speed of", "      the outer wall")]
    assert set(tabled_names(lines, keys("P{}")).values()) == {"speed of the outer wall"}
    assert explained_codes([*(line.strip() for line in lines), *(f"{key} 3" for key in keys("P{}"))]).lines == set(
        range(len(lines))
    )


def test_a_name_may_stand_before_its_code() -> None:
    lines = [f"{name} ..... {key}" for key, name in zip(keys("P{}"), NAMES, strict=True)]
    assert tabled_names(lines, keys("P{}"))["P9"] == "outer wall, mm/s"


def test_same_is_what_the_name_above_begins_with() -> None:
    lines = [
        "P8 pulling up when laying, mm/s2",
        "P9 same when not laying, mm/s2",
        "P10 ditto, lowest layer",
        "P11 walls",
    ]
    names = tabled_names(lines, keys("P{}"))
    assert (names["P9"], names["P10"]) == ("pulling up, when not laying, mm/s2", "pulling up, lowest layer, mm/s2")


def test_values_of_the_same_key_in_several_sections_are_no_names() -> None:
    assert not tabled_names(["warmth = 205 ; left, right"] * 5, ["warmth"])
    assert not tabled_names(
        [f"{key} = {value} mm" for key, value in zip(keys("P{}"), VALUES, strict=True)], keys("P{}")
    )


def test_words_are_no_codes() -> None:
    assert [key for key in ("§1", "12", "P101", "ab", "1.2", "speed", "wall", "rate.face") if not is_code(key)] == [
        "speed",
        "wall",
        "rate.face",
    ]


@pytest.mark.parametrize("sign", [" ", " = "])
def test_of_a_code_that_a_list_below_explains_the_first_line_counts(tmp_path: Path, sign: str) -> None:
    values = "".join(f"{key}{sign}{value}\n" for key, value in zip(keys("P{}"), VALUES, strict=True))
    names = "".join(f"{key}{sign}{name}\n" for key, name in zip(keys("P{}"), NAMES, strict=True))
    base = tmp_path / "base.card"
    base.write_text(f"{values}\n{names}")
    suggestion = suggest(MapOrder((str(base),))).suggestion
    assert suggestion.text["duplicates"] == "first"
    assert {item.setting: item.text for item in suggestion.proposals}["layer.height"] == "0.2"


def test_letters_are_said_to_mean_shapes() -> None:
    assert meanings("drawing of the core: a straight, b crossed, c wavy cells")["c"] == "wavy cells"
    assert not meanings("speed, a little slower")


def test_what_heads_a_run_of_keys_is_said_of_each() -> None:
    lines = ["d1..d3 rates, mm/min:", "d1  lowest sheet      d2  ring outside", "d3  roof", "e1  tip, F"]
    names = tabled_names(lines, {"d1", "d2", "d3", "e1"})
    assert names["d2"] == "ring outside, rates, mm/min"
    assert names["e1"] == "tip, F"


@pytest.mark.parametrize("line", ["d1 to d3: rates", "d1-d3 rates", "d1 … d3  rates", "d1 bis 3: rates"])
def test_ways_of_writing_a_run(line: str) -> None:
    run = run_head(line)
    assert run is not None
    assert [key for key in ("d1", "d3", "d4", "e2") if run.covers(key)] == ["d1", "d3"]


@pytest.mark.parametrize("line", ["d1 0.2 mm", "d1 ring outside", "3-5 layers", "d5..d2 rates"])
def test_what_is_no_run(line: str) -> None:
    assert run_head(line) is None


def test_pronouns_point_at_the_name_before() -> None:
    lines = [
        "g1  tight sheets at the head of a prop",
        "g2  fullness of those, fraction",
        "h1  blower over the part",
        "h2  layers before it starts",
        "j1  rate of speeding up when laying, mm/s2",
        "j2  the same for empty moves",
    ]
    names = tabled_names(lines, {line.split()[0] for line in lines})
    assert names["g2"] == "fullness of those, fraction, tight sheets at the head of a prop"
    assert names["h2"] == "layers before it starts, blower"
    assert names["j2"] == "rate of speeding up, for empty moves, mm/s2"
