"""Two profiles side by side, and the patch between them. Outside check: jsonpatch (RFC 6902) applies it."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import jsonpatch
import pytest

from profilesmith.ledger.exact import values_json
from profilesmith.ledger.file import PatchOperation
from profilesmith.ledger.form import form_of
from profilesmith.ledger.write import patch
from profilesmith.profile.compare_profiles import compare_profiles
from profilesmith.profile.profile import Profile, profile_of
from profilesmith.vocabulary.setting import Value

F = Fraction
OLD: dict[str, tuple[Value, ...]] = {
    "layer.height": (Fraction("0.2"),),
    "raft.on": (False,),
    "nozzle.temperature": (Fraction(210), Fraction(215)),
    "infill.pattern": ("grid",),
}


def told(profile: Profile) -> dict[str, Any]:
    """A profile as a ledger has it."""
    return {name: values_json(entry.values) for name, entry in profile.entries.items()}


def written(old: Profile, new: Profile) -> list[Any]:
    return [form_of(PatchOperation).write(operation) for operation in patch(old, new)]


@pytest.mark.parametrize(
    ("change", "names"),
    [
        ({}, []),
        ({"layer.height": (Fraction("0.12"),)}, ["layer.height"]),
        ({"raft.on": (True,)}, ["raft.on"]),
        ({"brim.on": (True,)}, ["brim.on"]),
        ({"nozzle.temperature": (Fraction(210), Fraction(220))}, ["nozzle.temperature"]),
        ({"infill.pattern": ("gyroid",), "layer.height": (Fraction(1, 3),)}, ["layer.height", "infill.pattern"]),
        ({"nozzle.temperature": (Fraction(210),)}, ["nozzle.temperature"]),
    ],
)
def test_differences_and_their_patch(change: dict[str, tuple[Value, ...]], names: list[str]) -> None:
    old, new = profile_of(OLD), profile_of({**OLD, **change})
    assert [item.setting for item in compare_profiles(old, new)] == names
    assert jsonpatch.apply_patch(told(old), written(old, new)) == told(new)
    assert jsonpatch.apply_patch(told(new), written(new, old)) == told(old)


def test_a_setting_that_only_one_side_has() -> None:
    old, new = profile_of(OLD), profile_of({name: value for name, value in OLD.items() if name != "raft.on"})
    assert [(item.setting, item.old, item.new) for item in compare_profiles(old, new)] == [("raft.on", (False,), ())]
    assert written(old, new) == [{"op": "remove", "path": "/raft.on"}]


def test_one_value_for_all_tools_is_the_same_as_one_for_each() -> None:
    one, two = ({"layer.height": (Fraction("0.2"),) * count} for count in (1, 2))
    assert compare_profiles(profile_of(one), profile_of(two)) == []


def test_two_tools_that_change_places_are_a_difference() -> None:
    one, other = ({"layer.height": values} for values in ((F(1, 5), F(1, 10)), (F(1, 10), F(1, 5))))
    assert [item.setting for item in compare_profiles(profile_of(one), profile_of(other))] == ["layer.height"]


def test_a_switch_is_not_the_number_one() -> None:
    """``True == 1`` in Python; in a profile they are different settings' values."""
    assert compare_profiles(profile_of({"raft.on": (True,)}), profile_of({"raft.on": (False,)})) != []
