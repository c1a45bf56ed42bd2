"""Drawing: the parts of a figure with their places, ready for the template that writes SVG.

Across, places are percent of the figure's width; down, they are em of the reader's own letter size. So a figure has
any width, and its text is never scaled with it: it stays as large as the page's, on a telephone and on paper.

Why no drawing library: the figures are four shapes and text, while a label may be a stranger's. Of those tried, one
writes text and another attributes unescaped, a third brings 16 kB of style and script for each figure, which the
page's content policy forbids; all draw on a fixed canvas whose text shrinks with the width, and cost 40 to 130 ms to
import. The template engine that the page needs anyway escapes everything that these parts carry.
"""

from __future__ import annotations

from profilesmith.foundation.named_tuple import NamedTuple


class Rectangle(NamedTuple):
    """A filled rectangle. look: a class of the style sheet, as in all parts."""

    x: float
    width: float
    y: float
    height: float
    look: str
    part: str = "bar"


class Stroke(NamedTuple):
    """A straight line."""

    x1: float
    y1: float
    x2: float
    y2: float
    look: str
    part: str = "stroke"


class DrawnText(NamedTuple):
    """Text. y: of its base line. anchor: start, middle or end; shift: em to the right of x."""

    x: float
    y: float
    text: str
    anchor: str = "start"
    look: str = ""
    shift: float = 0.0
    part: str = "words"


class ShapeMark(NamedTuple):
    """A mark whose shape says what it is: before (ring), after (diamond)."""

    x: float
    y: float
    shape: str
    part: str = "sign"


class Curve(NamedTuple):
    """A line through points. points: in percent of the box; top, height: of the box in em."""

    top: float
    height: float
    points: tuple[tuple[float, float], ...]
    look: str
    part: str = "curve"


Part = Rectangle | Stroke | DrawnText | ShapeMark | Curve


class Drawing(NamedTuple):
    """height: em. legend: (shape, words) of what is drawn. gutter: there is text to the left of the drawing."""

    height: float
    parts: tuple[Part, ...]
    legend: tuple[tuple[str, str], ...]
    gutter: bool = False


def words_on_top(parts: list[Part]) -> tuple[Part, ...]:
    """The parts in the order in which they are drawn: no line goes through a word."""
    return tuple(sorted(parts, key=lambda part: isinstance(part, DrawnText)))


def shortened(text: str, most: int = 34) -> str:
    """A label that fits its line; the table beside has it in full."""
    return text if len(text) <= most else f"{text[: most - 1]}…"


def anchor(percent: float) -> str:
    """How text is to hang on its place so that it stays inside the figure."""
    return "start" if percent < 12 else "end" if percent > 88 else "middle"
