"""Single rules at their edges: what is told, and what is let be."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from profilesmith.lint.head_commit import HeadCommit
from profilesmith.lint.heat import target_material
from profilesmith.lint.lint_file import lint_file
from profilesmith.lint.look_alikes import name_faults, skeleton
from profilesmith.lint.names import names_around

HEAD = 'format = 1\n\n[recipe]\nname = "own"\nversion = "1.0.0"\ntitle = "Own"\nlicence = "CC0-1.0"\n'
REASON = 'why = "A soft strand wants it."\nsource = "common practice"\n'
# Examples are another family's matter: without one only R501 is found, with none of the others in its way.
OTHERS = {"R501", "R503"}
Numbers = Callable[..., list[str]]


@pytest.fixture
def numbers(tmp_path: Path) -> Numbers:
    """The numbers found for a recipe of some rules, without those on examples."""

    def run(*rules: str, head: str = "", inputs: str = "") -> list[str]:
        path = tmp_path / "own.toml"
        path.write_text(
            HEAD + head + inputs + "".join(f"\n[[rule]]\n{rule}\n{REASON}" for rule in rules), encoding="utf-8"
        )
        names = names_around(path)._replace(head=HeadCommit({}))
        return [
            item.number
            for item in lint_file(path, "recipe", names)
            if item.number not in OTHERS and item.severity != "skipped"
        ]

    return run


SLOW = 'setting = "outer_wall.speed"\n'


@pytest.mark.parametrize(
    ("rules", "wanted"),
    [
        # The later of two alike is told once, and only where every setting is covered.
        ((SLOW + 'cap = "40 mm/s"', SLOW + 'cap = "40 mm/s"'), ["R310"]),
        ((SLOW + 'cap = "40 mm/s"', SLOW + 'cap = "2400 mm/min"'), ["R310"]),
        ((SLOW + 'cap = "40 mm/s"', 'setting = "printing speeds"\ncap = "50 mm/s"'), []),
        (('setting = "printing speeds"\ncap = "40 mm/s"', SLOW + 'cap = "50 mm/s"'), ["R310"]),
        # A condition makes the stricter one no cover; a weaker one under a condition is covered.
        ((SLOW + 'cap = "50 mm/s"', SLOW + 'cap = "40 mm/s"\nwhen = { "machine.drive" = "remote" }'), []),
        ((SLOW + 'cap = "40 mm/s"', SLOW + 'cap = "50 mm/s"\nwhen = { "machine.drive" = "remote" }'), ["R310"]),
        # Both ends of a window must be covered, by one rule or by two.
        ((SLOW + 'cap = "40 mm/s"', SLOW + 'window = ["20 mm/s", "50 mm/s"]'), []),
        ((SLOW + 'cap = "40 mm/s"', SLOW + 'raise_to = "30 mm/s"', SLOW + 'window = ["20 mm/s", "50 mm/s"]'), ["R310"]),
        # An aim besides does something of its own; a set is a bound from both sides.
        ((SLOW + 'cap = "40 mm/s"', SLOW + 'cap = "50 mm/s"\naim = "45 mm/s"'), []),
        ((SLOW + 'set = "40 mm/s"', SLOW + 'cap = "50 mm/s"'), ["R310"]),
        ((SLOW + 'cap = "40 mm/s"', SLOW + 'cap = { of = "infill.speed" }'), []),
    ],
)
def test_pointless_bounds(numbers: Numbers, rules: tuple[str, ...], wanted: list[str]) -> None:
    assert numbers(*rules) == wanted


@pytest.mark.parametrize(
    ("rules", "wanted"),
    [
        ((SLOW + 'cap = "40 mm/s"', SLOW + 'raise_to = "50 mm/s"'), ["R302"]),
        ((SLOW + 'cap = "40 mm/s"', SLOW + 'raise_to = "40 mm/s"'), []),
        ((SLOW + 'cap = "40 mm/s"', SLOW + 'set = "50 mm/s"'), ["R302"]),
        (('setting = "raft.on"\nset = "on"', 'setting = "raft.on"\nset = "off"'), ["R302"]),
        (('setting = "raft.on"\nset = "on"', 'setting = "raft.on"\nset = "on"'), ["R311"]),
        # Two conditions that exclude one another never meet; the same one twice does.
        (
            (
                SLOW + 'cap = "40 mm/s"\nwhen = { "machine.drive" = "remote" }',
                SLOW + 'raise_to = "50 mm/s"\nwhen = { "machine.drive" = "direct" }',
            ),
            [],
        ),
        (
            (
                SLOW + 'cap = "40 mm/s"\nwhen = { "machine.drive" = "remote" }',
                SLOW + 'raise_to = "50 mm/s"\nwhen = { "machine.drive" = "remote" }',
            ),
            ["R302"],
        ),
        ((SLOW + 'raise_to = "2 m/s"',), ["R301"]),
        ((SLOW + 'cap = "1 m/s"',), []),
        (('setting = "printing speeds"\ncap = "0.5 mm/s"',), ["R301"]),
    ],
)
def test_bounds(numbers: Numbers, rules: tuple[str, ...], wanted: list[str]) -> None:
    assert numbers(*rules) == wanted


HOT = 'setting = "nozzle.temperature"\n'
TOLD = 'cautions = ["Ventilate: hotter plastic gives off more fumes."]\n'


@pytest.mark.parametrize(
    ("to", "rule", "wanted"),
    [
        # Flexible PLA: usually 200 to 230 °C, nothing above 260 °C plausible (knowledge/materials.toml, common
        # practice).
        ("flexible PLA", 'aim = "230 °C"', []),
        ("flexible PLA", 'aim = "231 °C"', ["R401"]),
        ("flexible PLA", 'raise_to = "446 °F"', []),
        ("flexible PLA", 'raise_to = "448 °F"', ["R401"]),
        ("flexible PLA", 'cap = "260 °C"', []),
        ("flexible PLA", 'cap = "261 °C"', ["R401"]),
        ("flexible PLA", 'window = ["210 °C", "240 °C"]', []),
        ("flexible PLA", 'window = ["235 °C", "240 °C"]', ["R401"]),
        ("TPU, 95 Shore A", 'aim = "240 °C"', []),
        ("TPU, 85 Shore A", 'aim = "240 °C"', ["R401"]),
        # Without a known material: above the hottest of them all, ABS, usually 230 to 260 °C, nothing above 290 °C
        # plausible.
        ("something soft", 'aim = "300 °C"', ["R401"]),
        ("", 'aim = "261 °C"', ["R401"]),
        ("", 'aim = "260 °C"', []),
        ("", 'cap = "290 °C"', []),
        ("", 'cap = "291 °C"', ["R401"]),
    ],
)
def test_temperatures_and_materials(numbers: Numbers, to: str, rule: str, wanted: list[str]) -> None:
    assert numbers(HOT + rule, head=f'to = "{to}"\n{TOLD}') == wanted


BED = 'setting = "bed.temperature"\n'


@pytest.mark.parametrize(
    ("to", "rules", "skipped"),
    [
        ("a soft gaiter", (HOT + 'aim = "240 °C"',), True),
        ("", (HOT + 'aim = "240 °C"',), True),
        ("", (BED + 'raise_to = "60 °C"',), True),
        ("", (HOT + 'shift = "5 °C"',), True),
        # Not asked and not missed: it heats nothing, or cools, or the error is told already, or the material is known.
        ("the same, laid more slowly", (SLOW + 'cap = "40 mm/s"',), False),
        ("", (HOT + 'cap = "240 °C"',), False),
        ("", (HOT + 'shift = "-5 °C"',), False),
        ("", (HOT + 'aim = "320 °C"', BED + 'raise_to = "60 °C"'), False),
        ("PLA", (HOT + 'aim = "210 °C"',), False),
        ("", ('setting = "chamber.temperature"\naim = "60 °C"',), False),
    ],
)
def test_a_material_that_is_not_known_is_told(to: str, rules: tuple[str, ...], skipped: bool, tmp_path: Path) -> None:
    path = tmp_path / "own.toml"
    path.write_text(
        HEAD + f'to = "{to}"\n{TOLD}' + "".join(f"\n[[rule]]\n{rule}\n{REASON}" for rule in rules), encoding="utf-8"
    )
    found = [
        item
        for item in lint_file(path, "recipe", names_around(path)._replace(head=HeadCommit({})), strict=True)
        if item.severity == "skipped"
    ]
    assert [item.number for item in found] == ["R401"] * skipped
    if skipped:
        assert path.read_text(encoding="utf-8").split("\n")[found[0].line - 1].startswith("to = ")
        assert to in found[0].message
        assert "'profilesmith materials'" in found[0].fix


def test_a_default_answer_counts_too(numbers: Numbers) -> None:
    window = (
        '\n[inputs.label]\nkind = "temperature window"\ndefault = ["{}", "{}"]\nask = "What does the label allow?"\n'
    )
    rule = HOT + 'window = { input = "label" }'
    head = f'to = "flexible PLA"\n{TOLD}'
    assert numbers(rule, head=head, inputs=window.format("210 °C", "220 °C")) == []
    assert numbers(rule, head=head, inputs=window.format("240 °C", "250 °C")) == ["R401"]
    assert numbers(rule, HOT + 'cap = "200 °C"', head=head, inputs=window.format("210 °C", "220 °C")) == ["R302"]


@pytest.mark.parametrize(
    ("rule", "wanted"),
    [
        ('aim = "215 °C"', ["R402"]),
        ('raise_to = "215 °C"', ["R402"]),
        ('cap = "215 °C"', []),
        ('shift = "5 °C"', ["R402", "R403"]),
        ('shift = "-5 °C"', ["R403"]),
        ('window = ["200 °C", "215 °C"]', ["R402"]),
    ],
)
def test_untold_dangers(numbers: Numbers, rule: str, wanted: list[str]) -> None:
    assert numbers(HOT + rule) == wanted
    assert numbers(HOT + rule, head=TOLD) == []


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("rigid PLA", "PLA"),
        ("flexible PLA", "flexible PLA"),
        ("TPU, 95 Shore A", "TPU 95A"),
        ("TPU 85A", "TPU 85A"),
        ("TPU, 88 Shore A", "TPU 85A"),
        ("any profile", None),
        ("TPU, 999 Shore A", None),
        ("", None),
    ],
)
def test_which_material_a_recipe_leads_to(text: str, key: str | None) -> None:
    found = target_material(text)
    assert (found.key if found else None) == key


@pytest.mark.parametrize(
    ("licence", "fits"),
    [
        ("CC0-1.0", True),
        ("GPL-2.0+", True),
        ("MIT OR Apache-2.0", True),
        ("GPL-2.0-only WITH Classpath-exception-2.0", True),
        ("LicenseRef-club", True),
        ("", False),
        ("all rights reserved", False),
        ("CC0 1.0", False),
        ("MIT/BSD", False),
        ("MIT OR", False),
        ("MIT\n", False),
    ],
)
def test_licences(numbers: Numbers, licence: str, fits: bool, tmp_path: Path) -> None:
    """Shapes after the SPDX specification 2.3, annex D; ids from the SPDX licence list (from memory)."""
    path = tmp_path / "own.toml"
    escaped = licence.replace("\n", "\\n")
    path.write_text(HEAD.replace("CC0-1.0", escaped) + f'\n[[rule]]\n{SLOW}cap = "40 mm/s"\n{REASON}', encoding="utf-8")
    found = {item.number for item in lint_file(path, "recipe", names_around(path)._replace(head=HeadCommit({})))}
    assert ("R110" in found) is not fits


@pytest.mark.parametrize(
    ("one", "other"),
    # Pairs of Unicode Technical Standard 39, section 4 and its table of examples (2023), and of its data file.
    [("paypal", "pаypаl"), ("scope", "ѕсоре"), ("l", "1"), ("Io", "lo"), ("modern", "rnodern"), ("soft", "ѕoft")],
)
def test_names_that_look_alike_have_one_skeleton(one: str, other: str) -> None:
    assert one != other
    assert skeleton(one) == skeleton(other)


@pytest.mark.parametrize(
    ("one", "other"), [("soft", "salt"), ("weich", "weiß"), ("part-soft", "part-stiff"), ("a", "b")]
)
def test_names_that_do_not_have_two(one: str, other: str) -> None:
    assert skeleton(one) != skeleton(other)


@pytest.mark.parametrize("name", ["flexible-pla", "weich-größer", "мягкий", "柔らかい", "part-2", "µ-drop"])
def test_an_honest_name_is_no_fault(name: str) -> None:
    assert list(name_faults(name, 1)) == []


@pytest.mark.parametrize("name", ["flеxible-pla", "ѕсоре", "ｆｌｅｘ", "slow-ωalls"])
def test_a_name_in_borrowed_letters_is_one(name: str) -> None:
    assert len(list(name_faults(name, 1))) == 1
