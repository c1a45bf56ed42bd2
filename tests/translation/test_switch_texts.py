"""How a switch is written: in the words of its own text, so that whoever reads the file finds what they know."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from profilesmith.translation.spelling import unnamed, unnamed_choice, write_switch
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

WORDS = ("ja", "nein")


@pytest.mark.parametrize(
    ("more", "words", "old", "like", "on", "off"),
    [
        ('on = ["3", "4"]\noff = ["0", "1"]', (), "9", "", "3", "0"),
        ('on = "3"\noff = "0"', WORDS, "9", "", "3", "0"),
        ("", WORDS, "ja", "", "ja", "nein"),
        ("", WORDS, "", "True", "ja", "nein"),
        ("", (), "true", "", "true", "false"),
        ("", (), "FALSE", "", "TRUE", "FALSE"),
        ("", (), "False", "", "True", "False"),
        ("", (), "off", "", "on", "off"),
        ("", (), "No", "", "Yes", "No"),
        ("", (), "enabled", "", "enabled", "disabled"),
        ("", (), "", "", "1", "0"),
        ("", (), "1", "yes", "1", "0"),  # its own text goes first
        ("", (), "", "yes", "yes", "no"),
        ("", (), "", "YES", "YES", "NO"),
        ("", (), "", "Off", "On", "Off"),
    ],
)
def test_in_the_words_of_its_text(
    more: str,
    words: tuple[str, ...],
    old: str,
    like: str,
    on: str,
    off: str,
    read_map: Callable[[str], Any],
    bind: Callable[..., str],
) -> None:
    binding = read_map(bind("raft.on", "a", more))[0].bindings[0]
    assert (write_switch(old, True, binding, words, like), write_switch(old, False, binding, words, like)) == (on, off)


@pytest.mark.parametrize(
    ("more", "words", "text", "state", "code"),
    [
        ('on = "3"\noff = "0"', (), "3", True, ""),
        ('on = "3"\noff = "0"', (), "0", False, ""),
        ('on = "3"\noff = "0"', (), "1", False, "reads-as-off"),
        ('off = "0"', WORDS, "wide", True, "reads-as-on"),
        ('off = "0"', WORDS, "ja", True, ""),
        ("", WORDS, "wide", True, ""),
        ("", (), "yes", True, ""),
        ('on_when = "> 0"\non = "3"\noff = "0"', (), "7", True, ""),
    ],
)
def test_a_text_that_the_map_does_not_name_is_told(
    more: str,
    words: tuple[str, ...],
    text: str,
    state: bool,
    code: str,
    read_map: Callable[[str], Any],
    bind: Callable[..., str],
) -> None:
    head = f'[text]\non = "{words[0]}"\noff = "{words[1]}"\n' if words else ""
    binding = read_map(head + bind("raft.on", "a", more))[0].bindings[0]
    said = unnamed(text, binding, words, state)
    assert [departure.code for departure in said] == ([code] if code else [])
    if said:
        assert said[0].text == text
        assert said[0].names == (binding.on or words[:1])
        assert said[0].others == binding.off


def test_a_choice_without_an_entry(read_map: Callable[[str], Any], bind: Callable[..., str]) -> None:
    setting = load_vocabulary().settings["infill.pattern"]
    bare = read_map(bind("infill.pattern", "a"))[0].bindings[0]
    assert unnamed_choice("grid", bare, setting) == ()
    (said,) = unnamed_choice("wobbly", bare, setting)
    assert (said.code, said.text, said.names) == ("no-choice", "wobbly", setting.values)
    bound = read_map(bind("infill.pattern", "a", 'choices = { grid = ["1", "2"] }'))[0].bindings[0]
    assert unnamed_choice("2", bound, setting) == ()
    (said,) = unnamed_choice("grid", bound, setting)  # the text writes numbers: the word is none of its own
    assert (said.text, said.names) == ("grid", tuple(word for word in setting.values if word != "grid"))
