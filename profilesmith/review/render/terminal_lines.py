"""Lines of styled pieces to text of a width: plain for a pipe, with control sequences for a terminal."""

import textwrap
from typing import NamedTuple


class Line(NamedTuple):
    """One line before it is wrapped: pieces of text with a style each, behind an indent."""

    indent: int
    pieces: tuple[tuple[str, str], ...]
    hang: int = 0


def plain(lines: list[Line], width: int) -> str:
    """Without colours: also what a pipe gets, so rich need not be imported for it."""
    out: list[str] = []
    for line in lines:
        margin, further = " " * line.indent, " " * (line.indent + line.hang)
        text = "".join(piece for piece, _ in line.pieces)
        if len(margin) + len(text) <= width:  # blanks between columns stay
            out.append(f"{margin}{text}" if text else "")
            continue
        out += textwrap.wrap(
            text,
            width,
            initial_indent=margin,
            subsequent_indent=further,
            break_on_hyphens=False,
            break_long_words=False,
        )
    return "".join(f"{text}\n" for text in out)


def coloured(lines: list[Line], width: int) -> str:
    import io

    from rich.console import Console
    from rich.padding import Padding
    from rich.text import Text

    stream = io.StringIO()
    console = Console(
        file=stream,
        width=width,
        force_terminal=True,
        color_system="standard",
        highlight=False,
        markup=False,
        emoji=False,
    )
    for line in lines:
        console.print(Padding(Text.assemble(*line.pieces), (0, 0, 0, line.indent)))
    return "".join(f"{text.rstrip()}\n" for text in stream.getvalue().split("\n")[:-1])
