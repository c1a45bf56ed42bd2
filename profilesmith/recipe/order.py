"""In which order settings are worked out: what a value depends on comes before it."""

from __future__ import annotations

from collections.abc import Iterable
from graphlib import CycleError, TopologicalSorter

from profilesmith.profile.profile import Profile
from profilesmith.recipe.recipe import Action, CountRef, Fixed, FlowRef, Recipe, SettingRef
from profilesmith.recipe.resolve import bead_settings


def needs(action: Action, setting: str) -> set[str]:
    """The settings that an action of a rule on ``setting`` looks at."""
    names: set[str] = set()
    for operand in action.operands:
        if isinstance(operand, SettingRef):
            names.add(operand.setting)
        elif isinstance(operand, FlowRef):
            names |= {*bead_settings(setting), "bead.width", "layer.height", "bead.flow"}
        elif isinstance(operand, CountRef):
            from profilesmith.recipe.count import count_settings  # few recipes count

            names |= {*count_settings(operand.what, setting)}
        elif isinstance(operand, Fixed) and action.does.products:
            names.add(action.does.products[operand.text].partner)
    return names


Links = tuple[tuple[str, str, str], ...]


def links(profile: Profile) -> Links:
    """Which settings hang on others in the text itself: each with the whole that it is a share of, and its switch."""
    return tuple(
        (name, entry.relative_to, entry.coupling.switch if entry.coupling else "")
        for name, entry in profile.entries.items()
        if entry.relative_to or entry.coupling
    )


def working_order(linked: Links, recipes: Iterable[Recipe]) -> tuple[list[str], list[str]]:
    """(settings in order, circle): those that a rule or another setting can move; the circle is mostly empty."""
    graph: dict[str, set[str]] = {name: set(filter(None, others)) for name, *others in linked}
    for recipe in recipes:
        for rule in recipe.rules:
            for setting in rule.settings:
                for action in rule.actions:
                    graph.setdefault(setting, set()).update(needs(action, setting))
    try:
        return list(TopologicalSorter(graph).static_order()), []
    except CycleError as error:
        return [], list(error.args[1])
