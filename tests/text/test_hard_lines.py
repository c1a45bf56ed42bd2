"""Sixty hard lines, of our own writing, after what the files of many other programs were found to hold.

Each is a text with one value that is bound; beside it stand its key, its section and the value as a person reads it.
The value is changed and set back, and nothing else may move.
"""

from __future__ import annotations

import json

import pytest

from profilesmith.engine.derive import derive
from profilesmith.engine.read import Source

NUMBERS = [
    ("k = 0700\n", "", "k", "0700"),
    ("k = 007\n", "", "k", "007"),
    ("k=.5\n", "", "k", ".5"),
    ("k = 5.\n", "", "k", "5."),
    ("k = +5\n", "", "k", "+5"),
    ("k = 1.50e1\n", "", "k", "1.50e1"),
    ("k = 15E-1\n", "", "k", "15E-1"),
    ("k = 2.500\n", "", "k", "2.500"),
    ('k = "12"\n', "", "k", "12"),
    ("k = '12'\n", "", "k", "12"),
    ("k\t=\t12\t\n", "", "k", "12"),
    ("   k = 12\n", "", "k", "12"),
    ("k = 12 ; twelve = 12\n", "", "k", "12"),
    ("k = 12\t# k = 13\n", "", "k", "12"),
    ("k = 12 // of = them\n", "", "k", "12"),
    ("k = 12\r\nj = 13\r\n", "", "k", "12"),
    ("k = 12\rj = 13\r", "", "k", "12"),
    ("k = 12", "", "k", "12"),
    ("\n\n\nk = 12\n\n", "", "k", "12"),
    ("[a]\nk = 1\n[b]\nk = 12\n", "b", "k", "12"),
    ("[a b/c.d]\nk = 12\n", "a b/c.d", "k", "12"),
    ("  [a] ; the first\nk = 12\n", "a", "k", "12"),
    ("k[0] = 1\nk[1] = 12\n", "", "k[1]", "12"),
    ("a.b.c = 12\n", "", "a.b.c", "12"),
    ("Two words = 12\n", "", "Two words", "12"),
    ("Höhe = 12\n", "", "Höhe", "12"),
    ("k = 12\n  a paragraph that\n  goes on\n", "", "k", "12"),
    ("k = 12\n\n  after a blank line\n", "", "k", "12"),
    ("k = 12\n# a remark\n  below it\n", "", "k", "12"),
    ("start = G28 \\\n  M117 k = 5\nk = 12\n", "", "k", "12"),
    ("start = \\\n  one \\\n  two\nk = 12\n", "", "k", "12"),
    ("path = C:/a b/c=d\nk = 12\n", "", "k", "12"),
    ("hue = #ff0000\nk = 12\n", "", "k", "12"),
    ("rule = a = b = c\nk = 12\n", "", "k", "12"),
    ("=\n= 5\nk = 12\n", "", "k", "12"),
    ("[unclosed\nk = 12\n", "", "k", "12"),
    ("-----\nk = 12\n=====\n", "", "k", "12"),
    ("k = 12\nK = 13\n", "", "k", "12"),
    ("#k = 1\n;k = 2\nk = 12\n", "", "k", "12"),
    ("\ufeffk = 12\n", "", "k", "12"),
    ("k = 12\n\x0c\nj = 1\n", "", "k", "12"),
    ("note = 'it''s # quoted'\nk = 12\n", "", "k", "12"),
    ("x" * 4000 + " = 1\nk = 12\n", "", "k", "12"),
    ("v = " + "9" * 4000 + "\nk = 12\n", "", "k", "12"),
    ("alpha = 0.81000000000000005\n", "", "alpha", "0.81000000000000005"),
]
WORDS = [
    ("k = yes\n", "", "k", "yes"),
    ("k = YES\n", "", "k", "YES"),
    ("k = True\n", "", "k", "True"),
    ('k = "off"\n', "", "k", "off"),
    ("k = on ; on = off\n", "", "k", "on"),
    ("k = yes\n# a remark\n    below it\n", "", "k", "yes"),
    ("k = no\n    indented\n    block\n", "", "k", "no"),
    ("k =\n  no\n", "", "k", "no"),
    ("k = enabled\r\n\r\n", "", "k", "enabled"),
    ("[s]\nk = false\n[t]\nk = true\n", "t", "k", "true"),
]
CHOICES = [
    ("core form = grid\n", "", "core form", "grid"),
    ("core form = grid\n   a block\n   of lines\nend = 1\n", "", "core form", "grid"),
    ("core form = grid ; lines = 2\n", "", "core form", "grid"),
    ("core form = 'two words'\n", "", "core form", "two words"),
    ("core form = grid-2_b.c\n", "", "core form", "grid-2_b.c"),
]
OPPOSITE = {
    "yes": "no",
    "YES": "NO",
    "True": "False",
    "off": "on",
    "on": "off",
    "no": "yes",
    "enabled": "disabled",
    "true": "false",
}


def test_there_are_sixty() -> None:
    assert len(NUMBERS) + len(WORDS) + len(CHOICES) == 60


def derived(text: bytes, key: str, section: str, binding: str, value: str) -> bytes:
    more = f"section = {json.dumps(section)}\n" if section else ""
    key_map = f"format = 1\n[[binding]]\nkey = {json.dumps(key)}\n{binding}{more}"
    setting = binding.split('"')[1]
    rule = f'[[rule]]\nsetting = "{setting}"\nset = "{value}"\nwhy = "test"\n' if value else ""
    recipe = f'format = 1\n[recipe]\nname = "r"\nversion = "1.0.0"\n{rule}'
    recipes = [Source("r.toml", recipe.encode())] if rule else []
    made = derive([Source("hard.cfg", text)], Source("map.toml", key_map.encode()), recipes)
    assert made.problems == ()
    return made.outputs[0]


def there_and_back(text: str, case: tuple[str, str, str], binding: str, new: str, steps: tuple[str, str]) -> None:
    """No rules: no change. One value set: its text alone is another. Set back: the bytes as they were."""
    section, key, value = case
    raw = text.encode()
    lines = text.split(value)
    assert derived(raw, key, section, binding, "") == raw
    changed = derived(raw, key, section, binding, steps[0])
    right = {new.join((value.join(lines[:at]), value.join(lines[at:]))).encode() for at in range(1, len(lines))}
    assert changed in right
    assert derived(changed, key, section, binding, steps[1]) == raw


@pytest.mark.parametrize(("text", "section", "key", "value"), NUMBERS)
def test_numbers(text: str, section: str, key: str, value: str) -> None:
    binding = 'setting = "layer.minimum_time"\nunit = "ms"\n'
    at = max(place for place, char in enumerate(value.partition("e")[0].partition("E")[0]) if char.isdigit())
    new = f"{value[:at]}{'4' if value[at] != '4' else '6'}{value[at + 1 :]}"
    there_and_back(text, (section, key, value), binding, new, (f"{new} ms", f"{value} ms"))


@pytest.mark.parametrize(("text", "section", "key", "value"), WORDS)
def test_switches(text: str, section: str, key: str, value: str) -> None:
    state = "on" if value.lower() in ("yes", "true", "on", "enabled") else "off"
    other = "off" if state == "on" else "on"
    there_and_back(text, (section, key, value), 'setting = "raft.on"\n', OPPOSITE[value], (other, state))


@pytest.mark.parametrize(("text", "section", "key", "value"), CHOICES)
def test_choices(text: str, section: str, key: str, value: str) -> None:
    binding = f'setting = "infill.pattern"\nchoices = {{ gyroid = "another", grid = {json.dumps(value)} }}\n'
    there_and_back(text, (section, key, value), binding, "another", ("gyroid", "grid"))
