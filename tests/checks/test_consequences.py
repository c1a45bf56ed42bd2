"""What a review makes of findings: worst first, one line a question, and nothing of a stranger's harm."""

from __future__ import annotations

import pytest

from profilesmith.ledger.file import CheckFile
from profilesmith.ledger.judgement import ORDER, Caution, Finding, Verdict
from profilesmith.review.build_comparison import comparison_review
from profilesmith.review.consequences import alarming, check_counts, counts, measures, not_judged
from profilesmith.review.render import DATA, RENDERERS, Look, render
from profilesmith.review.review import Review
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


def finding(verdict: Verdict, **more: str) -> Finding:
    return Finding("flow-spool", verdict, "Flow", "It flows.")._replace(**more)  # type: ignore[arg-type]


def review(*findings: Finding, cautions: tuple[Caution, ...] = ()) -> Review:
    file = CheckFile(2, "profilesmith check", "profilesmith 0.1.0", {}, {}, findings, cautions, ())
    return comparison_review((), load_vocabulary(), "Test", "x", (), file)


def test_the_worst_comes_first() -> None:
    shown = review(*(finding(verdict) for verdict in reversed(ORDER))).consequences
    assert tuple(item.verdict for item in shown) == ORDER


def test_counts_and_alarms() -> None:
    mixed = review(finding("note"), finding("note"), finding("caution"), finding("passed"), finding("not judged"))
    assert counts(mixed) == "1 caution, 2 notes, 1 passed, 1 not judged"
    assert ", ".join(check_counts(mixed)) == "1 caution, 2 notes, 1 check passed, 1 not judged"
    assert alarming(mixed)
    assert not alarming(review(finding("note"), finding("not judged")))


def test_measures() -> None:
    whole = finding("passed", before="7 mm", after="3 mm", limit="4 mm", headroom="1 mm")
    assert measures(review(whole).consequences[0]) == "7 mm → 3 mm, limit: 4 mm, headroom 1 mm"
    assert (
        measures(review(finding("note", after="3 mm", limit="at most 4 mm")).consequences[0])
        == "3 mm, limit: at most 4 mm"
    )
    assert measures(review(finding("note")).consequences[0]) == ""


def test_one_line_a_question() -> None:
    waiting = [
        finding(
            "not judged",
            title="One",
            text="Not judged, because nobody said it. The lines stand 3 mm apart.",
            ask="Which?",
            beside_question="The lines stand 3 mm apart.",
        ),
        finding("not judged", title="PTFE liner", text="Nobody said it.", ask="Which?", beside_question=""),
        finding("not judged", title="Other", text="The text is bare."),
        finding("not judged", title="Last", text="The text is bare."),
    ]
    assert not_judged(review(*waiting)) == [
        "one, PTFE liner. The lines stand 3 mm apart. Which?",
        "other. The text is bare.",
        "last. The text is bare.",
    ]


@pytest.mark.parametrize("form", ["terminal", "markdown", "page"])
def test_a_strangers_words_do_no_harm(form: str) -> None:
    bad = "\x1b[2J<script>x</script>\u202e"
    stranger = finding("stop", title=bad, text=bad, before=bad, after=bad, limit=bad, headroom=bad, source=bad, ask=bad)
    text = render(review(stranger, cautions=(Caution("x", bad, bad),)), form, Look(sources=True, full=True))
    assert "\x1b" not in text
    assert "\u202e" not in text
    assert form == "terminal" or "<script>x" not in text


@pytest.mark.parametrize("form", [form for form in RENDERERS if form not in DATA])
def test_every_form_takes_every_verdict(form: str) -> None:
    assert render(review(*(finding(verdict) for verdict in ORDER)), form, Look(colour=True)).strip()
