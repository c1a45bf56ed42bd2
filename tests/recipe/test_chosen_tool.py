"""The tool that carries the spool: counted from 1 by people, and one that the text has."""

from __future__ import annotations

from fractions import Fraction

import pytest

from profilesmith.facts.facts import Fact, Facts
from profilesmith.foundation.place import Place
from profilesmith.ledger.ledger import TOOL
from profilesmith.profile.profile import profile_of
from profilesmith.recipe.tool import chosen_tool, no_such_tool

F = Fraction


def spool(tool: int) -> Facts:
    return {TOOL: Fact(F(tool), Place("facts.toml", 2))}


@pytest.mark.parametrize(
    ("tools", "tool", "refused"), [(1, 3, False), (2, 1, False), (2, 2, False), (2, 3, True), (3, 4, True)]
)
def test_a_tool_that_the_text_has_not_is_a_conflict(tools: int, tool: int, refused: bool) -> None:
    """Of a text with one tool it is not asked: every machine's only tool is the one."""
    base = profile_of({"nozzle.temperature": (F(210),) * tools})
    problems = no_such_tool(base, spool(tool))
    assert bool(problems) is refused
    for problem in problems:
        assert problem.code == "no-such-tool"
        assert f"{tools} tools, the facts name tool {tool}" in problem.message
        assert f"from 1 to {tools}" in problem.hint


def test_nobody_said_which() -> None:
    assert chosen_tool({}) is None
    assert chosen_tool(spool(1)) == 0
    assert no_such_tool(profile_of({"nozzle.temperature": (F(210), F(220))}), {}) == []
