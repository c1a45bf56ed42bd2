"""The memory of a batch: the second profile that says the same costs nothing, and what is remembered stays bounded."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

import profilesmith.recipe.outcomes as outcomes_module
from profilesmith.profile.profile import Grid, Profile, profile_of
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.outcomes import Outcomes
from profilesmith.recipe.setting_work import SettingWork
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

F = Fraction
WALL, RAFT = "outer_wall.speed", "raft.layers"
RULES = (
    f'[[rule]]\nsetting = "{WALL}"\ncap = "40 mm/s"\n[[rule]]\nsetting = "{RAFT}"\nset = "3"\n'
    '[[rule]]\nsetting = "brim.width"\nraise_to = "2 mm"\n'
)


@pytest.fixture
def worked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The settings that are worked out, each time that one is."""
    settings: list[str] = []
    run = SettingWork.run

    def counted(self: SettingWork) -> Any:
        settings.append(self.setting.id)
        return run(self)

    monkeypatch.setattr(SettingWork, "run", counted)
    return settings


def base(speed: int, *, may_add: bool = True) -> Profile:
    profile = profile_of({WALL: (F(speed),)})
    return profile._replace(addable={RAFT: Grid(F(1), whole=True)} if may_add else {})


def test_a_profile_that_says_the_same_is_not_worked_out_again(
    worked: list[str], read_recipe: Callable[..., Any]
) -> None:
    recipe, _ = read_recipe(RULES)
    memory, alone = Outcomes(), Outcomes()
    first = apply_recipes(base(60), [recipe], {}, {}, load_vocabulary(), memory)
    assert sorted(worked) == ["brim.width", WALL, RAFT]
    worked.clear()
    again = apply_recipes(base(60), [recipe], {}, {}, load_vocabulary(), memory)
    assert worked == []
    assert (again.derived, again.rows) == (first.derived, first.rows)
    other = apply_recipes(base(50), [recipe], {}, {}, load_vocabulary(), memory)
    assert worked == [WALL]
    worked.clear()
    assert other.rows == apply_recipes(base(50), [recipe], {}, {}, load_vocabulary(), alone).rows
    worked.clear()
    apply_recipes(base(50, may_add=False), [recipe], {}, {}, load_vocabulary(), memory)
    assert worked == [RAFT]


def test_a_full_memory_begins_anew(
    worked: list[str], read_recipe: Callable[..., Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Many thousand profiles of all kinds must not fill the machine's memory."""
    monkeypatch.setattr(outcomes_module, "MOST", 3)
    recipe, _ = read_recipe(RULES)
    memory = Outcomes()
    for speed in (60, 60, 50):  # the third begins anew
        apply_recipes(base(speed), [recipe], {}, {}, load_vocabulary(), memory)
        assert len(memory._known) <= 3
    worked.clear()
    apply_recipes(base(50), [recipe], {}, {}, load_vocabulary(), memory)
    assert WALL not in worked
    apply_recipes(base(60), [recipe], {}, {}, load_vocabulary(), memory)
    assert WALL in worked
