"""The numbered rules that a library is held to: those of the lint and those of its trials."""

from __future__ import annotations

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean
from profilesmith.lint.rule import RuleText
from profilesmith.lint.rules import rule_texts
from profilesmith.lint.trial_rules import TRIALS


def all_rules() -> list[RuleText]:
    return [*rule_texts(), *TRIALS]


def rule_called(number: str) -> RuleText:
    """Raises Refused for a number that there is not."""
    known = {rule.number: rule for rule in all_rules()}
    if number.upper() not in known:
        hint = did_you_mean(number.upper(), known, "'profilesmith library rules' lists all.")
        raise Refused([Problem("unknown-rule", f"There is no rule {number!r}.", Place("library rules"), hint)])
    return known[number.upper()]
