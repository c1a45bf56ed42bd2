"""What a review makes of findings: worst first, one line a question, and nothing of a stranger's harm."""

from __future__ import annotations

from typing import Any

import pytest

from profilesmith.ledger.judgement import ORDER
from profilesmith.review.build_comparison import comparison_review
from profilesmith.review.consequences import alarming, cautions, consequences, counts, measures, not_judged
from profilesmith.review.render import RENDERERS, Look, render
from profilesmith.review.review import Review
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


def finding(verdict: str, **more: str) -> dict[str, Any]:
    return {"check": "flow-spool", "verdict": verdict, "title": "Flow", "text": "It flows.", **more}


def review(*findings: dict[str, Any], **more: Any) -> Review:
    return comparison_review((), load_vocabulary(), "Test", "x", (), {"findings": list(findings), **more})


def test_the_worst_comes_first() -> None:
    shown = review(*(finding(verdict) for verdict in reversed(ORDER))).consequences
    assert tuple(item.verdict for item in shown) == ORDER


def test_counts_and_alarms() -> None:
    mixed = review(finding("note"), finding("note"), finding("caution"), finding("passed"), finding("not judged"))
    assert counts(mixed) == "1 caution, 2 notes, 1 passed, 1 not judged"
    assert alarming(mixed)
    assert not alarming(review(finding("note"), finding("not judged")))


def test_measures() -> None:
    whole = finding("passed", before="7 mm", after="3 mm", limit="4 mm", headroom="1 mm")
    assert measures(review(whole).consequences[0]) == "7 mm → 3 mm, limit 4 mm, headroom 1 mm"
    assert measures(review(finding("note", after="3 mm", limit="at most 4 mm")).consequences[0]) == "3 mm, at most 4 mm"
    assert measures(review(finding("note")).consequences[0]) == ""


def test_one_line_a_question() -> None:
    waiting = [
        finding(
            "not judged",
            title="One",
            text="Not judged, because nobody said it. The lines stand 3 mm apart.",
            ask="Which?",
        ),
        finding("not judged", title="PTFE liner", text="Not judged, because nobody said it.", ask="Which?"),
        finding("not judged", title="Other", text="Not judged, because the text is bare."),
        finding("not judged", title="Last", text="Not judged, because the text is bare."),
    ]
    assert not_judged(review(*waiting)) == [
        "one, PTFE liner. The lines stand 3 mm apart. Which?",
        "other. The text is bare.",
        "last. The text is bare.",
    ]


@pytest.mark.parametrize(
    "data",
    [
        {"findings": "no list"},
        {"findings": None},
        {"findings": [3, "x", None]},
        {"findings": [finding("made up")]},
        {"findings": [{}]},
        {"findings": [{"verdict": ["stop"]}]},
        {"cautions": 7},
        {"cautions": ["x"]},
    ],
)
def test_what_has_not_the_right_shape_is_left_out(data: dict[str, Any]) -> None:
    assert consequences(data) == ()
    assert cautions(data, ["Own."]) == ("Own.",)


@pytest.mark.parametrize("form", ["terminal", "markdown", "page"])
def test_a_strangers_words_do_no_harm(form: str) -> None:
    bad = "\x1b[2J<script>x</script>\u202e"
    stranger = finding("stop", title=bad, text=bad, before=bad, after=bad, limit=bad, headroom=bad, source=bad, ask=bad)
    text = render(
        review(stranger, cautions=[{"id": "x", "text": bad, "source": bad}]), form, Look(sources=True, full=True)
    )
    assert "\x1b" not in text
    assert "\u202e" not in text
    assert form == "terminal" or "<script>x" not in text


@pytest.mark.parametrize("form", [form for form in RENDERERS if form != "json"])
def test_every_form_takes_every_verdict(form: str) -> None:
    assert render(review(*(finding(verdict) for verdict in ORDER)), form, Look(colour=True)).strip()
