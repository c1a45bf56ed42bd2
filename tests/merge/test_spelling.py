"""How a hand wrote a value: put where the very same text stands, and nowhere else."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from profilesmith.merge.spelling import respell
from profilesmith.text.edit_document import edit_document

ReadText = Callable[..., Any]
Bind = Callable[..., str]


def respelled(translation: Any, **texts: tuple[str, ...]) -> bytes:
    wanted = {name.replace("__", "."): spelled for name, spelled in texts.items()}
    (edits,) = respell(translation, wanted)
    return edit_document(translation.documents[0], edits)


def test_a_tool_without_a_spelling_keeps_its_own(read_text: ReadText, bind: Bind) -> None:
    """Only the second tool was written otherwise: the first one's text must not vanish."""
    key_map = bind("nozzle.temperature", "heat", 'tools = true\nlist = ","')
    translation = read_text(key_map, "heat = 210,215\n")
    assert respelled(translation, nozzle__temperature=("", "215.0")) == b"heat = 210,215.0\n"
    assert respelled(translation, nozzle__temperature=("210.", "215.0")) == b"heat = 210.,215.0\n"
    assert respelled(translation, nozzle__temperature=("215.0",)) == b"heat = 210,215\n"
