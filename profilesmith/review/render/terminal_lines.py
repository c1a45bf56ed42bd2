"""Lines of styled pieces to text of a width: plain for a pipe, with control sequences for a terminal.

Both break at the same places, between words only: what is longer than the line stays whole and hangs over. A blank that
must not be a place to break is a no-break space, and is shown as a blank.
"""

import textwrap
from collections.abc import Iterator
from itertools import groupby

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.review.wording import KEPT

BLANKS = f" \t\n\r\x0b\x0c{KEPT}"


class StyledLine(NamedTuple):
    """One line before it is wrapped: pieces of text with a style each, behind an indent."""

    indent: int
    pieces: tuple[tuple[str, str], ...]
    hang: int = 0


def plain(lines: list[StyledLine], width: int) -> str:
    """Without colours: also what a pipe gets, so rich need not be imported for it."""
    return "".join(f"{text}\n" for line in lines for text in _wrapped(line, width))


def _wrapped(line: StyledLine, width: int) -> list[str]:
    margin, further = " " * line.indent, " " * (line.indent + line.hang)
    text = "".join(piece for piece, _ in line.pieces)
    if len(margin) + len(text) <= width:  # blanks between columns stay
        return [f"{margin}{text}".replace(KEPT, " ") if text else ""]
    broken = textwrap.wrap(
        text,
        width,
        initial_indent=margin,
        subsequent_indent=further,
        break_on_hyphens=False,
        break_long_words=False,
    )
    return [item.replace(KEPT, " ") for item in broken]


def coloured(lines: list[StyledLine], width: int) -> str:
    """With the styles of the pieces; rich draws them, and breaks nothing."""
    import io

    from rich.console import Console
    from rich.text import Text

    stream = io.StringIO()
    console = Console(
        file=stream,
        width=100_000,
        force_terminal=True,
        color_system="standard",
        highlight=False,
        markup=False,
        emoji=False,
    )
    for line in lines:
        styles = _styles(line)
        for text in _wrapped(line, width):
            console.print(Text.assemble(*_runs(text, styles)), soft_wrap=True)
    return "".join(f"{text.rstrip()}\n" for text in stream.getvalue().split("\n")[:-1])


def _runs(text: str, styles: Iterator[str]) -> list[tuple[str, str]]:
    """A line cut where its style changes; a blank has the style of what stands before it."""
    style, signs = "", []
    for char in text:
        style = style if char in BLANKS else next(styles)
        signs.append((char, style))
    return [("".join(char for char, _ in run), style) for style, run in groupby(signs, lambda item: item[1])]


def _styles(line: StyledLine) -> Iterator[str]:
    """The style of each sign that is no blank, in order: wrapping moves blanks only."""
    return (style for piece, style in line.pieces for char in piece if char not in BLANKS)
