"""Conditions with three answers, inputs, references, flow caps and held products.

Outside checks: shapely's area of a stadium for the bead; the exact layer counts of integer arithmetic.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import product
from typing import Any

import pytest
from shapely.geometry import LineString

from profilesmith.facts.facts import Fact
from profilesmith.foundation.place import Place
from profilesmith.profile.profile import profile_of
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.operations.operation import PRODUCTS
from profilesmith.recipe.resolve import NotKnown, Resolver, settle_inputs
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

ReadRecipe = Callable[..., Any]
F = Fraction
SPEED = '[[rule]]\nsetting = "outer_wall.speed"\n'


def facts(**values: Any) -> dict[str, Fact]:
    return {name.replace("_", ".", 1): Fact(value, Place("f.toml", 1)) for name, value in values.items()}


def said(number: int) -> Fact:
    return Fact(F(number), Place("--answer"), f"{number} mm3/s")


def resolver(recipe: Any, known: dict[str, Fact], answers: dict[str, Any] | None = None) -> Resolver:
    return Resolver(recipe, settle_inputs(recipe, answers or {}, known), known, profile_of({}), load_vocabulary())


YES, NO, OPEN = "yes", "no", "not known"
STATE = {
    YES: {"machine_drive": "direct", "machine_tube_length": F(500)},
    NO: {"machine_drive": "remote", "machine_tube_length": F(100)},
}


@pytest.mark.parametrize("drive", [YES, NO, OPEN])
@pytest.mark.parametrize("length", [YES, NO, OPEN])
def test_a_condition_has_three_answers(drive: str, length: str, read_recipe: ReadRecipe) -> None:
    """Kleene's conjunction: one clear no is a no, whatever else is unknown."""
    recipe, _ = read_recipe(
        SPEED + 'cap = "1 mm/s"\nwhen = { "machine.drive" = "direct", "machine.tube_length" = ">= 30 cm" }\n'
    )
    known = {}
    for name, state in (("machine_drive", drive), ("machine_tube_length", length)):
        if state != OPEN:
            known[name] = STATE[state][name]
    answer = resolver(recipe, facts(**known)).condition(recipe.rules[0].when)
    right = NO if NO in (drive, length) else OPEN if OPEN in (drive, length) else YES
    assert (YES if answer is True else NO if answer is False else OPEN) == right
    if isinstance(answer, NotKnown):
        assert answer.question.text.endswith("?")
        assert answer.question.name == answer.what


@pytest.mark.parametrize(
    ("condition", "fact", "holds"),
    [
        ('"machine.drive" = ["direct", "remote"]', {"machine_drive": "remote"}, True),
        ('"machine.nozzle_diameter" = "0.4 mm"', {"machine_nozzle_diameter": F("0.4")}, True),
        ('"machine.nozzle_diameter" = "400 um"', {"machine_nozzle_diameter": F("0.4")}, True),
        ('"machine.nozzle_diameter" = "!= 0.4 mm"', {"machine_nozzle_diameter": F("0.4")}, False),
        ('"machine.nozzle_diameter" = "< 0.4 mm"', {"machine_nozzle_diameter": F("0.4")}, False),
        ('"machine.liner" = "PTFE"', {"machine_liner": "all-metal"}, False),
        ('"spool.drying_temperature" = "> 104 °F"', {"spool_drying_temperature": F(41)}, True),
    ],
)
def test_conditions(condition: str, fact: dict[str, Any], holds: bool, read_recipe: ReadRecipe) -> None:
    recipe, problems = read_recipe(SPEED + f'cap = "1 mm/s"\nwhen = {{ {condition} }}\n')
    assert problems == []
    assert resolver(recipe, facts(**fact)).condition(recipe.rules[0].when) is holds


def test_answer_fact_default_in_that_order(read_recipe: ReadRecipe) -> None:
    head = '[inputs.melt]\nkind = "flow"\nask = "How much?"\nfact = "spool.maximum_flow"\n'
    recipe, _ = read_recipe(head + 'default = "4 mm3/s"\n' + SPEED + 'cap = { flow = { input = "melt" } }\n')
    known = facts(spool_maximum_flow=F(3))
    assert settle_inputs(recipe, {"melt": said(2)}, known)["melt"][:2] == (F(2), "answer")
    assert settle_inputs(recipe, {"test.melt": said(1), "melt": said(2)}, known)["melt"][:2] == (F(1), "answer")
    assert settle_inputs(recipe, {}, known)["melt"][:2] == (F(3), "fact")
    assert settle_inputs(recipe, {}, {})["melt"] == (F(4), "default", "", "flow")
    bare, _ = read_recipe(head + SPEED + 'cap = { flow = { input = "melt" } }\n')
    assert settle_inputs(bare, {}, {}) == {}


def derived(recipe: Any, values: dict[str, tuple[Any, ...]], known: dict[str, Fact]) -> Any:
    return apply_recipes(profile_of(values), [recipe], known, {}, load_vocabulary())


@pytest.mark.parametrize(
    ("width", "height"),
    [("0.45", "0.2"), ("0.48", "0.3"), ("0.42", "0.1"), ("0.4", "0.2"), ("0.4", "0.4"), ("1.2", "0.8")],
)
@pytest.mark.parametrize(("flow", "share"), [("3", "100"), ("1.5", "95"), ("12", "110")])
def test_a_flow_cap_is_the_flow_over_the_beads_area(
    width: str, height: str, flow: str, share: str, read_recipe: ReadRecipe
) -> None:
    """The area of a stadium after shapely: a line with round ends (a polygon of 4 x 4096 corners, 3e-9 too small)."""
    recipe, _ = read_recipe(SPEED + f'cap = {{ flow = "{flow} mm3/s" }}\n')
    values = {
        "outer_wall.speed": (F(1000),),
        "bead.width": (F(width),),
        "layer.height": (F(height),),
        "bead.flow": (F(share),),
    }
    half = (float(width) - float(height)) / 2
    area = LineString([(-half, 0), (half, 0)]).buffer(float(height) / 2, quad_segs=4096).area
    found = derived(recipe, values, {}).derived.number("outer_wall.speed")
    assert float(found) == pytest.approx(float(flow) / area / (float(share) / 100), rel=1e-7)


def test_the_round_bead_is_the_limit_of_the_stadium() -> None:
    """A bead as wide as high is a circle: pi d^2 / 4."""
    from profilesmith.physics.bead import bead_area_mm2

    assert bead_area_mm2(0.4, 0.4) == pytest.approx(0.12566370614359174)


@pytest.mark.parametrize(
    ("setting", "own", "area_of"),
    [
        ("outer_wall.speed", {"outer_wall.bead_width": (F("0.6"),)}, ("0.6", "0.2")),
        (
            "first_layer.speed",
            {"first_layer.bead_width": (F("0.5"),), "first_layer.height": (F("0.3"),)},
            ("0.5", "0.3"),
        ),
        ("first_layer.speed", {}, ("0.45", "0.2")),
        ("infill.speed", {"outer_wall.bead_width": (F("0.6"),)}, ("0.45", "0.2")),
    ],
)
def test_each_feature_has_its_own_bead(
    setting: str, own: dict[str, Any], area_of: tuple[str, str], read_recipe: ReadRecipe
) -> None:
    from profilesmith.physics.bead import bead_area_mm2

    recipe, _ = read_recipe(f'[[rule]]\nsetting = "{setting}"\ncap = {{ flow = "3 mm3/s" }}\n')
    values = {setting: (F(1000),), "bead.width": (F("0.45"),), "layer.height": (F("0.2"),), **own}
    found = derived(recipe, values, {}).derived.number(setting)
    assert float(found) == pytest.approx(3 / bead_area_mm2(*(float(side) for side in area_of)))


@pytest.mark.parametrize("missing", ["bead.width", "layer.height"])
def test_without_a_bead_the_flow_is_unanswered(missing: str, read_recipe: ReadRecipe) -> None:
    recipe, _ = read_recipe(SPEED + 'cap = { flow = "3 mm3/s" }\n')
    values = {"outer_wall.speed": (F(80),), "bead.width": (F("0.45"),), "layer.height": (F("0.2"),)}
    ledger = derived(recipe, {name: value for name, value in values.items() if name != missing}, {})
    assert ledger.derived.number("outer_wall.speed") == 80
    assert [(row.status, row.question and row.question.name == missing) for row in ledger.rows] == [
        ("unanswered", True)
    ]


def test_a_bead_that_is_thicker_than_wide_is_no_stadium(read_recipe: ReadRecipe) -> None:
    recipe, _ = read_recipe(SPEED + 'cap = { flow = "3 mm3/s" }\n')
    ledger = derived(recipe, {"outer_wall.speed": (F(80),), "bead.width": (F("0.2"),), "layer.height": (F("0.3"),)}, {})
    assert [row.status for row in ledger.rows] == ["unanswered"]


@pytest.mark.parametrize(
    ("layers", "old", "new", "right"),
    [
        (3, "0.2", "0.2", 3),
        (3, "0.2", "0.1", 6),
        (4, "0.2", "0.12", 7),
        (4, "0.15", "0.12", 5),
        (3, "0.2", "0.12", 5),
        (6, "0.2", "0.12", 10),
        (3, "0.2", "0.3", 2),
        (1, "0.3", "0.1", 3),
        (0, "0.2", "0.1", 0),
        (7, "0.07", "0.01", 49),
    ],
)
def test_held_thickness_is_exact(layers: int, old: str, new: str, right: int) -> None:
    """Floats fail here: ``math.ceil(3 * 0.2 / 0.2)`` is 4. The right ones are counted in hundredths of a millimetre."""
    assert PRODUCTS["thickness"].lowest(F(layers), F(old), F(new)) == right
    hundredths, step = layers * round(float(old) * 100), round(float(new) * 100)
    assert right == next(count for count in range(100) if count * step >= hundredths)


def test_held_layers_follow_the_derived_height(read_recipe: ReadRecipe) -> None:
    recipe, _ = read_recipe(
        '[[rule]]\nsetting = ["top.layers", "bottom.layers"]\nhold = "thickness"\n[[rule]]\n'
        'setting = "layer.height"\ncap = "0.12 mm"\n'
    )
    ledger = derived(recipe, {"top.layers": (F(4),), "bottom.layers": (F(3),), "layer.height": (F("0.2"),)}, {})
    assert [ledger.derived.number(name) for name in ("top.layers", "bottom.layers")] == [7, 5]


def test_held_line_spacing(read_recipe: ReadRecipe) -> None:
    """Spacing w / density: a bead of 0.6 in place of 0.45 mm needs 20 % where it was 15 %."""
    recipe, _ = read_recipe(
        '[[rule]]\nsetting = "infill.density"\nhold = "line spacing"\n[[rule]]\n'
        'setting = "bead.width"\nset = "0.6 mm"\n'
    )
    ledger = derived(recipe, {"infill.density": (F(15),), "bead.width": (F("0.45"),)}, {})
    assert ledger.derived.number("infill.density") == 20


def test_held_line_spacing_ends_at_solid(read_recipe: ReadRecipe) -> None:
    recipe, _ = read_recipe(
        '[[rule]]\nsetting = "infill.density"\nhold = "line spacing"\n[[rule]]\n'
        'setting = "bead.width"\nset = "0.6 mm"\n'
    )
    ledger = derived(recipe, {"infill.density": (F(95),), "bead.width": (F("0.45"),)}, {})
    assert ledger.problems == ()
    assert ledger.derived.number("infill.density") == 100


@pytest.mark.parametrize(
    ("operand", "value"),
    [
        ('{ of = "infill.speed" }', 60),
        ('{ of = "infill.speed", times = 0.5 }', 30),
        ('{ of = "infill.speed", plus = "-10 mm/s" }', 50),
        ('{ of = "infill.speed", times = 0.5, plus = "600 mm/min" }', 40),
    ],
)
def test_another_settings_derived_value(operand: str, value: int, read_recipe: ReadRecipe) -> None:
    recipe, problems = read_recipe(SPEED + f'cap = {operand}\n[[rule]]\nsetting = "infill.speed"\ncap = "60 mm/s"\n')
    assert problems == []
    assert (
        derived(recipe, {"outer_wall.speed": (F(90),), "infill.speed": (F(80),)}, {}).derived.number("outer_wall.speed")
        == value
    )


def test_tool_by_tool(read_recipe: ReadRecipe) -> None:
    recipe, _ = read_recipe(SPEED + 'cap = { of = "infill.speed" }\n')
    for walls, fills in product([(F(90), F(50)), (F(90),)], [(F(60), F(40)), (F(60),)]):
        found = derived(recipe, {"outer_wall.speed": walls, "infill.speed": fills}, {}).derived.values(
            "outer_wall.speed"
        )
        assert found == tuple(
            min(wall, fills[tool] if tool < len(fills) else fills[0]) for tool, wall in enumerate(walls)
        )


def test_a_shift_by_a_temperature_is_refused(read_recipe: ReadRecipe) -> None:
    """A fact or an answer is a point on the scale: 10 K are -263 °C. A step is written into the rule."""
    recipe, problems = read_recipe(
        '[inputs.step]\nkind = "temperature"\nask = "How much?"\n[[rule]]\n'
        'setting = "nozzle.temperature"\nshift = { input = "step" }\n'
    )
    assert recipe is None
    assert [problem.code for problem in problems] == ["operand"]
    assert "5 °C" in problems[0].hint


@pytest.mark.parametrize("known", [{}, {"machine_tube_length": F(500)}, {"machine_nozzle_diameter": F(500)}])
def test_two_facts_are_held_against_each_other_only_when_both_are_known(
    known: dict[str, Any], read_recipe: ReadRecipe
) -> None:
    """A rule that acts because nobody said the other fact would act on every printer."""
    condition = 'when = { "machine.tube_length" = { fact = "machine.nozzle_diameter" } }\n'
    recipe, _ = read_recipe(SPEED + 'cap = "1 mm/s"\n' + condition)
    answer = resolver(recipe, facts(**known)).condition(recipe.rules[0].when)
    assert isinstance(answer, NotKnown)
    assert answer.what == ("machine.nozzle_diameter" if "machine_tube_length" in known else "machine.tube_length")
    both = facts(machine_tube_length=F(500), machine_nozzle_diameter=F(500))
    assert resolver(recipe, both).condition(recipe.rules[0].when) is True


def test_the_first_of_several_open_questions_is_asked(read_recipe: ReadRecipe) -> None:
    clauses = '"machine.drive" = "direct", "machine.liner" = "PTFE"'
    recipe, _ = read_recipe(SPEED + f'cap = "1 mm/s"\nwhen = {{ {clauses} }}\n')
    answer = resolver(recipe, {}).condition(recipe.rules[0].when)
    assert isinstance(answer, NotKnown)
    assert answer.what == "machine.drive"


@pytest.mark.parametrize(
    ("setting", "line", "values", "about", "name"),
    [
        ("outer_wall.speed", 'cap = { flow = { fact = "spool.maximum_flow" } }', {"outer_wall.speed": 40}, "fact",
         "spool.maximum_flow"),
        ("outer_wall.speed", 'cap = { flow = "4 mm3/s" }', {"outer_wall.speed": 40}, "setting", "bead.width"),
        ("outer_wall.speed", 'cap = { flow = "4 mm3/s" }', {"outer_wall.speed": 40, "bead.width": F("0.4")}, "setting",
         "layer.height"),
        ("outer_wall.speed", 'cap = { fact = "spool.maximum_printing_speed" }', {"outer_wall.speed": 40}, "fact",
         "spool.maximum_printing_speed"),
        ("outer_wall.speed", 'cap = { of = "infill.speed" }', {"outer_wall.speed": 40}, "setting", "infill.speed"),
        ("top.layers", 'hold = "thickness"', {"top.layers": 4}, "setting", "layer.height"),
        ("top.layers", 'hold = "thickness"', {"layer.height": F("0.2")}, "setting", "top.layers"),
    ],
)  # fmt: skip
def test_what_is_missing_is_asked_by_its_own_name(
    setting: str, line: str, values: dict[str, Any], about: str, name: str, read_recipe: ReadRecipe
) -> None:
    """A maker who is asked for the wrong thing measures the wrong thing."""
    recipe, problems = read_recipe(f'[[rule]]\nsetting = "{setting}"\n{line}\n')
    assert problems == []
    base = profile_of({key: (F(value),) for key, value in values.items()})
    (row,) = apply_recipes(base, [recipe], {}, {}, load_vocabulary()).rows
    assert (row.status, row.question.about, row.question.name) == ("unanswered", about, name)


def test_no_layers_stay_no_layers(read_recipe: ReadRecipe) -> None:
    """A part without a top, by intent, has none afterwards either; heights that cannot be are asked for."""
    text = SPEED.replace("outer_wall.speed", "top.layers") + 'hold = "thickness"\n'
    recipe, _ = read_recipe(text + SPEED.replace("outer_wall.speed", "layer.height") + 'cap = "0.1 mm"\n')
    for layers, height, right in ((0, "0.2", (0,)), (1, "0.2", (2,)), (1, "0", (1,))):
        base = profile_of({"top.layers": (F(layers),), "layer.height": (F(height),)})
        assert apply_recipes(base, [recipe], {}, {}, load_vocabulary()).derived.values("top.layers") == right
