"""Words of findings are made from reasons and numbers, and every reason that a check tells has words."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from profilesmith.ledger.judgement import Amount, Finding
from profilesmith.review.findings import show
from profilesmith.review.findings.in_words import WORDS, in_words

CHECKS = Path(__file__).resolve().parents[2] / "profilesmith" / "checks"
JUDGING = [path for path in sorted(CHECKS.glob("*.py")) if "Finding(" in path.read_text(encoding="utf-8")]


def texts(path: Path) -> set[str]:
    """Every constant text of a file that is a reason by its shape."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return {node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str)}


@pytest.mark.parametrize("path", JUDGING, ids=[path.stem for path in JUDGING])
def test_a_check_makes_no_words(path: Path) -> None:
    """It gives neither title nor text: not by their names, and not by their places behind check and verdict."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    calls = [node for node in ast.walk(tree) if isinstance(node, ast.Call)]
    made = [call for call in calls if isinstance(call.func, ast.Name) and call.func.id == "Finding"]
    assert made
    assert all(len(call.args) <= 2 for call in made)
    assert not {"title", "text", "before", "after", "limit"} & {word.arg for call in calls for word in call.keywords}


def test_every_reason_with_words_is_told_by_a_check() -> None:
    told = set().union(*(texts(path) for path in CHECKS.glob("*.py")))
    rules = {f"together-{name}" for name in told}
    rules |= {f"skin-{state}{more}" for state in ("none", "thin", "closed") for more in ("", "-thinner")}
    rules |= {f"{reason}-usual" for reason in told}
    sags = ("soft-sags-between-lines", "sags-between-lines")
    rules |= {f"{reason}{more}" for reason in sags for more in ("-contact", "-off", "-contact-off")}
    assert {reason for _, reason in WORDS} <= told | rules


def test_numbers_stand_in_the_sentence_and_beside_it() -> None:
    amounts = (Amount("before", 205, 205, "°C"), Amount("after", 250, 250, "°C"), Amount("most", 240, 240, "°C"))
    bare = Finding(
        "nozzle-maximum", "stop", reason="above-instructions", amounts=(*amounts, Amount("above", 10, 10, "°C"))
    )
    found = in_words(bare)
    assert (found.before, found.after, found.limit, found.headroom) == ("205 °C", "250 °C", "at most 240 °C", "")
    assert found.text.startswith("10 °C above what the machine's instructions allow")
    assert (found.reason, found.amounts) == (bare.reason, bare.amounts)


def test_what_is_not_known_here_keeps_what_it_says() -> None:
    finding = Finding("later-check", "note", "A title", "Its own words.", reason="of-a-later-version")
    assert in_words(finding) == finding
    assert in_words(finding._replace(tools=(2, 3))).title == "A title (tools 2 and 3)"


def test_brackets_and_units() -> None:
    assert show(Amount("after", 1, 2.3, "mm/s")) == "1 to 2.3 mm/s"
    assert show(Amount("after", 1.26, 1.26, "mm")) == "1.26 mm"


def test_what_was_not_judged_says_why_beside_its_question() -> None:
    """That nobody told it the question says already; anything else is told."""
    amounts = (Amount("in-the-text", 0.4, 0.4, "mm"), Amount("fitted", 0.6, 0.6, "mm"))
    told = in_words(Finding("layer-height", "not judged", reason="two-nozzles", amounts=amounts))
    assert told.text.startswith("Not judged, because the text is for a nozzle of 0.4 mm")
    assert told.beside_question == "The text is for a nozzle of 0.4 mm and the facts name one of 0.6 mm."
    assert in_words(Finding("layer-height", "not judged", reason="nozzle-not-said")).beside_question == ""
