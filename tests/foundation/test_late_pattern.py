"""A late pattern does what a compiled one does, and is compiled once, when it is first asked."""

from __future__ import annotations

import re
from typing import Any

import pytest

from profilesmith.foundation.late_pattern import late

TEXT = "one  two\tthree   four"


@pytest.mark.parametrize(
    ("way", "words"),
    [
        ("match", (TEXT,)),
        ("match", (TEXT, 3)),
        ("fullmatch", ("  ",)),
        ("search", (TEXT, 5, 20)),
        ("split", (TEXT,)),
        ("findall", (TEXT,)),
        ("finditer", (TEXT,)),
        ("sub", ("-", TEXT)),
        ("subn", ("-", TEXT)),
    ],
)
def test_it_answers_as_a_compiled_one(way: str, words: tuple[Any, ...]) -> None:
    text = r" {2,}|[ ]*\t"

    def plain(answer: Any) -> Any:
        answer = list(answer) if way == "finditer" else answer
        items = answer if isinstance(answer, list) else [answer]
        return [item.span() if isinstance(item, re.Match) else item for item in items]

    late_one, compiled = late(text), re.compile(text)
    assert plain(getattr(late_one, way)(*words)) == plain(getattr(compiled, way)(*words))
    assert plain(getattr(late_one, way)(*words)) == plain(getattr(compiled, way)(*words)), "asked a second time"
    assert late_one.pattern == text


def test_it_is_compiled_once_and_not_before_it_is_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    compiled: list[str] = []
    real = re.compile
    monkeypatch.setattr(re, "compile", lambda text: compiled.append(text) or real(text))
    pattern = late("a+b")
    assert compiled == []
    assert pattern.match("aab")
    assert pattern.search("xab")
    assert not pattern.match("b")
    assert compiled == ["a+b"]


def test_a_wrong_name_is_none_of_its_own() -> None:
    with pytest.raises(AttributeError):
        late("a").nonsense  # type: ignore[attr-defined]  # noqa: B018
