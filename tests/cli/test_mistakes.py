"""Mistakes that people make, each with the words that name it and the fix; where the fix is a call, it is pasted and
works.
"""

from __future__ import annotations

import re
import shlex
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from profilesmith.workflows.demo import run_demo

Program = Callable[..., Any]
HEAD = 'format = 1\n[recipe]\nname = "x"\nversion = "1.0.0"\n'
MAP = 'format = 1\n[keymap]\nname = "m"\n[[binding]]\nsetting = "{}"\nkey = "{}"\n'
FILES = {
    "noquote.toml": 'format = 1\n[keymap]\nname = mine\n[[binding]]\nsetting = "wall.count"\nkey = "turns"\n',
    "open.toml": 'format = 1\n[keymap]\nname = "mine\n',
    "misspelled.toml": HEAD + '[[rule]]\nsetting = "support.density"\nrais_to = "30 %"\nwhy = "x"\n',
    "thin.toml": HEAD.replace('"x"', '"thin"') + '[[rule]]\nsetting = "support.density"\ncap = "10 %"\nwhy = "x"\n',
    "picture.settings": "\x89PNG",
    "nounit.toml": HEAD + '[[rule]]\nsetting = "support.density"\ncap = 30\nwhy = "x"\n',
    "wrongunit.toml": HEAD + '[[rule]]\nsetting = "support.density"\ncap = "30 mm"\nwhy = "x"\n',
    "nosetting.toml": HEAD + '[[rule]]\nsetting = "suport.density"\ncap = "30 %"\nwhy = "x"\n',
    "noversion.toml": 'format = 1\n[recipe]\nname = "x"\n[[rule]]\nsetting = "raft.on"\nset = "on"\nwhy = "x"\n',
    "badversion.toml": HEAD.replace("1.0.0", "1.0") + '[[rule]]\nsetting = "raft.on"\nset = "on"\nwhy = "x"\n',
    "noformat.toml": HEAD.replace("format = 1\n", "") + '[[rule]]\nsetting = "raft.on"\nset = "on"\nwhy = "x"\n',
    "badfact.toml": 'format = 1\n[machine]\ndriv = "direct"\n',
    "badchoice.toml": 'format = 1\n[machine]\ndrive = "long tube"\n',
    "bare.toml": 'format = 1\n[spool]\nnozzle_window = "210-220"\n',
    "badmap.toml": 'format = 1\n[keymap]\nname = "m"\n[[binding]]\nsetting = "wall.cuont"\nkey = "turns"\n',
    "badunit.toml": MAP.format("layer.height", "rise") + 'unit = "fingers"\n',
    "nothere.toml": MAP.format("wall.count", "turn"),
    "hot.toml": HEAD + '[[rule]]\nsetting = "nozzle.temperature"\nset = "260 \xc2\xb0C"\nwhy = "x"\n',
    "order.toml": 'format = 1\n[order]\nname = "o"\nkeymap = "keymap.toml"\nrecipies = ["flexible-pla"]\nout = "soft"\n'
    '[[job]]\nbase = "base.settings"\n',
    "twice.settings": "turns = 3\nturns = 4\n",
    "words.settings": "turns = three\n",
    "nothing.toml": "",
    "keytwice.toml": 'format = 1\n[spool]\nmaterial = "TPU"\n[part]\nwidth = "9 mm"\nthickness = "2 mm"\n'
    'thickness = "3 mm"\n',
    "drying.toml": 'format = 1\n[spool]\ndrying_time = "6"\n',
    "turns.toml": MAP.format("wall.count", "turns"),
    "huge.settings": "rise = 20\n",
    "rise.toml": MAP.format("layer.height", "rise") + 'unit = "mm"\n',
}


class Mistake(NamedTuple):
    """says: words that must come, in order of their lines. never: words that only confuse."""

    call: str
    says: tuple[str, ...]
    never: tuple[str, ...] = ()


DERIVE = "derive base.settings --keymap keymap.toml --recipe flexible-pla"
MISTAKES = {
    "text-without-quotes": Mistake(
        "keymap check noquote.toml base.settings", ("noquote.toml:3", "'name = mine'", 'name = "mine"')
    ),
    "open-quote": Mistake("keymap check open.toml base.settings", ("open.toml:3", "close it")),
    "misspelled-operation": Mistake(
        "recipe check misspelled.toml",
        ("misspelled.toml:7", "'rais_to' is not an operation", "'raise_to'"),
        ("no operation",),
    ),
    "recipe-given-as-map": Mistake(
        "derive base.settings --keymap thin.toml --recipe thin.toml",
        ("thin.toml: This is a recipe, not a key map", "--recipe"),
        ("binding",),
    ),
    "map-given-as-recipe": Mistake(
        "derive base.settings --keymap keymap.toml --recipe keymap.toml",
        ("keymap.toml: This is a key map, not a recipe", "--keymap"),
        ("'version' is missing",),
    ),
    "facts-given-as-recipe": Mistake(
        "derive base.settings --keymap keymap.toml --recipe spool.toml", ("This is a facts file", "--facts")
    ),
    "settings-given-as-map": Mistake(
        "derive base.settings --keymap base.settings --recipe flexible-pla",
        ("base.settings:", "not a key map", "format = 1"),
    ),
    "a-picture": Mistake("derive picture.settings --keymap keymap.toml --recipe flexible-pla", ("a picture (PNG)",)),
    "no-such-outcome": Mistake(
        "evidence add flexible-pla --outcome good", ("'good'", "worked, partly, failed"), ("needs a library",)
    ),
    "no-such-grade": Mistake(
        "evidence add flexible-pla --outcome worked --stringing bad", ("--stringing", "'bad'", "good, fair, poor")
    ),
    "no-map": Mistake("derive base.settings --recipe flexible-pla", ("No key map is named", "keymap suggest")),
    "no-map-to-explain": Mistake("explain support.density base.settings", ("No key map is named", "keymap suggest")),
    "misspelled-file": Mistake(
        "derive base.setings --keymap keymap.toml --recipe flexible-pla", ("base.setings", "'base.settings'")
    ),
    "misspelled-folder": Mistake(
        "derive nowhere/base.settings --keymap keymap.toml --recipe flexible-pla", ("'nowhere' is not there",)
    ),
    "misspelled-map": Mistake(
        "derive base.settings --keymap keymp.toml --recipe flexible-pla", ("keymp.toml", "'keymap.toml'")
    ),
    "misspelled-recipe": Mistake(
        "derive base.settings --keymap keymap.toml --recipe flexible-pl", ("'flexible-pl'", "'flexible-pla'")
    ),
    "misspelled-facts": Mistake(f"{DERIVE} --facts machin.toml", ("machin.toml", "'machine.toml'")),
    "misspelled-setting": Mistake(
        "explain support.densty base.settings --keymap keymap.toml", ("'support.densty'", "'support.density'")
    ),
    "an-answer-without-a-name": Mistake(f"{DERIVE} --answer foo", ("'foo' is not an answer", "NAME=VALUE")),
    "an-answer-that-is-no-choice": Mistake(f"{DERIVE} --answer machine.drive=maybe", ("'maybe'", "direct, remote")),
    "an-output-that-is-there": Mistake(f"{DERIVE} -o soft.settings", ("soft.settings", "--overwrite")),
    "review-of-what-nobody-derived": Mistake("review base.settings", ("no ledger", "derive")),
    "misspelled-form": Mistake(f"{DERIVE} --as htm", ("'htm'", "'html'")),
    "misspelled-page": Mistake("guide recipee", ("'recipee'", "'recipe'")),
    "misspelled-schema": Mistake("schema keymaps", ("'keymaps'", "'keymap'")),
    "a-number-without-quotes": Mistake("recipe check nounit.toml", ("nounit.toml:7", '"30 %"')),
    "a-unit-of-another-kind": Mistake("recipe check wrongunit.toml", ("wrongunit.toml:7", "'mm'", '"70 %"')),
    "misspelled-setting-in-a-recipe": Mistake("recipe check nosetting.toml", ("nosetting.toml:6", "'support.density'")),
    "no-version": Mistake("recipe check noversion.toml", ("noversion.toml:2", 'Add version = "1.0.0" here')),
    "a-version-of-two-numbers": Mistake("recipe check badversion.toml", ("badversion.toml:4", "such as 1.0.0")),
    "no-format": Mistake("recipe check noformat.toml", ("noformat.toml", "Add format = 1 here")),
    "misspelled-fact": Mistake(f"{DERIVE} --facts badfact.toml", ("badfact.toml:3", "'drive'")),
    "a-fact-that-is-no-choice": Mistake(f"{DERIVE} --facts badchoice.toml", ("badchoice.toml:3", "direct or remote")),
    "a-window-without-units": Mistake(f"{DERIVE} --facts bare.toml", ("bare.toml:3", 'Write "210 °C to 220 °C"')),
    "misspelled-setting-in-a-map": Mistake("keymap check badmap.toml base.settings", ("badmap.toml:5", "'wall.count'")),
    "a-unit-that-is-none": Mistake("keymap check badunit.toml base.settings", ("badunit.toml:7", "mm, um, cm")),
    "another-machine-s-map": Mistake(
        "derive base.settings --keymap nothere.toml --recipe part-soft",
        ("finds none of its keys", "keymap suggest", 'key = "turns"'),
    ),
    "misspelled-key-in-an-order": Mistake("batch order.toml", ("order.toml:5", "'recipes'")),
    "one-key-twice": Mistake(
        "derive twice.settings --keymap turns.toml --recipe part-soft", ("twice.settings:2", 'duplicates = "last"')
    ),
    "a-word-for-a-number": Mistake(
        "derive words.settings --keymap turns.toml --recipe part-soft",
        ("words.settings:1", "'three' is not a number", "turns.toml:4"),
    ),
    "the-wrong-unit": Mistake(
        "derive huge.settings --keymap rise.toml --recipe fine-finish",
        ("huge.settings:1", "is the unit right?", 'unit = "um" would make it 0.02 mm'),
    ),
    "an-output-that-is-the-input": Mistake(f"{DERIVE} -o base.settings", ("base.settings", "one of the inputs", "-o")),
    "misspelled-answer": Mistake(f'{DERIVE} --answer "part.thicknes=2 mm"', ("part.thicknes", "'part.thickness'")),
    "an-answer-without-a-unit": Mistake(f"{DERIVE} --answer part.thickness=2", ("has no unit", 'Write "2 mm"')),
    "no-recipe": Mistake("derive base.settings --keymap keymap.toml", ("No recipe was named", "--recipe NAME")),
    "a-value-by-hand-without-a-unit": Mistake(
        "derive base.settings --keymap keymap.toml --set nozzle.temperature=212 --why x",
        ("has no unit", '--set "nozzle.temperature=212 °C"'),
    ),
    "a-value-by-hand-without-a-reason": Mistake(
        'derive base.settings --keymap keymap.toml --set "nozzle.temperature=212 °C"',
        ("needs a reason", '--why "It strung at 215."'),
    ),
    "a-value-by-hand-with-a-figure-too-many": Mistake(
        'derive base.settings --keymap keymap.toml --set "nozzle.temperature=2120 °C" --why x',
        ("--set", "2120 °C", "outside the plausible 70 to 500 °C"),
    ),
    "an-answer-by-its-last-word": Mistake(f"{DERIVE} --answer drive=direct", ("'drive'", "'machine.drive'")),
    "an-answer-to-nothing": Mistake(
        f"{DERIVE} --answer xyzzy=1", ("label_speed", "machine.drive"), ("flexible-pla.label_speed",)
    ),
    "a-tool-before-the-first": Mistake(f"{DERIVE} --tools 0", ("--tools", "no tool 0", "counted from 1")),
    "an-empty-map": Mistake(
        "derive base.settings --keymap nothing.toml --recipe flexible-pla",
        ("nothing.toml", "is empty", "keymap suggest"),
        ("missing",),
    ),
    "a-fact-twice": Mistake(
        f"{DERIVE} --facts keytwice.toml",
        ("keytwice.toml:7", "'thickness' is there twice, in line 6 and here"),
        ("not valid",),
    ),
    "a-fact-without-its-usual-unit": Mistake(
        f"{DERIVE} --facts drying.toml", ("drying.toml:3", "has no unit", 'Write "6 h".')
    ),
    "a-report-of-no-form": Mistake(f"{DERIVE} --report review.pdf", ("'.pdf'", ".html")),
    "a-start-block-that-says-yes": Mistake(f"{DERIVE} --start-block yes", ("'yes'", "follow or keep")),
    "misspelled-command": Mistake("dervie base.settings", ("'dervie'", "'derive'")),
    "misspelled-command-of-a-group": Mistake("recipe shwo flexible-pla", ("'shwo'", "'show'")),
    "misspelled-trouble": Mistake("vocabulary strnging", ("'strnging'", "'stringing'")),
    "neither-written-nor-shown": Mistake(f"{DERIVE} -q", ("neither write nor print", "-o OUT")),
    "one-side-of-a-comparison": Mistake(
        "compare base.settings", ("Missing argument 'NEW'", "profilesmith compare base.settings soft.settings")
    ),
    "a-trouble-without-a-grade": Mistake("mend soft.settings --saw strings", ("says no grade", "stringing=poor")),
    "an-option-of-another-command": Mistake(
        "check base.settings --recipe flexible-pla", ("--recipe", "derive, ", "profilesmith check base.settings")
    ),
    "misspelled-derived-file": Mistake("review soft.setings", ("soft.setings", "'soft.settings'")),
    "a-folder-that-is-no-library": Mistake("library check nowhere", ("nowhere", "library new")),
}


class Pasted(NamedTuple):
    """A fix that is pasted: into a file (``at``) or, without one, into the call. old: what it takes the place of."""

    name: str
    old: str
    new: str
    at: str = ""


PASTED = [
    Pasted("text-without-quotes", "name = mine", 'name = "mine"', "noquote.toml"),
    Pasted("misspelled-operation", "rais_to", "raise_to", "misspelled.toml"),
    Pasted("misspelled-file", "base.setings", "base.settings"),
    Pasted("misspelled-map", "keymp.toml", "keymap.toml"),
    Pasted("misspelled-recipe", "flexible-pl", "flexible-pla"),
    Pasted("misspelled-facts", "machin.toml", "machine.toml"),
    Pasted("misspelled-setting", "support.densty", "support.density"),
    Pasted("misspelled-form", "--as htm", "--as html"),
    Pasted("misspelled-page", "recipee", "recipe"),
    Pasted("misspelled-schema", "keymaps", "keymap"),
    Pasted("a-number-without-quotes", "cap = 30", 'cap = "30 %"', "nounit.toml"),
    Pasted("misspelled-setting-in-a-recipe", "suport.density", "support.density", "nosetting.toml"),
    Pasted("no-version", 'name = "x"', 'name = "x"\nversion = "1.0.0"', "noversion.toml"),
    Pasted("no-format", "[recipe]", "format = 1\n[recipe]", "noformat.toml"),
    Pasted("misspelled-fact", "driv ", "drive ", "badfact.toml"),
    Pasted("a-window-without-units", '"210-220"', '"210 °C to 220 °C"', "bare.toml"),
    Pasted("misspelled-setting-in-a-map", "wall.cuont", "wall.count", "badmap.toml"),
    Pasted("another-machine-s-map", '"turn"', '"turns"', "nothere.toml"),
    Pasted("misspelled-key-in-an-order", "recipies", "recipes", "order.toml"),
    Pasted("the-wrong-unit", 'unit = "mm"', 'unit = "um"', "rise.toml"),
    Pasted("misspelled-answer", "part.thicknes", "part.thickness"),
    Pasted("an-answer-without-a-unit", "part.thickness=2", '"part.thickness=2 mm"'),
    Pasted("a-value-by-hand-without-a-unit", "nozzle.temperature=212", '"nozzle.temperature=212 °C"'),
    Pasted("a-value-by-hand-without-a-reason", "212 °C", '212 °C" --why "It strung at 215.'),
    Pasted("an-answer-by-its-last-word", "drive", "machine.drive"),
    Pasted("a-fact-without-its-usual-unit", '"6"', '"6 h"', "drying.toml"),
    Pasted("a-start-block-that-says-yes", "block yes", "block keep"),
    Pasted("misspelled-command-of-a-group", "shwo", "show"),
    Pasted("misspelled-trouble", "strnging", "stringing"),
    Pasted("misspelled-derived-file", "soft.setings", "soft.settings"),
]


@pytest.mark.parametrize("fix", PASTED, ids=lambda fix: fix.name)
def test_the_fix_works_as_it_is_pasted(fix: Pasted, heron: Path, program: Program) -> None:
    """The word that mends it stands in the message; put in its place, the call works."""
    call = MISTAKES[fix.name].call
    told = program(*shlex.split(call))
    assert told.code == 2
    fresh = [word for word in re.split(r"[ \n\"']+", fix.new) if word and word not in fix.old]
    assert [word for word in fresh if word not in told.err + told.out] == []
    if fix.at:
        path = heron / fix.at
        before = path.read_text(encoding="utf-8")
        assert fix.old in before
        path.write_text(before.replace(fix.old, fix.new, 1), encoding="utf-8")
    else:
        assert fix.old in call
        call = call.replace(fix.old, fix.new, 1)
    try:
        assert program(*shlex.split(call)).code in (0, 1)
    finally:
        if fix.at:
            path.write_text(before, encoding="utf-8")


def test_there_are_enough_of_them() -> None:
    assert len(MISTAKES) >= 45


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo and the files with mistakes, laid out once: a mistake writes nothing."""
    made = tmp_path_factory.mktemp("mistakes")
    run_demo(str(made / "heron"))
    for name, text in FILES.items():
        (made / "heron" / name).write_bytes(text.encode("latin-1"))
    return made / "heron"


@pytest.fixture(autouse=True)
def heron(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(folder)
    return folder


@pytest.mark.parametrize("name", MISTAKES)
def test_a_mistake_is_named_with_its_fix(name: str, program: Program) -> None:
    mistake = MISTAKES[name]
    ran = program(*shlex.split(mistake.call))
    assert ran.code == 2
    told = ran.err + ran.out
    for words in mistake.says:
        assert words in told
    for words in mistake.never:
        assert words not in told


def test_the_call_that_proposes_a_map_works_as_printed(heron: Path, program: Program) -> None:
    told = program("derive", "base.settings", "--recipe", "flexible-pla").err
    (call,) = re.findall(r"'(profilesmith [^']*)' proposes one", told)
    assert program(*shlex.split(call)[1:]).code == 0
    assert (heron / "my-bench.toml").is_file()


def test_map_and_text_may_stand_in_either_order(program: Program) -> None:
    right = program("keymap", "check", "keymap.toml", "base.settings")
    turned = program("keymap", "check", "base.settings", "keymap.toml")
    assert (turned.code, turned.out) == (right.code, right.out)
    assert right.out
