"""Who decides a conflict, and what a ledger then says of it."""

from __future__ import annotations

import pytest

from profilesmith.ledger import Decision
from profilesmith.merge.decision import settle


@pytest.mark.parametrize(
    ("answer", "why"), [("base", "base-preferred"), ("derived", "hand-preferred"), ("", "as-before")]
)
def test_what_was_chosen_stands_in_it(answer: str, why: str) -> None:
    asked: list[Decision] = []

    def choose(decision: Decision) -> str:
        asked.append(decision)
        return answer

    before = Decision("outer_wall.speed", "setting", "conflict", was="1", hand="2", new="3", chosen="derived",
                      why="as-before")  # type: ignore[arg-type]  # fmt: skip
    settled = settle(before, choose)
    assert (settled.chosen, settled.why) == (answer, why)
    assert [item.chosen for item in asked] == [""]  # nobody is told beforehand what to answer
