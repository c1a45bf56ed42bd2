"""What rules ask, in words that a maker can read aloud."""

from __future__ import annotations

from pathlib import Path

import pytest

from profilesmith.catalogue.asks import rule_asks
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

HEAD = (
    'format = 1\n[recipe]\nname = "r"\nversion = "1.0.0"\n[inputs.most]\nkind = "flow"\n'
    'ask = "?"\ndefault = "4 mm3/s"\n[inputs.none]\nkind = "speed"\nask = "?"\n'
)


@pytest.mark.parametrize(
    ("setting", "asks", "words"),
    [
        ("outer_wall.speed", 'cap = "40 mm/s"', "at most 40 mm/s"),
        ("print.acceleration", 'cap = "1000 mm/s2"', "at most 1000 mm/s²"),
        ("filament.maximum_flow", 'raise_to = "4 mm3/s"', "at least 4 mm³/s"),
        ("wall.count", 'cap = "2"', "at most 2"),
        ("retraction.minimum_travel", 'raise_to = "1.5 mm"', "at least 1.5 mm"),
        (
            "outer_wall.speed",
            'cap = { flow = { input = "most" } }',
            "at most the speed at which the bead takes most (asked; else 4 mm³/s)",
        ),
        (
            "outer_wall.speed",
            'cap = { flow = { fact = "spool.maximum_flow" } }',
            "at most the speed at which the bead takes the fact spool.maximum_flow",
        ),
        ("outer_wall.speed", 'cap = { input = "none" }', "at most none (asked)"),
        ("travel.speed", 'cap = { of = "outer_wall.speed", times = 2.5 }', "at most 2.5 × outer_wall.speed"),
        (
            "nozzle.temperature",
            'window = ["210 °C", "220 °C"]\naim = "215 °C"',
            "215 °C where the bounds allow; inside 210 °C to 220 °C",
        ),
        ("infill.density", 'shift = "-8 %"', "minus 8 points"),
        ("infill.density", 'shift = "8 %"', "plus 8 points"),
        ("bed.temperature", 'shift = "-5 °C"', "minus 5 °C"),
        ("infill.density", 'scale = "55 %"', "times 55 %"),
        ("top.layers", 'hold = "thickness"', "keep the thickness"),
        ("raft.on", 'set = "on"', "exactly on"),
    ],
)
def test_words(tmp_path: Path, setting: str, asks: str, words: str) -> None:
    path = tmp_path / "r.toml"
    path.write_text(f'{HEAD}[[rule]]\nsetting = "{setting}"\n{asks}\nwhy = "x"\n', encoding="utf-8")
    recipe, problems = load_recipe(path.read_bytes(), "r.toml", load_vocabulary())
    assert recipe is not None, problems
    assert rule_asks(recipe.rules[0], recipe.inputs) == words
