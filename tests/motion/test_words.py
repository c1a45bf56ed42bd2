"""Words of the review: every reason that a judge or a doubt can give has its sentence."""

from __future__ import annotations

import re
from pathlib import Path

import profilesmith.motion
from profilesmith.foundation.quantity import CANONICAL
from profilesmith.review.motion import doubts, judged

SOURCES = [path.read_text(encoding="utf-8") for path in Path(profilesmith.motion.__file__).parent.rglob("*.py")]


def said(pattern: str) -> set[str]:
    return {found for text in SOURCES for found in re.findall(pattern, text)}


def test_every_reason_for_not_judging_has_words() -> None:
    codes = said(r'not_judged\(\s*"([a-z-]+)"') | said(r'not_judged\("[a-z-]+" if [^)]*? else "([a-z-]+)"\)')
    assert len(codes) > 25
    assert codes - {"doubt"} <= set(judged.OPEN)


def test_every_verdict_has_words() -> None:
    codes = said(r'met\([^()]*(?:\([^()]*\)[^()]*)*?, "([a-z-]+)"[,)]') | said(r'code = "([a-z-]+)" if')
    assert len(codes) > 12
    assert {f"{code}-met" for code in codes} - set(judged.PASSED) <= {"height-below-spiral-met"}
    assert {f"{code}-not-met" for code in codes} - set(judged.FOUND) <= {
        "ordered-not-met",
        "layer-time-not-met",
        "raft-step-not-met",
    }


def test_values_are_shown_in_units_that_there_are() -> None:
    assert set(judged.KINDS.values()) <= set(CANONICAL)


def test_every_doubt_has_words() -> None:
    codes = said(r'doubt\(\s*"([a-z0-9-]+)"') | said(r'Fault\("([a-z-]+)"') | said(r'CannotArc\("([a-z-]+)"')
    codes |= said(r'doubts\.add\("([a-z-]+)"')
    assert len(codes) > 25
    assert codes <= set(doubts.WORDS)
