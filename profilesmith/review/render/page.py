"""The review as one self-contained HTML file: no network, readable without script, in light, in dark and on A4."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from typing import NamedTuple

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
from profilesmith.review.render.figures.window import draw as draw_window
from profilesmith.review.render.figures.windows import window_figures
from profilesmith.review.render.html.frame import fill
from profilesmith.review.render.html.rows import hand_tasks, shown_groups, shown_row
from profilesmith.review.render.names import Move, trade_name, verdict_sign
from profilesmith.review.review import Review
from profilesmith.review.sentences import held_title

_DRAW = {"bars": draw_bars, "line": draw_line, "window": draw_window}


class Picture(NamedTuple):
    """A figure with its drawing and its table; neither, when it has a fault."""

    figure: Figure
    drawing: Drawing | None
    table: Table | None


class Jump(NamedTuple):
    """An entry of the list of contents."""

    anchor: str
    words: str
    urgent: bool = False


def render(review: Review, look: Look) -> str:
    """The review as a page. ``look`` changes nothing: a page folds what is long."""
    drawn = pictures(read_figures(review.figures))
    windows = pictures(window_figures(review.rows))
    return fill(
        "page.html",
        ("base.css", "page.css"),
        "page.js",
        review=review,
        summary=counts_line(review),
        points=look_first_points(review),
        jumps=jumps(review, len(drawn) + len(windows)),
        groups=shown_groups(review.groups),
        by_hand=hand_tasks(review),
        held=[shown_row(change) for change in review.held],
        held_title=held_title(review),
        kept=[shown_row(change) for change in review.kept],
        overruled=[shown_row(change) for change in review.overruled],
        drawn=drawn,
        windows=windows,
        found=verdicts(review, lambda verdict: verdict != "passed"),
        passed=verdicts(review, lambda verdict: verdict == "passed"),
        trade_name=trade_name,
        plural=plural,
        heading="What changed" if review.recipes else "What differs",
        written_by=str(getattr(review.file, "written_by", "profilesmith")),
    )


def verdicts(review: Review, wanted: Callable[[str], bool]) -> list[tuple[Move, Finding]]:
    """What the checks found, with their signs."""
    return [(verdict_sign(item.verdict), item) for item in review.consequences if wanted(item.verdict)]


def pictures(figures: tuple[Figure, ...]) -> list[Picture]:
    """Each figure drawn, with its table."""
    return [
        Picture(figure, None, None) if figure.fault else Picture(figure, _DRAW[figure.kind](figure), table(figure))
        for figure in figures
    ]


def jumps(review: Review, figures: int) -> list[Jump]:
    """The list of contents: only what is there, with counts."""
    numbers = Counter(item.verdict for item in review.consequences)
    others, other = numbers["note"] + numbers["not judged"], "other " if alarms(review) else ""
    found = (
        ("look-first", len(review.conflicts), "conflict", "conflicts", True),
        ("consequences", numbers["stop"], "stop", "stops", True),
        ("consequences", numbers["caution"], "caution", "cautions", True),
        ("changes", review.count(), "change", "changes", False),
        ("by-hand", len(review.by_hand), "to set by hand", "to set by hand", True),
        ("questions", len(review.questions), "open question", "open questions", True),
        ("consequences", others, f"{other}consequence", f"{other}consequences", False),
        ("figures", figures, "figure", "figures", False),
        ("cautions", len(review.cautions), "safety note", "safety notes", False),
        ("kept", len(review.kept), "already right", "already right", False),
        ("unmapped", len(review.unmapped), "key the map does not know", "keys the map does not know", False),
    )
    return [Jump(anchor, plural(count, one, many), urgent) for anchor, count, one, many, urgent in found if count]
