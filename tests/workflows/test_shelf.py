"""A shelf saves time and changes nothing: what was read and worked out for one profile holds for the next."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from profilesmith.engine.derive import Derivation
from profilesmith.foundation.problem import Refused
from profilesmith.library.find import shipped
from profilesmith.workflows.derive import derive
from profilesmith.workflows.request import Request
from profilesmith.workflows.shelf import Shelf

DEMO = shipped() / "demo"
FACTS = tuple(str(DEMO / name) for name in ("machine.toml", "spool.toml", "part.toml"))
STACKS = (("flexible-pla",), ("fine-finish", "part-sandable"), ("long-tube", "flexible-pla", "part-soft"), ("tpu-85a",))


def told(request: Request, shelf: Shelf | None) -> object:
    """All that a derivation says, or what it was refused for."""
    try:
        done: Derivation = derive(request, shelf)
    except Refused as refused:
        return refused.problems
    return done.outputs, done.ledger.rows, done.ledger.problems, done.ledger.derived.entries, done.review.data


def varied(folder: Path, chance: random.Random) -> Path:
    """The demo's base with a third of its numbers changed, some of them to odd ones."""
    lines = []
    for line in (DEMO / "base.settings").read_text(encoding="utf-8").split("\n"):
        key, mark, value = line.partition(" = ")
        if mark and value.replace(".", "").isdigit() and chance.random() < 0.3:
            line = f"{key} = {chance.choice((value, '0', '1', '4', '12', '40', '80', '2400', '9000', value + '5'))}"
        lines.append(line)
    path = folder / f"{chance.random()}.settings"
    path.write_text("\n".join(lines), encoding="utf-8")
    return path


@pytest.mark.parametrize("facts", [FACTS, ()], ids=["facts", "no facts"])
def test_a_shelf_changes_nothing(facts: tuple[str, ...], tmp_path: Path) -> None:
    chance = random.Random(5)
    bases = [DEMO / "base.settings", *(varied(tmp_path, chance) for _ in range(25))]
    shelf = Shelf()
    carried_out = 0
    for recipes in STACKS:
        for base in bases:
            request = Request((str(base),), str(DEMO / "keymap.toml"), recipes, facts)
            plain = told(request, None)
            assert told(request, shelf) == plain
            carried_out += len(plain) == 5 and bool(plain[0])  # type: ignore[arg-type,index]
    assert carried_out >= 20
    assert any(len(known._known) > 20 for known in shelf._outcomes.values()), "outcomes are remembered"


def test_another_answer_is_another_outcome(tmp_path: Path) -> None:
    shelf = Shelf()
    outputs = {
        derive(
            Request(
                (str(DEMO / "base.settings"),), str(DEMO / "keymap.toml"), ("fine-finish",), (), {"layer_height": text}
            ),
            shelf,
        ).outputs
        for text in ("0.12 mm", "0.16 mm", "0.1 mm")
    }
    assert len(outputs) == 3


def library(folder: Path, cap: str) -> Path:
    """A folder with a recipe of one name and its own bound."""
    (folder / "recipes").mkdir(parents=True)
    head = 'format = 1\n[recipe]\nname = "ours"\nversion = "1.0.0"\n'
    rule = (
        f'[[rule]]\nsetting = "outer_wall.speed"\ncap = "{cap}"\n'
        f'when = {{ "machine.drive" = "remote" }}\nwhy = "Case."\n'
    )
    (folder / "recipes" / "ours.toml").write_text(head + rule)
    return folder


def test_the_same_word_means_another_recipe_in_another_library(tmp_path: Path) -> None:
    """An order may name several libraries: what one of them says must not be taken for the other's."""
    one, other = library(tmp_path / "a", "30 mm/s"), library(tmp_path / "b", "25 mm/s")
    (tmp_path / "facts.toml").write_text('format = 1\n[machine]\ndrive = "remote"\n')
    call = Request(
        (str(DEMO / "base.settings"),), str(DEMO / "keymap.toml"), ("ours",), (str(tmp_path / "facts.toml"),)
    )
    shelf = Shelf()
    for where in (one, other, one):
        assert told(call._replace(library=where), shelf) == told(call._replace(library=where), None)


def test_other_facts_are_another_outcome(tmp_path: Path) -> None:
    """The same recipe on the same profile, for two machines: the condition holds on one of them."""
    where = library(tmp_path / "a", "30 mm/s")
    files = []
    for drive in ("remote", "direct"):
        files.append(tmp_path / f"{drive}.toml")
        files[-1].write_text(f'format = 1\n[machine]\ndrive = "{drive}"\n')
    call = Request((str(DEMO / "base.settings"),), str(DEMO / "keymap.toml"), ("ours",), library=where)
    shelf = Shelf()
    outputs = {derive(call._replace(facts=(str(file),)), shelf).outputs for file in files}
    assert len(outputs) == 2
    for file in files:
        assert told(call._replace(facts=(str(file),)), shelf) == told(call._replace(facts=(str(file),)), None)


def test_a_mistake_is_told_each_time_that_the_file_is_asked_for(tmp_path: Path) -> None:
    """The second job of an order must not go through because the first was refused."""
    (tmp_path / "bad.toml").write_text("format = 1\n")
    call = Request((str(DEMO / "base.settings"),), str(DEMO / "keymap.toml"), (str(tmp_path / "bad.toml"),))
    shelf = Shelf()
    with pytest.raises(Refused):
        derive(call, shelf)
    assert told(call, shelf) == told(call, shelf) == told(call, None)


SHARE_MAP = """format = 1
[keymap]
name = "share"
[[binding]]
setting = "outer_wall.speed"
key = "rim"
[[binding]]
setting = "inner_wall.speed"
key = "core"
unit = "%"
relative_to = "outer_wall.speed"
"""
SHARE_RECIPE = """format = 1
[recipe]
name = "slow"
version = "1.0.0"
[[rule]]
setting = "outer_wall.speed"
cap = "40 mm/s"
why = "The share's reference moves."
"""


def test_what_becomes_of_shares_is_asked_of_each_call(tmp_path: Path) -> None:
    """One map, once with shares that keep their value and once with shares that follow."""
    files = {"base.cfg": "rim = 80\ncore = 125\n", "map.toml": SHARE_MAP, "slow.toml": SHARE_RECIPE}
    for name, text in files.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    base, key_map, recipe = (str(tmp_path / name) for name in files)
    shelf, outputs = Shelf(), []
    for shares in ("keep", "follow"):
        made = derive(Request((base,), key_map, (recipe,), shares=shares), shelf)
        outputs += made.outputs
    assert outputs == [b"rim = 40\ncore = 250\n", b"rim = 40\ncore = 125\n"]
