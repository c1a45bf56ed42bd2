"""The guide: every topic has its page, a wrong one gets the nearest name."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from profilesmith.workflows.guide import TOPICS, page


def test_pages_are_listed_with_their_titles(program: Callable[..., Any]) -> None:
    ran = program("guide")
    assert ran.code == 0
    for topic in TOPICS:
        assert f"  {topic:<10} {page(topic).title}" in ran.out


@pytest.mark.parametrize("topic", TOPICS)
def test_a_page_is_printed_whole(topic: str, program: Callable[..., Any]) -> None:
    assert program("guide", topic).out == page(topic).text


def test_a_wrong_topic_names_the_nearest(program: Callable[..., Any]) -> None:
    ran = program("guide", "recipee")
    assert ran.code == 2
    assert "'recipe'" in ran.err
