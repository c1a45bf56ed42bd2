"""No line goes through a name: the limits of line and bars figures, worked out from the drawings' own places."""

from __future__ import annotations

from itertools import pairwise

import pytest

from profilesmith.review.render.figures import bars, line
from profilesmith.review.render.figures.drawing import Drawing, DrawnText, Stroke
from profilesmith.review.render.figures.figure import Figure, FigurePoint, LimitLine, Series
from profilesmith.review.render.figures.limit_names import curve_of

LETTERS = 0.75  # em from the base line to the top of a capital, about
RISING = Series("a", "", tuple(FigurePoint(float(x), x / 10) for x in range(11)))
FALLING = Series("a", "", tuple(FigurePoint(float(x), 1 - x / 10) for x in range(11)))


def drawn(limits: tuple[float, ...], series: Series = RISING) -> Drawing:
    named = tuple(LimitLine(f"limit {value}", value) for value in limits)
    return line.draw(Figure(id="f", title="t", kind="line", series=(series,), limits=named))


def names(drawing: Drawing) -> list[DrawnText]:
    return [part for part in drawing.parts if isinstance(part, DrawnText) and part.look == "limit-name"]


def lines(drawing: Drawing) -> list[Stroke]:
    return [part for part in drawing.parts if isinstance(part, Stroke) and part.look == "limit"]


@pytest.mark.parametrize(
    "limits",
    [
        (2.06, 1.88),
        (1.88, 2.06),
        (1, 1),
        (1, 1.1, 1.2, 1.3),
        (0.1, 1, 1.05),
        (0, 0.05),
        (1.0, 1.16, 1.35, 0.2),
        tuple(n / 7 for n in range(8)),
    ],
)
def test_limits_that_lie_close_together_stay_readable(limits: tuple[float, ...]) -> None:
    drawing = drawn(limits)
    told = names(drawing)
    assert len(told) == len(lines(drawing)) == len(limits)
    assert [
        (name.text, line.y1) for name in told for line in lines(drawing) if name.y - LETTERS < line.y1 < name.y + 0.1
    ] == []
    bases = sorted(name.y for name in told)
    assert bases[0] > LETTERS
    assert all(below - above > 1.1 for above, below in pairwise(bases))


def test_names_stand_in_the_order_of_their_lines() -> None:
    told = sorted(names(drawn((1, 1.1, 1.2, 0.1))), key=lambda name: name.y)
    assert [name.text for name in told] == ["limit 1.2 1.2", "limit 1.1 1.1", "limit 1 1", "limit 0.1 0.1"]


def test_a_name_stands_on_the_side_where_no_curve_runs() -> None:
    assert names(drawn((0.85,)))[0].anchor == "start"
    assert names(drawn((0.85,), FALLING))[0].anchor == "end"


def test_a_curve_is_straight_between_its_points() -> None:
    down = curve_of([(0.2, 4.0), (0.4, 8.0)])
    assert [down(0.2), down(0.3), down(0.4), down(0.5)] == [4.0, pytest.approx(6.0), 8.0, None]


def test_the_limits_of_bars_cross_no_words() -> None:
    series = (
        Series("before", "before", (FigurePoint("wall", 6), FigurePoint("infill", 5))),
        Series("after", "after", (FigurePoint("wall", 3), FigurePoint("infill", 2))),
    )
    drawing = bars.draw(
        Figure(id="f", title="t", kind="bars", series=series, limits=(LimitLine("spool", 4), LimitLine("text", 4)))
    )
    words = [part for part in drawing.parts if isinstance(part, DrawnText)]
    crossed = [
        (word.text, stroke.y1)
        for word in words
        for stroke in lines(drawing)
        if stroke.y1 < word.y and stroke.y2 > word.y - LETTERS
    ]
    assert crossed == []
    assert len(lines(drawing)) == 4  # each limit beside each label
    for bar in (part for part in drawing.parts if part.part == "bar"):
        assert any(stroke.y1 <= bar.y and stroke.y2 >= bar.y + bar.height for stroke in lines(drawing))  # type: ignore[union-attr]
