"""Recipe files: what is read, and every refusal. A refusal in the source that no example here brings about fails a
test.

A recipe is a stranger's text: nothing in it may be taken and mean nothing.
"""

from __future__ import annotations

import ast
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

import profilesmith.recipe.load_recipe as loading
import profilesmith.recipe.read_rule as reading
from profilesmith.recipe.recipe import CountRef, FactRef, Fixed, FlowRef, InputRef, SettingRef

ReadRecipe = Callable[..., Any]
SPEED, HEAT = "outer_wall.speed", "nozzle.temperature"


def rule(setting: str, more: str) -> str:
    return f'[[rule]]\nsetting = "{setting}"\n{more}\n'


CAP = rule(SPEED, 'cap = "40 mm/s"')
EXAMPLE = '[[example]]\ngiven = { "outer_wall.speed" = "80 mm/s" }\nexpect = { "outer_wall.speed" = "40 mm/s" }\n'
ASKED = '[inputs.melt]\nkind = "flow"\nask = "How much?"\n'

REFUSED: dict[str, tuple[str, ...]] = {
    "version": ('version = "1"\n', 'version = "01.0.0"\n', 'version = "1.0.0 "\n'),
    "no-rule": ("",),
    "too-many": (CAP * 501,),
    "input-kind": (
        '[inputs.x]\nkind = "taste"\nask = "?"\n' + CAP,
        '[inputs.x]\nkind = "flow windows"\nask = "?"\n' + CAP,
    ),
    "unknown-fact": (
        '[inputs.x]\nkind = "flow"\nask = "?"\nfact = "spool.flow"\n' + CAP,
        rule(SPEED, 'cap = { fact = "spool.melt" }'),
        rule(SPEED, 'cap = "40 mm/s"\nwhen = { "machine.colour" = "red" }'),
    ),
    "input-fact": ('[inputs.x]\nkind = "flow"\nask = "?"\nfact = "spool.nozzle_window"\n' + CAP,),
    "default": (
        '[inputs.x]\nkind = "flow"\nask = "?"\ndefault = "4 mm"\n' + CAP,
        '[inputs.x]\nkind = "temperature window"\nask = "?"\ndefault = ["220 °C", "210 °C"]\n' + CAP,
    ),
    "unknown-setting": (
        rule("outer_wall.sped", 'cap = "1 mm/s"'),
        rule(SPEED, 'cap = "1 mm/s"\nexcept = ["walls"]'),
        CAP + '[[example]]\ngiven = { "rim" = "1" }\nexpect = { "outer_wall.speed" = "40 mm/s" }\n',
    ),
    "unknown-input": (
        rule(SPEED, 'cap = { flow = { input = "melt" } }'),
        CAP + ASKED + EXAMPLE + 'answers = { melted = "1 mm3/s" }\n',
    ),
    "no-expect": (CAP + '[[example]]\ngiven = { "outer_wall.speed" = "80 mm/s" }\n',),
    "no-setting": (
        rule("travel.speed", 'except = ["travel.speed"]\ncap = "40 mm/s"'),
        '[[rule]]\nsetting = []\ncap = "40 mm/s"\n',
    ),
    "read-only": (rule("nozzle.diameter", 'set = "0.6 mm"'),),
    "no-operation": (rule(SPEED, 'why = "x"'),),
    "unknown-operation": (rule(SPEED, 'rais_to = "20 mm/s"\nwhy = "x"'),),
    "operations": (
        rule(SPEED, 'set = "1 mm/s"\ncap = "2 mm/s"'),
        rule(SPEED, 'scale = "50 %"\nshift = "1 mm/s"'),
        rule(SPEED, 'window = ["1 mm/s", "2 mm/s"]\ncap = "3 mm/s"'),
        rule(SPEED, 'set = "1 mm/s"\ncap = "2 mm/s"\nscale = "50 %"'),  # three that do not go together are one mistake
    ),
    "operand": (
        rule(SPEED, "cap = 40"),
        rule(SPEED, 'cap = "40"'),
        rule(SPEED, 'cap = "40 mm"'),
        rule(SPEED, 'cap = "fast"'),
        rule(SPEED, 'cap = "1e999 mm/s"'),
        rule(SPEED, "cap = nan"),
        rule(SPEED, "cap = []"),
        rule(SPEED, 'cap = ["1 mm/s", "2 mm/s"]'),
        rule(SPEED, 'window = "40 mm/s"'),
        rule(SPEED, 'window = ["40 mm/s"]'),
        rule("raft.on", 'cap = "on"'),
        rule("raft.on", 'set = "yes"'),
        rule("raft.on", "set = true"),
        rule("infill.pattern", 'set = "wobbly"'),
        rule("infill.pattern", 'raise_to = "grid"'),
        rule(HEAT, 'scale = "110 %"'),
        rule(SPEED, 'scale = "1.5"'),
        rule(HEAT, 'shift = "10"'),
        rule(SPEED, 'hold = "thickness"'),
        rule("top.layers", 'hold = "weight"'),
        rule("top.layers", 'hold = { of = "bottom.layers" }'),
        rule(SPEED, "cap = { of = 3 }"),
        rule(SPEED, 'cap = { of = "raft.on" }'),
        rule(SPEED, 'cap = { of = "layer.height" }'),
        rule(HEAT, 'cap = { of = "first_layer.nozzle_temperature", times = 2 }'),
        rule(SPEED, 'cap = { of = "infill.speed", times = "many" }'),
        rule(SPEED, 'cap = { of = "infill.speed", plus = "3 mm" }'),
        rule(SPEED, 'cap = { of = "infill.speed", minus = "3 mm/s" }'),
        rule(SPEED, "cap = { }"),
        rule("layer.height", 'cap = { flow = "4 mm3/s" }'),
        rule(SPEED, 'cap = { flow = "4 mm" }'),
        rule(SPEED, "cap = { flow = 4 }"),
        rule(SPEED, 'cap = { flow = { fact = "machine.nozzle_diameter" } }'),
        rule(SPEED, 'cap = { fact = "machine.nozzle_diameter" }'),
        rule(HEAT, 'cap = { fact = "spool.nozzle_window" }'),
        rule("layer.height", 'window = { fact = "machine.nozzle_diameter" }'),
        rule(SPEED, 'cap = { fact = "machine.drive" }'),
        rule(SPEED, 'cap = { fact = "spool.hardness" }'),
        rule(SPEED, 'window = { of = "infill.speed" }'),
        rule(HEAT, 'window = [{ fact = "spool.nozzle_window" }, "220 °C"]'),
        rule("raft.on", 'set = { fact = "machine.drive" }'),
    ),
    "when": (
        rule(SPEED, 'cap = "1 mm/s"\nwhen = { "machine.drive" = "sideways" }'),
        rule(SPEED, 'cap = "1 mm/s"\nwhen = { "machine.tube_length" = "> 3" }'),
        rule(SPEED, 'cap = "1 mm/s"\nwhen = { "machine.tube_length" = "> 3 °C" }'),
        rule(SPEED, 'cap = "1 mm/s"\nwhen = { "machine.tube_length" = "long" }'),
        rule(SPEED, 'cap = "1 mm/s"\nwhen = { "machine.drive" = ["direct", "both"] }'),
        rule(SPEED, 'cap = "1 mm/s"\nwhen = { "spool.nozzle_window" = "> 210 °C" }'),
        rule(SPEED, 'cap = "1 mm/s"\nwhen = { "machine.tube_length" = ["300 mm", "400 mm"] }'),
    ),
    "missing": ('[inputs.x]\nkind = "flow"\n' + CAP, '[[rule]]\ncap = "40 mm/s"\n', CAP + "[inputs.x]\n"),
    "wrong-type": (
        "title = 3\n" + CAP,
        f'[rule]\nsetting = "{SPEED}"\n',
        rule(SPEED, 'cap = "40 mm/s"\nwhy = 3'),
        "cautions = [1]\n" + CAP,
        rule(SPEED, 'cap = "1 mm/s"\nwhen = "always"'),
        CAP + '[[example]]\ngiven = { "outer_wall.speed" = 80 }\nexpect = { "outer_wall.speed" = "40 mm/s" }\n',
    ),
    "unknown-key": (
        rule(SPEED, 'cap = "40 mm/s"\nwhy_not = "x"'),
        "colour = 1\n" + CAP,
        CAP + "[script]\nrun = 1\n",
        CAP + EXAMPLE + "then = 1\n",
        ASKED + "size = 1\n" + CAP,
    ),
}
ALSO = {"wrong-type-1": ["no-rule"], "missing-2": ["missing", "input-kind"]}
"""What follows from a mistake without a second one."""
EXAMPLES = [
    pytest.param(code, text, id=f"{code}-{number}")
    for code, texts in REFUSED.items()
    for number, text in enumerate(texts)
]


def read(text: str, read_recipe: ReadRecipe, tmp_path: Path) -> Any:
    """The recipe of a text; one that begins with its own version gets no other."""
    if not text.startswith("version"):
        return read_recipe(text)
    from profilesmith.vocabulary.load_vocabulary import load_vocabulary

    path = tmp_path / "own.toml"
    path.write_text(f'format = 1\n[recipe]\nname = "own"\n{text}{CAP}', encoding="utf-8")
    return loading.load_recipe(path.read_bytes(), "own.toml", load_vocabulary())


@pytest.mark.parametrize(("code", "text"), EXAMPLES)
def test_refused(code: str, text: str, read_recipe: ReadRecipe, tmp_path: Path, request: pytest.FixtureRequest) -> None:
    """Each mistake is told, and told once: a second complaint about one line sends a keeper looking for two."""
    recipe, problems = read(text, read_recipe, tmp_path)
    assert recipe is None
    assert [problem.code for problem in problems] == [code, *ALSO.get(request.node.callspec.id, [])], problems
    for problem in problems:
        assert problem.place.file.endswith(".toml")
        assert problem.message.endswith((".", "?")), problem


def test_every_refusal_says_what_to_do(read_recipe: ReadRecipe, tmp_path: Path) -> None:
    problems = [
        problem for texts in REFUSED.values() for text in texts for problem in read(text, read_recipe, tmp_path)[1]
    ]
    assert sorted({problem.message for problem in problems if not problem.hint.endswith((".", "?"))}) == []


def test_everything_that_a_recipe_says_is_read() -> None:
    """What is read and then forgotten is missing from a ledger, a page or a check, and nobody notices."""
    from profilesmith.vocabulary.load_vocabulary import load_vocabulary

    text = f"""format = 1
[recipe]
name = "soft"
version = "1.2.0-rc.1+b"
title = "Soft"
from = "rigid PLA"
to = "flexible PLA"
licence = "CC0-1.0"
authors = ["a", "b"]
cautions = ["dry it"]
goes_with = ["slow"]
[inputs.fill]
kind = "choice"
values = ["grid", "gyroid"]
default = "grid"
ask = "Which?"
[inputs.heat]
kind = "temperature window"
fact = "spool.nozzle_window"
default = ["210 °C", "220 °C"]
ask = "Window?"
{CAP}why = "w"
source = "s"
[[example]]
given = {{ "outer_wall.speed" = "80 mm/s" }}
facts = {{ "machine.drive" = "direct" }}
answers = {{ fill = "gyroid" }}
expect = {{ "outer_wall.speed" = "40 mm/s" }}
"""
    recipe, problems = loading.load_recipe(text.encode(), "soft.toml", load_vocabulary())
    assert problems == []
    assert recipe is not None
    assert recipe.raw == text.encode()
    assert (recipe.name, recipe.version, recipe.title) == ("soft", "1.2.0-rc.1+b", "Soft")
    assert (recipe.source_material, recipe.target_material, recipe.licence) == ("rigid PLA", "flexible PLA", "CC0-1.0")
    assert (recipe.authors, recipe.cautions, recipe.goes_with) == (("a", "b"), ("dry it",), ("slow",))
    assert recipe.file == "soft.toml"
    fill, heat = recipe.inputs.values()
    assert (fill.name, fill.kind.kind, fill.kind.values, fill.default, fill.ask) == (
        "fill",
        "choice",
        ("grid", "gyroid"),
        "grid",
        "Which?",
    )
    assert (heat.fact, heat.kind.kind, heat.kind.unit_kind) == ("spool.nozzle_window", "window", "temperature")
    assert heat.default == (Fraction(210), Fraction(220))
    (made,) = recipe.rules
    assert (made.number, made.named, made.settings, made.why, made.source) == (1, (SPEED,), (SPEED,), "w", "s")
    assert (made.place.file, made.place.line) == ("soft.toml", 22)
    (example,) = recipe.examples
    assert (example.given, example.facts) == ({SPEED: "80 mm/s"}, {"machine.drive": "direct"})
    assert (example.answers, example.expect) == ({"fill": "gyroid"}, {SPEED: "40 mm/s"})
    assert example.place.line == 27
    bare, _ = loading.load_recipe(
        f'format = 1\n[recipe]\nname = "x"\nversion = "1.0.0"\n{CAP}'.encode(), "x.toml", load_vocabulary()
    )
    assert bare is not None
    assert (bare.authors, bare.cautions, bare.goes_with, bare.inputs, bare.examples) == ((), (), (), {}, ())


def test_as_many_rules_as_are_allowed_are_read(read_recipe: ReadRecipe, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(loading, "MOST_RULES", 2)
    recipe, problems = read_recipe(CAP * 2)
    assert (problems, len(recipe.rules)) == ([], 2)
    assert [problem.code for problem in read_recipe(CAP * 3)[1]] == ["too-many"]


@pytest.mark.parametrize("raw", [b"format = 1\n[recipe\n", b"\xff", b"format = 2\n"])
def test_what_is_no_recipe_at_all_is_one_problem(raw: bytes) -> None:
    from profilesmith.vocabulary.load_vocabulary import load_vocabulary

    recipe, problems = loading.load_recipe(raw, "own.toml", load_vocabulary())
    assert recipe is None
    assert [problem.place.file for problem in problems] == ["own.toml"]


@pytest.mark.parametrize(
    ("head", "messages"),
    [
        ("", ["'recipe' is missing.", "'name' is missing.", "'version' is missing."]),
        ("[recipe]\n", ["'name' is missing.", "'version' is missing."]),
        ('[recipe]\nname = "x"\n', ["'version' is missing."]),
        ('[recipe]\nversion = "1.0.0"\n', ["'name' is missing."]),
    ],
)
def test_a_recipe_says_who_it_is(head: str, messages: list[str]) -> None:
    """Ledgers name rules by it: without a name and a version nobody can tell later what was done."""
    from profilesmith.vocabulary.load_vocabulary import load_vocabulary

    recipe, problems = loading.load_recipe(f"format = 1\n{head}{CAP}".encode(), "own.toml", load_vocabulary())
    assert recipe is None
    assert [problem.message for problem in problems] == messages


def codes_in(module: Any) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(Path(module.__file__).read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "complain":
            found |= {item.value for item in node.args[:1] if isinstance(item, ast.Constant)}
    return found


def test_every_refusal_has_an_example() -> None:
    codes = codes_in(loading) | codes_in(reading)
    assert len(codes) > 10
    assert codes <= REFUSED.keys()


def test_all_mistakes_in_one_run_each_with_its_line(read_recipe: ReadRecipe) -> None:
    _, problems = read_recipe(
        rule("nonsense", 'cap = "1 mm/s"') + rule(SPEED, 'cap = "1 mm"') + rule(SPEED, 'cap = "1 mm/s"\nwhi = 1')
    )
    assert [(problem.code, problem.place.line) for problem in problems] == [
        ("unknown-setting", 6),
        ("operand", 10),
        ("unknown-key", 14),
    ]


@pytest.mark.parametrize(
    ("text", "operand"),
    [
        ('cap = "40 mm/s"', Fixed("40 mm/s")),
        ('cap = ["40 mm/s"]', Fixed("40 mm/s")),
        ('cap = { of = "infill.speed" }', SettingRef("infill.speed")),
        (
            'cap = { of = "infill.speed", times = 1.1, plus = "-3 mm/s" }',
            SettingRef("infill.speed", Fraction("1.1"), "-3 mm/s"),
        ),
        ('cap = { flow = "4 mm3/s" }', FlowRef(Fixed("4 mm3/s"))),
        ('cap = { flow = { fact = "spool.maximum_flow" } }', FlowRef(FactRef("spool.maximum_flow"))),
        ('cap = { flow = { input = "melt" } }', FlowRef(InputRef("melt"))),
    ],
)
def test_operands(text: str, operand: object, read_recipe: ReadRecipe) -> None:
    recipe, problems = read_recipe(ASKED + rule(SPEED, text))
    assert problems == []
    assert recipe.rules[0].actions[0].operands == (operand,)


@pytest.mark.parametrize(
    ("setting", "text", "operand"),
    [
        ("wall.count", 'raise_to = { beads_for = "0.9 mm" }', CountRef("beads_for", Fixed("0.9 mm"))),
        (
            "top.layers",
            'aim = { layers_for = { fact = "part.sanding_allowance" }, plus = "0.6 mm" }',
            CountRef("layers_for", FactRef("part.sanding_allowance"), Fixed("0.6 mm")),
        ),
    ],
)
def test_counts_of_lengths(setting: str, text: str, operand: object, read_recipe: ReadRecipe) -> None:
    recipe, problems = read_recipe(rule(setting, text))
    assert problems == []
    assert recipe.rules[0].actions[0].operands == (operand,)


@pytest.mark.parametrize(
    ("setting", "text", "word"),
    [
        ("top.layers", 'raise_to = { beads_for = "0.9 mm" }', "makes no such number"),
        ("wall.count", 'raise_to = { layers_for = "0.9 mm" }', "makes no such number"),
        ("wall.count", 'raise_to = { beads_for = "9" }', "is no length"),
        ("wall.count", 'raise_to = { beads_for = { fact = "spool.maximum_flow" } }', "is no length"),
        ("wall.count", 'raise_to = { beads_for = "1 mm", plus = 2 }', "is no length"),
        ("wall.count", 'scale = { beads_for = "1 mm" }', "makes no such number"),
    ],
)
def test_counts_that_are_none(setting: str, text: str, word: str, read_recipe: ReadRecipe) -> None:
    _, problems = read_recipe(rule(setting, text))
    assert [problem.code for problem in problems] == ["operand"]
    assert word in problems[0].message


def test_groups_lists_and_exceptions(read_recipe: ReadRecipe) -> None:
    recipe, _ = read_recipe(
        '[[rule]]\nsetting = ["printing speeds", "travel.speed"]\n'
        'except = ["first_layer.speed", "raft.speed"]\ncap = "40 mm/s"\n'
    )
    settings = recipe.rules[0].settings
    assert "travel.speed" in settings
    assert "retraction.speed" not in settings
    assert not {"first_layer.speed", "raft.speed"} & set(settings)
    assert len(settings) == len(set(settings)) == 8


@pytest.mark.parametrize(
    ("operation", "once"),
    [
        ('scale = "50 %"', True),
        ('shift = "1 mm/s"', True),
        ('cap = "40 mm/s"', False),
        ('set = "40 mm/s"', False),
        (f'cap = "40 mm/s"\n[[rule]]\nsetting = "{SPEED}"\nscale = "50 %"', True),
    ],
)
def test_what_is_to_be_applied_once(operation: str, once: bool, read_recipe: ReadRecipe) -> None:
    recipe, _ = read_recipe(rule(SPEED, operation))
    assert recipe.once is once


def test_a_version_of_three_plain_numbers_needs_no_pattern(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nearly every recipe has one, and to compile the pattern takes longer than to read the recipe."""
    monkeypatch.setattr(loading, "VERSION", None)
    assert all(map(loading._is_version, ("1.0.0", "0.0.0", "10.20.300", "0.1.10", "1.0.123456789")))
    with pytest.raises(AttributeError):
        loading._is_version("1.0.0-rc.1")
