"""Traps: small files in which a careless reader gets a figure wrong without a word. Each says what is true of it.

A figure is right, or it is not judged: never silently wrong. ``filament_mm = "open"``: it depends on the machine.
"""

from __future__ import annotations

import tomllib
from fractions import Fraction
from pathlib import Path

import pytest

from profilesmith.motion.figures import Figures
from profilesmith.motion.judging.judge import judge
from profilesmith.motion.measure import measure
from profilesmith.motion.practice import Practice
from profilesmith.motion.words_map import read_words_map
from profilesmith.review.motion.report import findings_of
from profilesmith.review.motion.totals import Spool
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

TRAPS = sorted(path for path in (Path(__file__).parent / "traps").iterdir() if path.is_dir())
PROMISES = {
    "first_layer.height": Fraction("0.2"),
    "layer.height": Fraction("0.2"),
    "nozzle.temperature": Fraction(215),
    "first_layer.nozzle_temperature": Fraction(215),
    "bed.temperature": Fraction(60),
    "first_layer.speed": Fraction(20),
    "fan.power": Fraction(100),
    "fan.off_layers": Fraction(1),
    "retraction.on": True,
    "retraction.distance": Fraction("0.8"),
    "retraction.speed": Fraction(30),
    "travel.speed": Fraction(150),
    "filament.maximum_flow": Fraction(4),
}


def read(folder: Path) -> Figures:
    practice = Practice()
    if (folder / "words.toml").exists():
        told, problems = read_words_map((folder / "words.toml").read_bytes(), "words.toml")
        assert problems == []
        assert told is not None
        practice = told
    return measure([(folder / "trap.motion").read_bytes()], practice)


def test_there_are_enough() -> None:
    assert len(TRAPS) >= 30


@pytest.mark.parametrize("folder", TRAPS, ids=lambda folder: folder.name)
def test_no_figure_is_silently_wrong(folder: Path) -> None:
    expected = tomllib.loads((folder / "expect.toml").read_text(encoding="utf-8"))
    figures = read(folder)
    assert {doubt.code for doubt in figures.doubts} == set(expected["doubts"])
    on_strand = [doubt for doubt in figures.doubts if "strand" in doubt.subjects]
    if expected["filament_mm"] == "open":
        assert on_strand
    elif not on_strand:
        assert figures.fed == pytest.approx(expected["filament_mm"], rel=1e-4)
    judged = {item.setting: item for item in judge(figures, PROMISES)}
    got = {setting: judged[setting].outcome.verdict for setting in expected["judged"]}
    assert got == expected["judged"]


@pytest.mark.parametrize("folder", TRAPS, ids=lambda folder: folder.name)
def test_what_is_found_says_where_and_what_to_do(folder: Path) -> None:
    figures = read(folder)
    vocabulary = load_vocabulary()
    findings = findings_of(figures, judge(figures, PROMISES), Spool(1.75), vocabulary)
    for doubt in figures.doubts:
        note = next(finding for finding in findings if finding.title.startswith(f"Line {doubt.line}: "))
        assert note.text.count(". ") >= 2  # what it is, what is not judged, what to do
    for finding in findings:
        assert "{" not in finding.text
        if (
            finding.verdict == "caution"
            and finding.settings
            and finding.settings[0] not in ("retraction.on", "raft.on")
        ):
            assert "line " in finding.text
