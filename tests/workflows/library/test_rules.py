"""Every number that a check can show is explained, and nothing else is."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from profilesmith.foundation.problem import Refused
from profilesmith.lint.rules import RULES
from profilesmith.workflows.library import effect_words, other_words, taken_away
from profilesmith.workflows.library import findings as library_findings
from profilesmith.workflows.library.rules import list_rules


def test_every_number_is_listed_once() -> None:
    shown = re.findall(r"^  ([A-Z]\d{3}) (?:error|hint) ", list_rules(), re.M)
    texts = [
        Path(module.__file__).read_text(encoding="utf-8")
        for module in (library_findings, effect_words, taken_away, other_words)
    ]
    trials = {number for text in texts for number in re.findall(r'"(T\d{3})"', text)}
    assert len(shown) == len(set(shown))
    assert set(shown) == {rule.number for rule in RULES} | trials


def test_one_rule_in_full() -> None:
    text = list_rules("r401")
    rule = next(rule for rule in RULES if rule.number == "R401")
    assert all(part in text for part in (rule.title, rule.why, rule.fix))


def test_an_unknown_number_is_refused() -> None:
    with pytest.raises(Refused, match="no rule 'R999'"):
        list_rules("R999")
