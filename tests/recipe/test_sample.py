"""What a refusal offers to write instead can be written: a keeper copies it, and it reads."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from profilesmith.recipe.operations import BY_NAME, OPERATIONS
from profilesmith.recipe.sample import sample, sample_for
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


@pytest.mark.parametrize(
    ("kind", "written", "text"),
    [
        ("speed", None, '"40 mm/s"'),
        ("speed", 70, '"70 mm/s"'),
        ("speed", 0.5, '"0.5 mm/s"'),
        ("speed", "-3", '"-3 mm/s"'),
        ("speed", "fast", '"40 mm/s"'),
        ("speed", True, '"40 mm/s"'),
        ("count", None, '"3"'),
        ("ratio", None, '"70 %"'),
        ("switch", None, '"on"'),
        ("switch", True, '"on"'),
        ("switch", False, '"off"'),
        ("switch", 0, '"on"'),
        ("choice", None, '"..."'),
    ],
)
def test_in_quotes_and_with_a_unit(kind: str, written: object, text: str) -> None:
    assert sample(kind, written) == text


def test_a_step_is_small_and_a_choice_is_one_of_the_setting() -> None:
    assert sample("temperature", step=True) == '"5 °C"'
    assert sample("temperature", 3, step=True) == '"3 °C"'
    assert sample("choice", values=("grid", "lines")) == '"grid"'
    assert sample_for(BY_NAME["shift"], []) == '"5 mm/s"'
    assert sample_for(BY_NAME["scale"], []) == '"70 %"'
    assert sample_for(BY_NAME["cap"], []) == '"40 mm/s"'
    assert sample_for(BY_NAME["hold"], []) == '"thickness"'


@pytest.mark.parametrize("operation", OPERATIONS, ids=lambda item: item.name)
def test_what_is_offered_reads(operation: Any, read_recipe: Callable[..., Any]) -> None:
    """For one setting of each kind that the operation takes."""
    kinds = {
        setting.kind: setting for setting in load_vocabulary().settings.values() if setting.id != "nozzle.diameter"
    }
    for kind, setting in kinds.items():
        if operation.takes(kind) and not operation.products:
            text = sample_for(operation, [setting])
            value = f"[{text}, {text}]" if operation.operands == 2 else text
            assert read_recipe(f'[[rule]]\nsetting = "{setting.id}"\n{operation.name} = {value}\n')[1] == [], text
