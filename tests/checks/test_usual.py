"""Values far from usual are said, with the unit under which they would not be."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from profilesmith.checks import contradictions
from profilesmith.checks.beads import FEATURES
from profilesmith.engine.check_key_map import report
from profilesmith.review.findings.facts_words import far_off_settings
from profilesmith.vocabulary.setting import Vocabulary


@pytest.mark.parametrize(
    ("setting", "more", "text", "said"),
    [
        ("outer_wall.speed", "", "900", "900 mm/s is far from usual (8 to 400 mm/s); as mm/min it is 15 mm/s"),
        ("outer_wall.speed", "", "900 mm/s", "900 mm/s is far from usual (8 to 400 mm/s)"),
        ("infill.density", "", "0.2", "0.2 % is far from usual (2 to 100 %); as fraction it is 20 %"),
        ("nozzle.temperature", 'unit = "C"', "410", "as °F it is 210 °C"),
        ("layer.minimum_time", "", "240", "240 s is far from usual (1 to 90 s)"),
        ("outer_wall.speed", "", "60", ""),
        ("fan.power", "", "0", ""),
        ("support.gap", 'unit = "um"', "200", ""),
    ],
)
def test_what_is_said(
    setting: str, more: str, text: str, said: str, read_text: Callable[..., Any], bind: Callable[..., str]
) -> None:
    found = far_off_settings(read_text(bind(setting, "a", more), f"a = {text}\n").profile)
    assert said in found.get(setting, "")
    assert bool(said) == bool(found)


def test_key_map_check_and_derive_say_it(
    derived: Callable[..., Any], read_text: Callable[..., Any], bind: Callable[..., str]
) -> None:
    lines = bind("outer_wall.speed", "rim") + bind("infill.speed", "core")
    base = "rim = 900\ncore = 60\n"
    told = report(read_text(lines, base), "terminal")
    assert told.code == 1
    assert "as mm/min it is 15 mm/s" in told.text
    assert report(read_text(lines, "rim = 90\ncore = 60\n"), "terminal").code == 0
    found = [item for item in derived(base, lines).review.consequences if item.check == "usual"]
    assert [item.verdict for item in found] == ["caution"]
    assert "as mm/min it is 15 mm/s" in found[0].text


def test_lines_that_are_not_read_are_said_first(
    derived: Callable[..., Any], read_text: Callable[..., Any], bind: Callable[..., str]
) -> None:
    base = "rim = 60\ncore > 60\nsole > 20\ntop > 30\nbase > 40\nplain words\n"
    lines = bind("outer_wall.speed", "rim")
    told = report(read_text(lines, base), "terminal")
    first = told.text.splitlines()[0]
    assert told.code == 1
    assert first.startswith("4 lines look like settings and are not read: base1.cfg:2 core > 60; ")
    assert "top > 30; ..." in first
    assert 'delimiter = ["=", ">"]' in first
    found = derived(base, lines).review.consequences
    assert [item.verdict for item in found if item.check == "unread-lines"] == ["caution"]
    assert report(read_text(lines, "rim = 60\nplain words\n"), "terminal").code == 0


def test_no_check_passes_all_features_beside_lines_that_are_not_read(
    derived: Callable[..., Any], bind: Callable[..., str]
) -> None:
    """Every feature that is known has its speed; what an unread line sets, nobody knows."""
    speeds = {f"{name}.speed": "30" for name, _ in FEATURES}
    values = {**speeds, "bead.width": "0.45", "layer.height": "0.2", "first_layer.height": "0.2"}
    bindings = "".join(bind(name, name.replace(".", "_")) for name in values)
    base = "".join(f"{name.replace('.', '_')} = {value}\n" for name, value in values.items())
    facts = (
        '[spool]\nmaximum_flow = "9 mm3/s"\nmaximum_printing_speed = "60 mm/s"\n[machine]\nmaximum_flow = "12 mm3/s"\n'
    )
    more = "rim two > 300\ncore two > 300\nlid two > 300\n"
    said = {item.check: item for item in derived(base + more, bindings, facts=facts).review.consequences}
    assert said["unread-lines"].verdict == "caution"
    for check in ("flow-spool", "flow-machine", "label-speed"):
        assert said[check].verdict == "passed"
        assert "hat was read" in said[check].text
        assert "eature is" not in said[check].text
        assert "all features" not in said[check].text


def test_what_is_usual_is_what_the_setting_says(vocabulary: Vocabulary) -> None:
    """Two whole numbers for each end, so that all values of a profile are looked at quickly: the same answers."""
    ends = contradictions._usual_ends()
    for name, setting in vocabulary.settings.items():
        low, high = setting.usual or (Fraction(1), Fraction(2))
        near = [end + step for end in (low, high) for step in (Fraction(-1, 7), Fraction(0), Fraction(1, 10**9))]
        for value in (*near, Fraction(0), True, "word"):
            within = name not in ends or contradictions._is_within(ends[name], value)
            assert within is setting.is_usual(value), (name, value)
