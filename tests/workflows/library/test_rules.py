"""Every number that a check can show is explained, and nothing else is."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from profilesmith.foundation.problem import Refused
from profilesmith.lint.rules import RULES
from profilesmith.reports.library.rules import rule_in_full, rules_list
from profilesmith.workflows.library import effect_findings, other_words, taken_away
from profilesmith.workflows.library import findings as library_findings
from profilesmith.workflows.library.rules import all_rules, rule_called


def test_every_number_is_listed_once() -> None:
    shown = re.findall(r"^  ([A-Z]\d{3}) (?:error|hint) ", rules_list(all_rules()), re.M)
    texts = [
        Path(module.__file__).read_text(encoding="utf-8")
        for module in (library_findings, effect_findings, taken_away, other_words)
    ]
    trials = {number for text in texts for number in re.findall(r'"(T\d{3})"', text)}
    assert len(shown) == len(set(shown))
    assert set(shown) == {rule.number for rule in RULES} | trials


def test_one_rule_in_full() -> None:
    text = rule_in_full(rule_called("r401"))
    rule = next(rule for rule in RULES if rule.number == "R401")
    assert all(part in text for part in (rule.title, rule.why, rule.fix))


def test_an_unknown_number_is_refused() -> None:
    with pytest.raises(Refused, match="no rule 'R999'"):
        rule_called("R999")
