"""Review -> str, one file a form, listed in one literal dict. To add one: a file and a line here."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from importlib import import_module
from typing import NamedTuple

from profilesmith.review.review import Review


class Look(NamedTuple):
    """How a rendering is to come out. width: columns of the terminal; colour: with control sequences; full: all lists."""

    width: int = 80
    colour: bool = False
    full: bool = False


# The modules are imported when asked for: a plain derivation needs no rich, a terminal no json.
RENDERERS: Mapping[str, str] = {
    "terminal": "profilesmith.review.render.terminal",
    "markdown": "profilesmith.review.render.markdown",
    "json": "profilesmith.review.render.json",
}

ENDINGS: Mapping[str, str] = {".md": "markdown", ".json": "json", ".txt": "terminal"}


def render(review: Review, form: str, look: Look = Look()) -> str:
    """The review in one of the forms of RENDERERS. Ends with a newline."""
    function: Callable[[Review, Look], str] = import_module(RENDERERS[form]).render
    return function(review, look)
