"""--motion: what the file tells takes the place of brackets in check, derive and review."""

from __future__ import annotations

from pathlib import Path

import pytest

from profilesmith.ledger.judgement import Finding
from profilesmith.review.review import Review
from profilesmith.workflows.check import check
from profilesmith.workflows.demo import run_demo
from profilesmith.workflows.derive import derive
from profilesmith.workflows.motion.measured import with_motion
from profilesmith.workflows.request import Request
from profilesmith.workflows.review import review_again


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    target = tmp_path_factory.mktemp("demo") / "heron"
    run_demo(str(target))
    (target / "more.toml").write_text('format = 1\n[spool]\ndensity = "1.2 g/cm3"\nleft = "1 g"\n', encoding="utf-8")
    return target


def request(folder: Path) -> Request:
    facts = tuple(str(folder / name) for name in ("machine.toml", "spool.toml", "more.toml"))
    return Request((str(folder / "base.settings"),), str(folder / "keymap.toml"), facts=facts)


def told(review: Review, check_id: str) -> list[Finding]:
    return [item for item in review.consequences if item.check == check_id]


def test_check_takes_the_flow_of_the_file(folder: Path) -> None:
    asked, words = request(folder), str(folder / "words.toml")
    without = told(check(asked), "flow-spool")[0]
    with_file = told(check(with_motion(asked, str(folder / "rigid.motion"), words, old=False)), "flow-spool")[0]
    assert "motion file" not in without.text
    assert "motion file" in with_file.text


def test_derive_takes_the_hours_of_the_old_print(folder: Path) -> None:
    asked = request(folder)._replace(recipes=("flexible-pla",))
    assert told(derive(asked).review, "print-hours") == []
    timed = derive(with_motion(asked, str(folder / "rigid.motion"), str(folder / "words.toml"), old=True))
    assert told(timed.review, "print-hours")


def test_review_takes_the_new_print(folder: Path) -> None:
    derived = str(folder / "soft.settings")
    assert told(review_again(derived).review, "print-hours") == []
    hours = told(review_again(derived, str(folder / "soft.motion"), str(folder / "words.toml")).review, "print-hours")
    assert " h" in hours[0].after
