"""The review as one self-contained HTML file: no network, readable without script, in light, in dark and on A4."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.words import plural
from profilesmith.ledger.judgement import Finding
from profilesmith.review.consequences import alarms, counts_line
from profilesmith.review.look_first import look_first_points
from profilesmith.review.render import Look
from profilesmith.review.render.figures.bars import draw as draw_bars
from profilesmith.review.render.figures.drawing import Drawing
from profilesmith.review.render.figures.figure import Figure, read_figures
from profilesmith.review.render.figures.line import draw as draw_line
from profilesmith.review.render.figures.table import Table, table
from profilesmith.review.render.figures.telling import telling
from profilesmith.review.render.figures.window import draw as draw_window
from profilesmith.review.render.figures.windows import setting_windows, torn_windows, window_words
from profilesmith.review.render.html.frame import fill
from profilesmith.review.render.html.rows import change_anchor, hand_tasks, shown_groups, shown_row
from profilesmith.review.render.markdown import render as render_markdown
from profilesmith.review.render.names import MoveSign, trade_name, verdict_sign
from profilesmith.review.review import Review
from profilesmith.review.sentences import held_title, unmapped_list
from profilesmith.review.wording import signs_shown

if TYPE_CHECKING:
    from markupsafe import Markup

_DRAW = {"bars": draw_bars, "line": draw_line, "window": draw_window}


class Picture(NamedTuple):
    """A figure with its drawing and its table; neither, when it has a fault."""

    figure: Figure
    drawing: Drawing | None
    table: Table | None


class RowWindow(NamedTuple):
    """What is allowed, drawn in a row that opens. words: the same in words, for whoever does not see it."""

    drawing: Drawing
    words: str


class Jump(NamedTuple):
    """An entry of the list of contents."""

    anchor: str
    words: str
    urgent: bool = False


def render(review: Review, look: Look) -> str:
    """The review as a page. ``look`` changes nothing: a page folds what is long."""
    drawn = pictures(_figures(review))
    return fill(
        "page.html",
        ("base.css", "page.css"),
        "page.js",
        review=review,
        summary=counts_line(review),
        points=look_first_points(review),
        jumps=jumps(review, len(drawn)),
        groups=shown_groups(review.groups),
        by_hand=hand_tasks(review),
        held=[shown_row(change) for change in review.held],
        held_title=held_title(review),
        kept=[shown_row(change) for change in review.kept],
        overruled=[shown_row(change) for change in review.overruled],
        drawn=drawn,
        windows=row_windows(setting_windows(review.rows)),
        torn=[(trade_name(name), item) for name, item in _drawn(torn_windows(review.rows)).items()],
        markdown=as_text(review),
        found=verdicts(review, lambda verdict: verdict != "passed"),
        passed=verdicts(review, lambda verdict: verdict == "passed"),
        others=unmapped_list(review),
        trade_name=trade_name,
        plural=plural,
        heading=_heading(review),
        written_by=str(getattr(review.file, "written_by", "profilesmith")),
    )


def _heading(review: Review) -> str:
    if not review.recipes:
        return "What differs"
    return "What would change" if review.conflicts else "What changed"


def _figures(review: Review) -> tuple[Figure, ...]:
    """Those that tell something, and those that cannot be drawn; where nothing changed there is nothing to draw."""
    figures = read_figures(review.figures)
    if review.kind == "derivation" and not review.count():
        return tuple(figure for figure in figures if figure.fault)
    return telling(figures, review.kind != "check")


def as_text(review: Review) -> Markup:
    """The review as Markdown, for a button that copies it; it is longer than a template lets a text be."""
    from markupsafe import Markup, escape

    return Markup(escape("\n".join(map(signs_shown, render_markdown(review, Look()).split("\n")))))


def row_windows(figures: Mapping[str, Figure]) -> dict[str, RowWindow]:
    """A row's id -> the window that is drawn in it."""
    return {
        change_anchor(name): RowWindow(draw_window(figure), window_words(figure)) for name, figure in figures.items()
    }


def _drawn(figures: Mapping[str, Figure]) -> dict[str, Drawing]:
    return {name: draw_window(figure) for name, figure in figures.items()}


def verdicts(review: Review, wanted: Callable[[str], bool]) -> list[tuple[str, MoveSign, Finding]]:
    """What the checks found, with the ids of their rows and their signs."""
    names = Counter[str]()
    every = []
    for item in review.consequences:
        names[item.check] += 1
        again = f"-{names[item.check]}" if names[item.check] > 1 else ""
        every.append((f"check-{item.check}{again}", verdict_sign(item.verdict), item))
    return [part for part in every if wanted(part[2].verdict)]


def pictures(figures: tuple[Figure, ...]) -> list[Picture]:
    """Each figure drawn, with its table."""
    return [
        Picture(figure, None, None) if figure.fault else Picture(figure, _DRAW[figure.kind](figure), table(figure))
        for figure in figures
    ]


def _changes(review: Review) -> tuple[str, str]:
    return ("would change",) * 2 if review.conflicts else ("change", "changes")


def jumps(review: Review, figures: int) -> list[Jump]:
    """The list of contents: only what is there, with counts."""
    numbers = Counter(item.verdict for item in review.consequences)
    others, other = numbers["note"] + numbers["not judged"], "other " if alarms(review) else ""
    places = (
        ("look-first", len(review.conflicts), "conflict", "conflicts", True),
        ("consequences", numbers["stop"], "stop", "stops", True),
        ("consequences", numbers["caution"], "caution", "cautions", True),
        ("changes", review.count(), *_changes(review), False),
        ("by-hand", len(review.by_hand), "to set by hand", "to set by hand", True),
        ("questions", len(review.questions), "open question", "open questions", True),
        ("consequences", others, f"{other}consequence", f"{other}consequences", False),
        ("figures", figures, "figure", "figures", False),
        ("cautions", len(review.cautions), "safety note", "safety notes", False),
        ("kept", len(review.kept), "already right", "already right", False),
        ("unmapped", len(review.unmapped), "key the map does not know", "keys the map does not know", False),
        ("unmapped", len({edit.key for edit in review.others}), "other key differs", "other keys differ", False),
    )
    return [Jump(anchor, plural(count, one, many), urgent) for anchor, count, one, many, urgent in places if count]
