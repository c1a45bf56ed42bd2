"""What a recipe's author reads: the word that they wrote, and a text that would do."""

from __future__ import annotations

from pathlib import Path

import pytest

from profilesmith.foundation.problem import Problem
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.sample import sample
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Unreadable, read_value

HEAD = (
    'format = 1\n[recipe]\nname = "own"\nversion = "1.0.0"\n[inputs.share]\nkind = "ratio"\n'
    'ask = "How much?"\n[inputs.fast]\nkind = "speed"\nask = "How fast?"\n'
)


def mistakes(folder: Path, setting: str, demand: str, more: str = "") -> list[Problem]:
    path = folder / "own.toml"
    path.write_text(f'{HEAD}[[rule]]\nsetting = "{setting}"\n{demand}\n{more}', encoding="utf-8")
    recipe, problems = load_recipe(path.read_bytes(), "own.toml", load_vocabulary())
    assert recipe is None
    return problems


@pytest.mark.parametrize(
    ("setting", "demand", "wanted"),
    [
        ("skirt.loops", "raise_to = 3", '"3"'),
        ("outer_wall.speed", "cap = 40", '"40 mm/s"'),
        ("layer.height", "set = 0.15", '"0.15 mm"'),
        ("nozzle.temperature", "shift = -5", '"-5 °C"'),
        ("nozzle.temperature", "shift = true", '"5 °C"'),
        ("support.density", "scale = 70", '"70 %"'),
        ("outer_wall.speed", "scale = nan", '"70 %"'),
        ("outer_wall.speed", "cap = inf", '"40 mm/s"'),
        ("raft.on", "set = true", '"on"'),
        ("raft.on", "set = false", '"off"'),
        ("infill.pattern", "set = 1", '"lines"'),
        ("outer_wall.speed", "cap = 9999999999", '"40 mm/s"'),
        ("no.such", "cap = 40", '"40 mm/s"'),
    ],
)
def test_the_sample_fits_the_setting(tmp_path: Path, setting: str, demand: str, wanted: str) -> None:
    hint = mistakes(tmp_path, setting, demand)[-1].hint
    assert hint == f"Write a text in quotes, such as {wanted}."
    if setting != "no.such":
        written = f"{demand.partition(' = ')[0]} = {wanted}"
        path = tmp_path / "mended.toml"
        path.write_text(f'{HEAD}[[rule]]\nsetting = "{setting}"\n{written}\n', encoding="utf-8")
        assert load_recipe(path.read_bytes(), "mended.toml", load_vocabulary())[1] == [], "what the hint says is taken"


def test_every_kind_has_a_sample_that_reads() -> None:
    for setting in load_vocabulary().settings.values():
        text = sample(setting.kind, None, setting.values).strip('"')
        value = read_value(setting, text)
        assert not isinstance(value, Unreadable), setting
        assert setting.kind != "choice" or text in setting.values


def test_an_example_and_a_title_show_it_too(tmp_path: Path) -> None:
    found = mistakes(
        tmp_path,
        "skirt.loops",
        'raise_to = "3"',
        '[[example]]\ngiven = { "skirt.loops" = 2 }\nexpect = { "skirt.loops" = "3" }\n',
    )
    assert [(item.code, item.hint) for item in found] == [("wrong-type", 'Write "2".')]
    found = mistakes(tmp_path, "skirt.loops", 'raise_to = "3"\nwhy = 3')
    assert [(item.message, item.hint) for item in found] == [
        ("'why' must be a text in quotes, not a number.", 'Write why = "3".')
    ]


@pytest.mark.parametrize(
    "demand",
    [
        'raise_to = { input = "share" }',
        'cap = { fact = "machine.maximum_flow" }',
        'scale = { input = "share" }',
        "window = 3",
    ],
)
def test_of_an_unknown_setting_nothing_else_is_said(tmp_path: Path, demand: str) -> None:
    found = mistakes(tmp_path, "outer_wall.sped", demand)
    assert found[0].code == "unknown-setting"
    assert not any("the setting takes" in item.message for item in found)


def test_kinds_that_differ(tmp_path: Path) -> None:
    assert [item.message for item in mistakes(tmp_path, "outer_wall.speed", 'cap = { input = "share" }')] == [
        "share is a ratio; the setting takes a speed."
    ]
    assert [item.message for item in mistakes(tmp_path, "outer_wall.speed", 'scale = { input = "fast" }')] == [
        "fast is a speed; scale takes a ratio."
    ]


@pytest.mark.parametrize(
    ("group", "demand", "words"),
    [
        ("printing speeds", 'cap = "40 mm"', "is not a speed"),
        ("printing speeds", 'scale = "1.5"', "printing speeds: "),
        ("nozzle temperatures", 'scale = "110 %"', "cannot be multiplied"),
        ("nozzle temperatures", 'cap = { flow = "4 mm3/s" }', "a flow bounds speeds"),
        ("nozzle temperatures", 'shift = "10"', "nozzle temperatures: "),
        ("printing speeds", 'hold = "thickness"', "no thickness"),
    ],
)
def test_a_group_is_called_as_it_was_written(tmp_path: Path, group: str, demand: str, words: str) -> None:
    """Once, and by no member that the file does not name."""
    found = mistakes(tmp_path, group, demand)
    assert len(found) == 1
    assert found[0].message.startswith(f"{group}: ")
    assert words in found[0].message
    assert not any(name in str(found[0]) for name in load_vocabulary().groups[group].members)


@pytest.mark.parametrize(
    ("setting", "demand", "wanted"),
    [
        ("top.layers", "hold = 1", 'Write hold = "thickness" here: layers times layer height'),
        ("infill.density", 'hold = "thickness"', 'Write hold = "line spacing" here'),
        ("nozzle.temperature", 'hold = "20 °C"', "To leave nozzle.temperature as it is, write no rule on it"),
        ("nozzle.temperature", 'hold = { of = "bed.temperature" }', 'It can keep "thickness" (of top.layers, '),
    ],
)
def test_hold_is_explained_where_it_is_refused(tmp_path: Path, setting: str, demand: str, wanted: str) -> None:
    problem = mistakes(tmp_path, setting, demand)[-1]
    assert "hold" in problem.message
    assert wanted in problem.hint
