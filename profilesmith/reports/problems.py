"""What stopped one of many derivations, and what it destroyed on purpose, as lines of a report on all of them."""

from __future__ import annotations

from collections.abc import Iterable

from profilesmith.foundation.problem import Problem
from profilesmith.workflows.edits_at_stake import AtStake


def problem_lines(problems: Iterable[Problem]) -> list[str]:
    """Each in one line: where, what, what to do."""
    return [" ".join((str(item._replace(hint="")), *([item.hint] if item.hint else []))) for item in problems]


def discarded_lines(lost: Iterable[AtStake]) -> list[str]:
    """Each hand edit that is lost by writing, by its file."""
    return [f"discarded: {item.path}: {edit}" for item in lost for edit in item.edits]
