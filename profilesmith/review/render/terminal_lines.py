"""Lines of styled pieces to text of a width: plain for a pipe, with control sequences for a terminal.

Both break at the same places, between words only: what is longer than the line stays whole and hangs over. A blank that
must not be a place to break is a no-break space, and is shown as a blank.

How the terminal is told: the option behind a question, an assumption, a command in a start block."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from itertools import groupby

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import CANONICAL
from profilesmith.ledger import Question
from profilesmith.review.review import Assumed
from profilesmith.review.wording import KEPT, visible

ASSUMED = "Assumed, since nobody said otherwise (say it with --facts or --answer)"
FOLLOW = "--start-block follow"
"""Lets commands in start blocks follow the new temperatures."""


def answer_option(question: Question | None) -> str:
    """``Answer: --answer machine.drive=direct|remote``; "" for a question that no answer settles."""
    call = answer_call(question)
    return f"Answer: {call}" if call else ""


def answer_call(question: Question | None) -> str:
    """``--answer machine.drive=direct|remote``; "" for a question that no answer settles."""
    if question is None or question.about not in ("fact", "input"):
        return ""
    return visible(f"--answer {sample(question)}")


def sample(question: Question) -> str:
    """``machine.drive=direct|remote``, ``"spool.nozzle_window=... °C to ... °C"``."""
    if question.kind == "choice":
        return f"{question.name}={'|'.join(question.values)}"
    unit = CANONICAL.get(question.unit_kind, "")
    if question.kind == "window":
        return f'"{question.name}=... {unit} to ... {unit}"'
    return f'"{question.name}={"92 Shore A" if question.kind == "hardness" else f"... {unit}".strip()}"'


def assumed_option(item: Assumed) -> str:
    """``--answer "flexible-pla.window=210 °C to 220 °C"``."""
    return f'--answer "{item.recipe}.{item.name}={item.value}"'


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
