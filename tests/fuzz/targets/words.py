"""A small text in which a switch, a choice and numbers are bound, turned and set by recipes.

Invariants beyond "a refusal or a result", held by bytes alone: there are as many lines as before, with the same ends;
only lines that hold a bound key differ, or their block's first; the audit never finds a fault of our own.
"""

from __future__ import annotations

import re
from functools import cache

from profilesmith.engine.derive import carry_out, ledger_of
from profilesmith.engine.read import Source, document_of, ingredients
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.translation.key_map import KeyMap
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from tests.fuzz.engine import Target
from tests.fuzz.targets import document

LINE = re.compile(rb"([^\r\n]*)(\r\n|\r|\n|\Z)")
KEYS = (b"sup", b"core form", b"rim", b"feet")
MAP = b"""format = 1
[text]
duplicates = "last"
[[binding]]
setting = "support.on"
key = "sup"
[[binding]]
setting = "raft.on"
key = "feet"
on = ["3", "three"]
off = "0"
[[binding]]
setting = "infill.pattern"
key = "core form"
choices = { gyroid = "waves", grid = ["grid", "squares"] }
[[binding]]
setting = "outer_wall.speed"
key = "rim"
"""
RULES = (
    ("support.on", "off", "on"),
    ("raft.on", "on", "off"),
    ("infill.pattern", "gyroid", "grid"),
    ("outer_wall.speed", "40 mm/s", "1234.5 mm/min"),
)


@cache
def key_map() -> KeyMap:
    """The map, read once: it is the text that changes."""
    found, problems = load_key_map(MAP, "map.toml", load_vocabulary())
    assert found is not None, problems
    return found


@cache
def recipes() -> tuple[Recipe, ...]:
    """Two recipes that set everything, differently; read once."""
    found = []
    for at in (1, 2):
        rules = [f'[[rule]]\nsetting = "{rule[0]}"\nset = "{rule[at]}"\nwhy = "w"\n' for rule in RULES]
        head = 'format = 1\n[recipe]\nname = "r"\nversion = "1.0.0"\n'
        recipe, problems = load_recipe((head + "".join(rules)).encode(), "recipe.toml", load_vocabulary())
        assert recipe is not None, problems
        found.append(recipe)
    return tuple(found)


def behaviour(data: bytes) -> str:
    """One of the recipes, chosen by the input: twice as many inputs in a time. Words are made of every fourth."""
    return _derived(data, sum(data) % 2, sum(data) % 8 < 2)


def thoroughly(data: bytes) -> None:
    """Both recipes, with words."""
    for which in (0, 1):
        _derived(data, which, True)


def _derived(data: bytes, which: int, words: bool) -> str:
    problems: list[Problem] = []
    try:
        document = document_of(Source("base.cfg", data), key_map().habits, problems)
        given = ingredients([document], key_map(), [recipes()[which]], {}, {}, problems)
        made = carry_out(given.translation, given.recipes, ledger_of(given), words=words)
    except Refused as refused:
        codes = {problem.code for problem in refused.problems}
        if "audit" in codes:
            raise AssertionError(f"the audit found a fault of ours: {refused}") from refused
        return " ".join(sorted(codes))
    if made.problems:
        return f"problems {sorted({problem.code for problem in made.problems})}"
    told = "" if data[:2] in (b"\xff\xfe", b"\xfe\xff") else _held(data, made.outputs[0])
    return f"{which} {told} {sorted({row.status for row in made.ledger.rows})}"


def _held(before: bytes, after: bytes) -> int:
    """How many lines differ; each of them is one of ours, or stands below one of ours that has nothing behind its
    sign.
    """
    old, new = LINE.findall(before), LINE.findall(after)
    assert [end for _, end in old] == [end for _, end in new], "a line end was lost or made"
    changed = [at for at, (one, other) in enumerate(zip(old, new, strict=True)) if one != other]
    for at in changed:
        above = b"".join(line for line, _ in old[max(0, at - 40) : at + 1])
        assert any(key in above for key in KEYS), "a line differs that is none of ours"
        assert old[at][0].strip(), "a blank line differs"
    return len(changed)


@cache
def seeds() -> list[bytes]:
    return [
        b"sup = yes\ncore form = grid\nrim = 60\nfeet = 0\n",
        b"core form = grid\n    a block\n    below it\nsup = no\n# remark\n    deeper\nrim = 060 mm/s ; x\n",
        b"[a]\r\nsup = 'TRUE'\r\n[b]\r\nfeet = three\r\ncore form =\r\n  squares\r\nrim = +60.5\r\n",
        b'sup: on\ncore form: "grid"\nrim: 1,200\nfeet: 3 # three\n',
        b"start = G28 \\\n  M104 S200\nsup = 1\nrim = 6e1\ncore form = spiral-9\nfeet = odd\n",
        b"sup = yes\nsup = yes\nrim =\n  60\n  70\ncore form = grid \\\n more\nfeet = 0\n",
    ]


def tokens() -> list[bytes]:
    words = (b"yes", b"off", b"grid", b"waves", b"three", b"\n    ", b"\\\n", b"# r\n", b"0700", b".5", b"1e2", *KEYS)
    return [*document.tokens(), *words]


TARGET = Target("words", behaviour, seeds, tokens, thoroughly)
