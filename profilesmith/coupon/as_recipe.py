"""A coupon's prints and its result as recipes, and a plan as text.

A print may go beyond what the plan's recipes allow: that is what it is made for. So where one of them speaks of the
setting, the print is derived with a copy of it that leaves the setting alone (``freed``), and the copy says so.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from profilesmith.coupon.log import Values
from profilesmith.coupon.plan import Plan
from profilesmith.foundation.toml_values import key_text, pair_lines
from profilesmith.recipe.as_text import head_text, rule_text
from profilesmith.recipe.operations import SET


def print_name(plan: Plan, number: int, side: str = "") -> str:
    """``fastest-wall-03``, ``fine-or-fast-02-left``."""
    return f"{plan.name}-{number:02}{f'-{side}' if side else ''}"


def print_recipe(plan: Plan, name: str, values: Values) -> str:
    """The recipe of one print: each value set, and nothing else."""
    about = ", ".join(f"{setting} {text}" for setting, text in values.items())
    hidden = plan.kind == "pair" and plan.way == "blind"
    title = f"Coupon {plan.name}: {'one side of a blind pair' if hidden else about}"
    rules = [
        rule_text(
            {"setting": setting, SET.name: text},
            f"Print of the coupon {plan.name}, which asks after {plan.judged}.",
            "a coupon of one's own prints",
        )
        for setting, text in values.items()
    ]
    return "\n".join([head_text(name, title), *rules])


def bound_recipe(plan: Plan, name: str, title: str, rule: Mapping[str, str], why: str, source: str) -> str:
    """The recipe that a result is worth."""
    return "\n".join([head_text(name, title), rule_text(rule, why, source)])


def freed(
    content: Mapping[str, Any], plan: Plan, settings: frozenset[str], expand: Mapping[str, tuple[str, ...]]
) -> str:
    """A recipe's TOML content without its rules on some settings. expand: group name -> settings."""
    recipe = dict(content["recipe"])
    name = f"{recipe['name']}-for-{plan.name}"
    recipe |= {
        "name": name,
        "title": f"{recipe['title']} (leaves {', '.join(sorted(settings))} to the coupon {plan.name})",
    }
    recipe.pop("goes_with", None)
    parts = ["format = 1", "", "[recipe]", *pair_lines(recipe), ""]
    for key, table in content.get("inputs", {}).items():
        parts += [f"[inputs.{key_text(key)}]", *pair_lines(table), ""]
    for rule in content.get("rule", ()):
        left = _without(rule, settings, expand)
        if left is not None:
            parts += ["[[rule]]", *pair_lines(left), ""]
    return "\n".join(parts)


def _without(
    rule: Mapping[str, Any], settings: frozenset[str], expand: Mapping[str, tuple[str, ...]]
) -> dict[str, Any] | None:
    """The rule with exceptions, or None when nothing is left of it."""
    named = rule["setting"] if isinstance(rule["setting"], list) else [rule["setting"]]
    before = rule.get("except", [])
    before = before if isinstance(before, list) else [before]
    members = {item for name in named for item in expand.get(name, (name,))}
    out = members & settings
    if not out:
        return dict(rule)
    excepted = {item for name in before for item in expand.get(name, (name,))}
    if members <= excepted | out:
        return None
    kept = [name for name in named if name not in out]
    inside = {item for name in kept for item in expand.get(name, (name,))}
    more = sorted(out & inside - excepted)
    left = {**rule, "setting": kept}
    if before or more:
        left["except"] = [*before, *more]
    return left
