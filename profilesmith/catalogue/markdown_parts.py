"""Parts of a Markdown page: texts escaped, tables, lists, and the versions of a recipe."""

from collections.abc import Iterable

from profilesmith.catalogue.catalogue import RecipeEntry
from profilesmith.catalogue.changes_words import version_words
from profilesmith.catalogue.words import OLDEST, VERSIONS
from profilesmith.review.render.markdown import code as code_span
from profilesmith.review.render.markdown import escape
from profilesmith.review.wording import visible


def shown(text: str) -> str:
    """A text of anybody as Markdown that says it and does nothing else."""
    return escape(visible(text))


def code(text: str) -> str:
    """A text as code."""
    return code_span(visible(text))


def table(heads: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> list[str]:
    """Cells are Markdown already."""
    return [f"| {' | '.join(heads)} |", f"|{' --- |' * len(heads)}", *(f"| {' | '.join(row)} |" for row in rows), ""]


def listed(title: str, texts: Iterable[str]) -> list[str]:
    """A list under a line of its own; nothing for no texts."""
    items = [f"- {shown(text)}" for text in texts]
    return [title, "", *items, ""] if items else []


def versions(entry: RecipeEntry) -> list[str]:
    """Each version with its day and, in one item each, what it changed."""
    lines = [f"## {VERSIONS}", ""] if len(entry.history) > 1 else []
    for item in map(version_words, entry.history if lines else ()):
        day = item.day or "not committed yet"
        lines += [f"**{shown(item.version)}** ({shown(day)}): {shown(item.summary or OLDEST)}", ""]
        for heading, things in (
            *item.blocks,
            *((head, ((line,) for line in lines_on)) for head, lines_on in item.effects),
        ):
            lines += listed(f"{shown(heading)}:", [" ".join(thing) for thing in things])
    return lines
