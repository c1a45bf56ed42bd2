"""Key maps: what is read, and every refusal. A refusal in the source that no example here brings about fails a test."""

from __future__ import annotations

import ast
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import profilesmith.translation.check_key_map as checking
import profilesmith.translation.load_key_map as loading
from profilesmith.text.document import Habits

ReadMap = Callable[[str], Any]


def bound(setting: str, key: str, more: str = "") -> str:
    return f'[[binding]]\nsetting = "{setting}"\nkey = "{key}"\n{more}\n'


SPEED, RAFT = "outer_wall.speed", "raft.on"
# code of the refusal: texts that bring it about, each alone
REFUSED: dict[str, tuple[str, ...]] = {
    "no-binding": ("",),
    "control-character": (
        bound(SPEED, "a\\nb"),
        bound(SPEED, "a", 'section = "x\\ry"'),
        bound(RAFT, "a", 'on = "1\\u001b"\noff = "0"'),
    ),
    "setting-twice": (bound(SPEED, "a") + bound(SPEED, "b"),),
    "bound-and-not": (
        'not_bound = "a"\n' + bound(SPEED, "a"),
        'not_bound = ["b", "[x] a"]\n' + bound(SPEED, "a", 'section = "x"'),
    ),
    "key-twice": (
        bound(SPEED, "a") + bound("inner_wall.speed", "a"),
        bound(SPEED, "a", 'split = "/"\nfield = 1') + bound("inner_wall.speed", "a", 'split = "/"\nfield = 1'),
        bound(SPEED, "a", 'split = "/"\nfield = 1') + bound("inner_wall.speed", "a", 'split = ":"\nfield = 2'),
        bound(SPEED, "a") + bound("inner_wall.speed", "a", 'split = "/"\nfield = 2'),
        # two switches: each needs its own text for on, and all one for off
        bound(RAFT, "a", 'on = "1"\noff = "0"') + bound("brim.on", "a", 'on = ["2", "1"]\noff = "0"'),
        bound(RAFT, "a", 'on = "1"\noff = "0"') + bound("brim.on", "a", 'on = "2"'),
        bound(RAFT, "a", 'on = "1"\noff = "0"') + bound("brim.on", "a", 'on = "2"\noff = "3"'),
        bound(RAFT, "a", 'on = "1"\noff = "0"\nadd = true') + bound("brim.on", "a", 'on = "2"\noff = "0"'),
        bound(RAFT, "a", 'on = "1"\noff = "0"\ntools = true') + bound("brim.on", "a", 'on = "2"\noff = "0"'),
        bound(RAFT, "a", 'on = "1"\noff = "0"\nsplit = "/"\nfield = 1')
        + bound("brim.on", "a", 'on = "2"\noff = "0"\nsplit = ":"\nfield = 1'),
    ),
    "on-is-off": (
        bound(RAFT, "a", 'on = "1"\noff = ["0", "1"]'),
        '[text]\non = "1"\noff = "1"\n' + bound(RAFT, "a"),
        '[text]\non = "1"\noff = "0"\n' + bound(RAFT, "a", 'on = "0"'),
        '[text]\non = "1"\noff = "0"\n' + bound(RAFT, "a", 'off = "1"'),
    ),
    "unknown-choice": (bound("infill.pattern", "a", 'choices = { gyriod = "7" }'),),
    "blanks": (
        bound(SPEED, " a "),
        bound(RAFT, "a", 'on = " 1"\noff = "0"'),
        bound("infill.pattern", "a", 'choices = { grid = " 1" }'),
        bound("infill.pattern", "a", 'choices = { grid = "" }'),
    ),
    "comments": ('[text]\ncomments = [""]\n' + bound(SPEED, "a"),),
    "comment-in-text": (
        "[text]\ninline_comments = true\n" + bound("infill.pattern", "a", 'choices = { grid = "a # b" }'),
    ),
    "decimal-divides": (
        '[text]\ndecimal = ","\n' + bound(SPEED, "a", "tools = true"),
        '[text]\ndecimal = "."\n' + bound(SPEED, "a", 'split = "."\nfield = 1'),
    ),
    "thousands": (
        '[text]\nthousands = "-"\n' + bound(SPEED, "a"),
        '[text]\nthousands = ","\ndecimal = ","\n' + bound(SPEED, "a"),
    ),
    "cannot-add": (
        bound(SPEED, "a", 'relative_key = "b"\nadd = true'),
        bound("bed.temperature", "a", 'split = "/"\nfield = 2\nadd = true'),
    ),
    "reference-is-bound": (bound("inner_wall.speed", "a") + bound(SPEED, "b", 'relative_key = "a"'),),
    "half-switch": (
        '[text]\non = "1"\n' + bound(SPEED, "a"),
        bound(RAFT, "a", 'on = "1"'),
        bound(RAFT, "a", 'off = "0"'),
    ),
    "switch-backward": (
        bound(RAFT, "a", 'on_when = "> 0"\non = "0"\noff = "-1"'),
        bound(RAFT, "a", 'on_when = "< 1"\non = "-1"'),
        bound(RAFT, "a", 'on_when = "> 0"\non = "3"\noff = "no"'),
    ),
    "choice-twice": (bound("infill.pattern", "a", 'choices = { grid = "1", lines = ["2", "1"] }'),),
    "half-split": (bound(SPEED, "a", 'split = "/"'), bound(SPEED, "a", "field = 1")),
    "field": (bound(SPEED, "a", 'split = "/"\nfield = -1'),),
    "split-list": (bound(SPEED, "a", 'split = "/"\nfield = 1\nlist = "/"\ntools = true'),),
    "two-references": (bound(SPEED, "a", 'relative_to = "inner_wall.speed"\nrelative_key = "b"'),),
    "angle-share": (bound("support.overhang_angle", "a", 'angle_from = "horizontal"\nrelative_key = "b"'),),
    "circle": (
        bound(SPEED, "a", f'relative_to = "{SPEED}"'),
        bound(SPEED, "a", 'relative_to = "inner_wall.speed"')
        + bound("inner_wall.speed", "b", 'relative_to = "infill.speed"')
        + bound("infill.speed", "c", f'relative_to = "{SPEED}"'),
    ),
    "decimal": ('[text]\ndecimal = ";"\n' + bound(SPEED, "a"),),
    "duplicates": ('[text]\nduplicates = "both"\n' + bound(SPEED, "a"),),
    "delimiter": ('[text]\ndelimiter = "is"\n' + bound(SPEED, "a"), '[text]\ndelimiter = "::::"\n' + bound(SPEED, "a")),
    "too-many": ("".join(bound(SPEED, f"k{number}") for number in range(2001)),),
    "unknown-setting": (bound("outer_wall.sped", "a"), bound(SPEED, "a", 'relative_to = "inner_wal.speed"')),
    "angle": (bound("support.overhang_angle", "a", 'angle_from = "north"'),),
    "unit-kind": (
        bound(SPEED, "a", 'unit = "mm"'),
        bound(SPEED, "a", 'unit = "%"'),
        bound("wall.count", "a", 'unit = "mm"'),
        bound(SPEED, "a", 'unit = "knots"'),
    ),
    "on-when": (
        bound(RAFT, "a", 'on_when = "many"\non = "3"\noff = "0"'),
        bound(RAFT, "a", 'on_when = "> 1e999"\non = "3"\noff = "0"'),
    ),
    "no-use": (
        bound(SPEED, "a", 'choices = { grid = "1" }'),
        bound(SPEED, "a", 'angle_from = "horizontal"'),
        bound(SPEED, "a", 'on = "1"'),
        bound(RAFT, "a", f'relative_to = "{SPEED}"'),
        bound("infill.pattern", "a", 'relative_key = "b"'),
        bound(SPEED, "a", 'shares = "keep"'),
        bound(SPEED, "a", 'relative_key = "b"\nshares = "keep"'),
        bound("bed.temperature", "a", 'relative_key = "b"'),
        bound("bed.temperature", "a", 'relative_to = "nozzle.temperature"'),
    ),
    "shares": (
        '[text]\nshares = "stay"\n' + bound(SPEED, "a"),
        bound(SPEED, "a", 'relative_to = "inner_wall.speed"\nshares = "stay"'),
    ),
    "relative-kind": (bound(SPEED, "a", 'relative_to = "layer.height"'),),
    # of the strict reading of TOML itself
    "missing": ('[[binding]]\nkey = "a"\n', f'[[binding]]\nsetting = "{SPEED}"\n'),
    "wrong-type": (
        bound(SPEED, "a", "tools = 1"),
        bound(SPEED, "a", 'field = "1"'),
        f'[binding]\nsetting = "{SPEED}"\n',
        bound("infill.pattern", "a", 'choices = ["grid"]'),
        bound(SPEED, "a", "unit = 3"),
    ),
    "unknown-key": (
        bound(SPEED, "a", "sizes = 1"),
        'names = "x"\n' + bound(SPEED, "a"),
        '[text]\nletters = "a"\n' + bound(SPEED, "a"),
        "[other]\nx = 1\n" + bound(SPEED, "a"),
    ),
}
ALSO = {
    "on-is-off-1": ["on-is-off"],
    "too-many-0": ["setting-twice"] * 2000,
    "no-use-3": ["relative-kind"],
    "key-twice-5": ["half-switch"],
}
"""What follows from a mistake without a second one."""
EXAMPLES = [
    pytest.param(code, text, id=f"{code}-{number}")
    for code, texts in REFUSED.items()
    for number, text in enumerate(texts)
]


@pytest.mark.parametrize(("code", "text"), EXAMPLES)
def test_refused(code: str, text: str, read_map: ReadMap, request: pytest.FixtureRequest) -> None:
    """Each mistake is told, and told once."""
    key_map, problems = read_map(text)
    assert key_map is None
    assert [problem.code for problem in problems] == [code, *ALSO.get(request.node.callspec.id, [])]
    for problem in problems:
        assert problem.place.file == "map.toml"
        assert problem.message.endswith("."), problem
        assert problem.hint.endswith((".", "?")), problem


def codes_in(module: Any) -> set[str]:
    """Every code that a module gives to a problem: the first text of complain, Problem and _problem calls."""
    found = set()
    for node in ast.walk(ast.parse(Path(module.__file__).read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call):
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            at = {"complain": 0, "Problem": 0, "_problem": 1}.get(name)
            if at is not None and len(node.args) > at and isinstance(node.args[at], ast.Constant):
                found.add(node.args[at].value)
    return found


def test_every_refusal_has_an_example() -> None:
    codes = codes_in(checking) | codes_in(loading)
    assert len(codes) > 15
    assert codes <= REFUSED.keys()


def test_all_mistakes_of_a_map_in_one_run_each_with_its_line(read_map: ReadMap) -> None:
    _, problems = read_map(bound("nonsense", "a") + bound(SPEED, "b", 'unit = "mm"') + bound(RAFT, "c", 'on = "1"'))
    assert [(problem.code, problem.place.line) for problem in problems] == [
        ("unknown-setting", 5),
        ("unit-kind", 11),
        ("half-switch", 12),
    ]


def test_a_full_binding_is_read(read_map: ReadMap) -> None:
    text = (
        '[text]\ncomments = [";"]\ninline_comments = true\ndelimiter = ":"\ndecimal = ","\n'
        'on = "ja"\noff = "nein"\nlist = ";"\nduplicates = "last"\n'
    ) + bound(
        SPEED,
        "Wand",
        'section = "Gang"\nunit = "%"\nrelative_to = "infill.speed"\ntools = true\nlist = "|"\nadd = true',
    )
    key_map, problems = read_map(text)
    assert problems == []
    binding = key_map.binding(SPEED)
    assert (key_map.name, key_map.decimal, key_map.words, key_map.list, key_map.duplicates) == (
        "test",
        ",",
        ("ja", "nein"),
        ";",
        "last",
    )
    assert key_map.habits == Habits((";",), True, ":")
    assert (
        binding.key,
        binding.section,
        binding.unit.name,
        binding.relative_to,
        binding.tools,
        binding.list,
        binding.add,
    ) == (
        "Wand",
        "Gang",
        "%",
        "infill.speed",
        True,
        "|",
        True,
    )
    assert binding.name == "[Gang] Wand"
    assert binding.place.line == 13


def test_what_is_not_said_is_detected_later(read_map: ReadMap) -> None:
    key_map, _ = read_map(bound(SPEED, "a"))
    assert key_map.habits == Habits()
    assert (key_map.decimal, key_map.words, key_map.duplicates) == ("", (), "")
    assert key_map.bindings[0].section is None


def test_a_switch_by_number_with_a_decimal_comma(read_map: ReadMap) -> None:
    _, problems = read_map('[text]\ndecimal = ","\n' + bound(RAFT, "a", 'on_when = "> 0"\non = "0,5"\noff = "0"'))
    assert problems == []


@pytest.mark.parametrize("blank", ["\u00a0", "\u202f"])
def test_a_blank_that_holds_words_together_is_plain_text(blank: str, read_text: Callable[..., Any]) -> None:
    """French texts write it before a unit or a sign."""
    key = f"vitesse{blank}paroi"
    translation = read_text(f'[[binding]]\nsetting = "outer_wall.speed"\nkey = "{key}"\n', f"{key} = 60\n")
    assert translation.problems == ()
    assert translation.profile.number("outer_wall.speed") == 60


def test_words_of_the_text_and_of_one_binding_are_told_apart(read_map: ReadMap) -> None:
    """Each text that may stand there reads in one way, also where half of it is said for all switches."""
    words = '[text]\non = "1"\noff = "0"\n'
    for more, codes in (
        ('on = "2"', []),
        ('off = "2"', []),
        ('on = "2"\noff = ["0", "3"]', []),
        ('on = ["2", "0"]', ["on-is-off"]),
        ('off = ["3", "1"]', ["on-is-off"]),
        ('on_when = "> 1"\non = "5"\noff = "1"', []),
    ):
        assert [problem.code for problem in read_map(words + bound(RAFT, "a", more))[1]] == codes, more


def test_what_waits_for_a_person_is_kept_apart(read_map: ReadMap) -> None:
    block = '# [[binding]]\n# setting = "{}"\n# key = "b"\n'
    text = bound(SPEED, "a") + "".join(block.format(name) for name in ("raft.on", SPEED, "rafts.on"))
    key_map, problems = read_map(text)
    assert problems == []
    assert key_map.proposed == {"raft.on": ("b", 8)}  # what is bound waits no more, and what is no setting never did


def test_keys_that_are_no_settings_are_named(read_map: ReadMap) -> None:
    key_map, problems = read_map('not_bound = ["Lamp", "[Push] Kick"]\n' + bound(SPEED, "a"))
    assert problems == []
    assert [
        key_map.leaves_alone(*place) for place in (("", "Lamp"), ("Push", "Lamp"), ("Push", "Kick"), ("", "Kick"))
    ] == [True, True, True, False]


def test_a_switch_in_a_word_and_a_number_is_told_what_to_do(read_map: ReadMap) -> None:
    _, problems = read_map(
        bound(RAFT, "FootKind", 'on = "raft"\noff = "none"')
        + bound(RAFT, "RaftSheets", 'on_when = "> 0"\non = "3"\noff = "0"')
    )
    assert [problem.code for problem in problems] == ["setting-twice"]
    assert "bind raft.on to the word and raft.layers to the number" in problems[0].hint
    both, problems = read_map(bound(RAFT, "FootKind", 'on = "raft"\noff = "none"') + bound("raft.layers", "RaftSheets"))
    assert (problems, len(both.bindings)) == ([], 2)


def test_quotes_around_a_text_are_the_files_own(read_map: ReadMap) -> None:
    """They are kept when the value is written: a map that names them means the text inside."""
    choices = "choices = { grid = '\"1\"', lines = \"'2'\", gyroid = '\"3', cubic = '\"\"' }"
    key_map, problems = read_map(bound("infill.pattern", "a", choices))
    assert problems == []
    assert [*key_map.bindings[0].choices.values()] == [("1",), ("2",), ('"3',), ('""',)]
    key_map, problems = read_map(bound(RAFT, "a", "on = '\"yes\"'\noff = ['\"no\"', '\"none\"']"))
    assert problems == []
    assert (key_map.bindings[0].on, key_map.bindings[0].off) == (("yes",), ("no", "none"))


@pytest.mark.parametrize("raw", [b"format = 1\n[keymap\n", b"\xff", b"format = 2\n"])
def test_what_is_no_map_at_all_is_one_problem(raw: bytes) -> None:
    from profilesmith.vocabulary.load_vocabulary import load_vocabulary

    key_map, problems = loading.load_key_map(raw, "own.toml", load_vocabulary())
    assert key_map is None
    assert [problem.place.file for problem in problems] == ["own.toml"]


@pytest.mark.parametrize(
    ("setting", "more", "units"),
    [
        (RAFT, "", "none"),
        ("wall.count", "", "none"),
        (SPEED, "", "mm/s, mm/min"),
        (SPEED, 'relative_to = "infill.speed"', "mm/s, mm/min"),
    ],
)
def test_a_wrong_unit_is_answered_with_the_right_ones(setting: str, more: str, units: str, read_map: ReadMap) -> None:
    _, (problem,) = read_map(bound(setting, "a", f'unit = "knots"\n{more}'))
    assert problem.code == "unit-kind"
    assert problem.hint.startswith(f"Units that do: {units}")
    assert ("%" in problem.hint) is bool(more)


def test_a_map_full_of_mistakes_ends_in_time(read_map: ReadMap) -> None:
    key_map, problems = read_map("".join(bound("nonsense", f"k{number}") for number in range(1500)))
    assert key_map is None
    assert 1 < len(problems) < 1500
