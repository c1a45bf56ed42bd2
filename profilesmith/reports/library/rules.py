"""The numbered rules that a library is held to, for people: what each asks, why, and what to do."""

from __future__ import annotations

from collections.abc import Iterable

from profilesmith.lint.rule import RuleText

KINDS = (
    ("R", "Recipes"),
    ("K", "Key maps"),
    ("F", "Facts"),
    ("C", "Coupons: plans and logs"),
    ("E", "Evidence"),
    ("L", "The library"),
    ("M", "Words of motion files"),
    ("T", "Trials of recipes on reference profiles"),
)


def rules_list(rules: Iterable[RuleText]) -> str:
    """All rules with their titles, kind by kind."""
    every = sorted(rules)
    lines: list[str] = []
    for letter, kind in KINDS:
        mine = [rule for rule in every if rule.number[0] == letter]
        lines += ["", kind, *(f"  {rule.number} {rule.severity:<6} {rule.title}" for rule in mine)]
    return "\n".join([*lines[1:], "", "'profilesmith library rules NUMBER' tells why, and what to do."]) + "\n"


def rule_in_full(rule: RuleText) -> str:
    return f"{rule.number}, {rule.severity}: {rule.title}\n  {rule.why}\n  {rule.fix}\n"
