"""``distil`` as a user runs it: the shipped pairs, and small ones that say what is refused and what is told."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.lint.lint_file import lint_file

Program = Callable[..., Any]
PAIRS = Path(__file__).parents[2] / "recipes" / "demo" / "pairs"
SHIPPED = (
    "--pair",
    "attic.settings",
    "attic-soft.settings",
    "--pair",
    "keller.conf",
    "keller-weich.conf",
    "--pair",
    "porch.txt",
    "porch-soft.txt",
    "--keymap",
    "plain-shop",
    "--keymap",
    "werkbank",
    "--keymap",
    "spoken-sheet",
)
MAP = (
    'format = 1\n[keymap]\nname = "bench"\n[text]\non = "yes"\noff = "no"\n[[binding]]\n'
    'setting = "outer_wall.speed"\nkey = "rim"\n'
    '[[binding]]\nsetting = "nozzle.temperature"\nkey = "heat"\n[[binding]]\nsetting = "raft.on"\nkey = "raft"\n'
)


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("map.toml").write_text(MAP)
    return tmp_path


def texts(*rows: tuple[str, str]) -> list[str]:
    """Pairs a0.cfg, b0.cfg, ... and the words that name them."""
    words = []
    for number, (base, tuned) in enumerate(rows):
        Path(f"a{number}.cfg").write_text(base)
        Path(f"b{number}.cfg").write_text(tuned)
        words += ["--pair", f"a{number}.cfg", f"b{number}.cfg"]
    return words


def test_the_shipped_pairs(program: Program, folder: Path) -> None:
    """The recipe a keeper would have written, each printer's private tweaks apart, and a proof by replay."""
    shutil.copytree(PAIRS, folder, dirs_exist_ok=True)
    ran = program("distil", *SHIPPED, "-o", "club-soft.toml", "--tweaks", "tweaks.toml")
    assert ran.code == 0, ran.err
    recipe = Path("club-soft.toml").read_text(encoding="utf-8")
    for rule in (
        'setting = "printing speeds"\nexcept = ["first_layer.speed"]\ncap = "40 mm/s"',
        'setting = "first_layer.speed"\ncap = "20 mm/s"',
        'setting = "support.density"\nraise_to = "30 %"',
        'setting = "raft.on"\nset = "on"',
        'setting = "nozzle.temperature"\nwindow = ["210 °C", "220 °C"]',
        'setting = "retraction.speed"\nscale = "70 %"',
        'setting = "print.acceleration"\ncap = "1000 mm/s2"',
        'setting = "layer.minimum_time"\nraise_to = "10 s"',
    ):
        assert rule in recipe, rule
    assert "exception:" not in recipe.partition("# Not in this recipe")[0], "a share that follows its reference is none"
    assert "# 3 pairs changed, 0 already met it, 0 exceptions" in recipe
    assert '# or: set = "4 mm3/s"' in recipe
    assert "travel.speed" not in recipe.partition("# Not in this recipe")[0]
    assert "derived = tuned for every pair" in ran.out
    tweaks = sorted(path.name for path in folder.glob("tweaks-*.toml"))
    assert tweaks == ["tweaks-plain-shop.toml", "tweaks-spoken-sheet.toml", "tweaks-werkbank.toml"]
    for name in ("club-soft.toml", *tweaks):
        found = [item for item in lint_file(folder / name, "recipe", strict=True) if item.severity != "skipped"]
        assert {item.number for item in found} == {"R204"}  # reasons are for the keeper to add, and that is said
    assert program("recipe", "check", "club-soft.toml", *tweaks).out.count("3 of 3 examples pass") == 1


def test_what_was_distilled_derives_the_tuned_texts(program: Program, folder: Path) -> None:
    """Through ``derive`` and ``compare``, the commands that a user would check it with."""
    shutil.copytree(PAIRS, folder, dirs_exist_ok=True)
    program("distil", *SHIPPED, "-o", "club-soft.toml", "--tweaks", "tweaks.toml", "-q")
    for base, tuned, key_map in (
        ("attic.settings", "attic-soft.settings", "plain-shop"),
        ("keller.conf", "keller-weich.conf", "werkbank"),
        ("porch.txt", "porch-soft.txt", "spoken-sheet"),
    ):
        recipes = ("--recipe", "club-soft.toml", "--recipe", f"tweaks-{key_map}.toml")
        how = ("--shares", "follow", "-o", "out.txt", "--overwrite", "-q")  # as distil says of these pairs
        assert program("derive", base, "--keymap", key_map, *recipes, *how).code == 0
        told = program("compare", "out.txt", tuned, "--keymap", key_map, "--as", "json").out
        paths = [step["path"] for step in json.loads(told)["patch"]]
        assert all("retraction.speed" in path for path in paths), "35 mm/s x 0.7 is 24.5, which its keeper wrote as 25"


def test_no_rule_no_file(program: Program) -> None:
    ran = program(
        "distil",
        *texts(("rim = 60\n", "rim = 23\n"), ("rim = 40\n", "rim = 31\n")),
        "--keymap",
        "map.toml",
        "-o",
        "r.toml",
    )
    assert ran.code == 1
    assert "No rule found" in ran.out
    assert "outer_wall.speed" in ran.out
    assert not Path("r.toml").exists()


def test_without_a_rule_the_tweaks_are_written_all_the_same(program: Program) -> None:
    Path("other.toml").write_text(MAP.replace('"bench"', '"stool"'))
    words = texts(
        ("rim = 60\nheat = 205\n", "rim = 40\nheat = 205\n"), ("rim = 70\nheat = 200\n", "rim = 70\nheat = 215\n")
    )
    ran = program(
        "distil", *words, "--keymap", "map.toml", "--keymap", "other.toml", "-o", "r.toml", "--tweaks", "t.toml"
    )
    assert ran.code == 1, ran.err
    assert "there is no recipe to write, only tweaks" in ran.out
    assert not Path("r.toml").exists()
    tweaks = sorted(Path().glob("t-*.toml"))
    assert [path.name for path in tweaks] == ["t-bench.toml", "t-stool.toml"], "by the maps' own names"
    assert "laid over" not in tweaks[0].read_text(encoding="utf-8")
    assert program("recipe", "check", *map(str, tweaks)).code == 0
    assert "Exit 1" in program("distil", "--help").out


def test_pairs_that_count_as_one_machine_are_told(program: Program) -> None:
    words = texts(("rim = 60\n", "rim = 40\n"), ("rim = 50\n", "rim = 40\n"))
    out = " ".join(program("distil", *words, "--keymap", "map.toml").out.split())
    assert "2 pairs of 1 machine: 1 rule, 1 of them ambiguous" in out
    assert "2 pairs count as those of one machine, bench: they have the same map and the same facts." in out
    for name in ("f1", "f2"):
        Path(f"{name}.toml").write_text('format = 1\n[machine]\ndrive = "direct"\n')
    out = program("distil", *words, "--keymap", "map.toml", "--facts", "1=f1.toml", "--facts", "2=f2.toml").out
    assert "2 pairs of 2 machines" in out
    assert "count as" not in out


def test_a_recipe_names_files_and_no_folders(program: Program, folder: Path) -> None:
    (folder / "deep" / "private").mkdir(parents=True)
    words = []
    for number in range(2):
        for name, rim in (("base.cfg", 60 + number), ("soft.cfg", 40)):
            path = folder / "deep" / f"private{number or ''}" / name
            path.parent.mkdir(exist_ok=True)
            path.write_text(f"rim = {rim}\nhue = {rim}\n")
        words += [
            "--pair",
            f"deep/private{number or ''}/base.cfg",
            str(folder / "deep" / f"private{number or ''}" / "soft.cfg"),
        ]
    ran = program("distil", *words, "--keymap", "map.toml", "-o", "r.toml")
    recipe = Path("r.toml").read_text(encoding="utf-8")
    assert "# The pair base.cfg → soft.cfg (pair 1)." in recipe
    assert "private" not in recipe
    assert "private" not in ran.out


def test_a_hostile_map_name_writes_no_file_elsewhere(program: Program, folder: Path) -> None:
    Path("other.toml").write_text(MAP.replace('"bench"', '"../../up"'))
    words = texts(
        ("rim = 60\nheat = 205\n", "rim = 40\nheat = 205\n"), ("rim = 70\nheat = 200\n", "rim = 70\nheat = 215\n")
    )
    program("distil", *words, "--keymap", "map.toml", "--keymap", "other.toml", "--tweaks", "t.toml")
    assert len(list(folder.glob("t-*.toml"))) == 2


def test_what_cannot_be_learnt_from_is_listed(program: Program) -> None:
    words = texts(("rim = 60\nhue = red\nraft = no\n", "rim = 40\nhue = blue\nnonsense\n"))
    ran = program("distil", *words, "--keymap", "map.toml", "-o", "r.toml")
    for told in ("hue: blue", "nonsense", "raft.on", "one pair alone never identifies a rule", "What would settle it"):
        assert told in ran.out, told
    assert "below 40 mm/s" in Path("r.toml").read_text()


def test_facts_for_all_pairs_and_for_one(program: Program) -> None:
    for name, low, high in (("s1", 205, 215), ("s2", 220, 240), ("s3", 210, 230)):
        Path(f"{name}.toml").write_text(
            f'format = 1\n[spool]\nnozzle_window = ["{low} °C", "{high} °C"]\n', encoding="utf-8"
        )
    Path("m.toml").write_text('format = 1\n[machine]\ndrive = "direct"\n')
    words = texts(("heat = 200\n", "heat = 205\n"), ("heat = 200\n", "heat = 220\n"), ("heat = 240\n", "heat = 230\n"))
    ran = program(
        "distil",
        *words,
        "--keymap",
        "map.toml",
        "--facts",
        "m.toml",
        "--facts",
        "1=s1.toml",
        "--facts",
        "2=s2.toml",
        "--facts",
        "3=s3.toml",
        "-o",
        "r.toml",
    )
    assert ran.code == 0, ran.err
    recipe = Path("r.toml").read_text(encoding="utf-8")
    assert 'window = {fact = "spool.nozzle_window"}' in recipe
    assert 'facts = {"spool.nozzle_window" = ["205 °C", "215 °C"]}' in recipe
    assert "3 pairs of 3 machines" in ran.out


def test_pairs_of_one_machine_have_no_tweaks(program: Program) -> None:
    words = texts(
        ("rim = 60\n", "rim = 40\n"),
        ("rim = 50\n", "rim = 40\n"),
        ("rim = 70\n", "rim = 40\n"),
        ("rim = 55\n", "rim = 45\n"),
    )
    ran = program("distil", *words, "--keymap", "map.toml", "-o", "r.toml", "--tweaks", "t.toml")
    assert "exception: a3.cfg → b3.cfg: outer_wall.speed 55 mm/s → 45 mm/s" in ran.out
    assert not Path("t.toml").exists()
    recipe = Path("r.toml").read_text(encoding="utf-8")
    assert "# exception: a3.cfg → b3.cfg" in recipe
    assert recipe.count("[[example]]") == 3, "a pair that departs is no example of the rule"


def test_tools_switches_that_are_numbers_and_added_keys(program: Program) -> None:
    """Two tools in one value; a raft that is a number of layers; a density that the text did not have before."""
    more = (
        '[[binding]]\nsetting = "bed.temperature"\nkey = "beds"\ntools = true\n[[binding]]\n'
        'setting = "raft.layers"\nkey = "under"\n'
        '[[binding]]\nsetting = "support.density"\nkey = "prop"\nadd = true\n'
    )
    Path("map.toml").write_text(
        MAP.replace('key = "raft"\n', 'key = "under"\non_when = "> 0"\non = "3"\noff = "0"\n') + more
    )
    words = texts(
        ("rim = 60\nbeds = 60,70\nunder = 0\n", "rim = 60\nbeds = 50,50\nunder = 3\nprop = 30\n"),
        ("rim = 60\nbeds = 45,65\nunder = 0\nprop = 10\n", "rim = 60\nbeds = 45,50\nunder = 3\nprop = 30\n"),
    )
    ran = program("distil", *words, "--keymap", "map.toml", "-o", "r.toml")
    assert ran.code == 0, ran.err
    recipe = Path("r.toml").read_text(encoding="utf-8")
    for rule in (
        'setting = "bed.temperature"\ncap = "50 °C"',
        'setting = "raft.on"\nset = "on"',
        'setting = "support.density"\nset = "30 %"',
    ):
        assert rule in recipe, recipe
    assert "raft.layers" not in recipe, "the switch writes its number"
    assert "derived = tuned for every pair" in ran.out
    for number in range(2):
        assert (
            program(
                "derive", f"a{number}.cfg", "--keymap", "map.toml", "--recipe", "r.toml", "-o", f"c{number}.cfg", "-q"
            ).code
            == 0
        )
        assert sorted(Path(f"c{number}.cfg").read_text().split()) == sorted(Path(f"b{number}.cfg").read_text().split())


def test_json(program: Program) -> None:
    ran = program(
        "distil",
        *texts(("rim = 60\n", "rim = 40\n"), ("rim = 30\n", "rim = 30\n")),
        "--keymap",
        "map.toml",
        "--as",
        "json",
    )
    told = json.loads(ran.out)
    assert told["rules"][0]["law"] == 'cap = "40 mm/s"'
    assert (told["rules"][0]["changed"], told["rules"][0]["met"], told["replay"]["passed"]) == (1, 1, True)


def test_quiet(program: Program) -> None:
    ran = program("distil", *texts(("rim = 60\n", "rim = 40\n")), "--keymap", "map.toml", "-o", "r.toml", "-q")
    assert (ran.code, ran.out, ran.err) == (0, "", "")
    assert Path("r.toml").exists()


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (["--keymap", "map.toml", "--keymap", "map.toml", "--keymap", "map.toml"], "keymaps"),
        (["--keymap", "map.toml", "--facts", "7=x.toml"], "facts-pair"),
        (["--keymap", "map.toml", "--pair", "a0.cfg"], "no-pair"),
        (["--keymap", "map.toml", "--as", "page"], "form"),
        (["--keymap", "map.toml", "-o", "a0.cfg"], "output-is-input"),
        (["--keymap", "map.toml", "-o", "there.toml"], "exists"),
        (["--keymap", "none.toml"], "no-file"),
    ],
)
def test_refused(words: list[str], code: str, program: Program, folder: Path) -> None:
    pairs = texts(("rim = 60\n", "rim = 40\n"))
    Path("there.toml").write_text("mine")
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    ran = program("distil", *pairs, *words)
    assert (ran.code, code in ran.codes) == (2, True), (ran.codes, ran.err)
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == before
