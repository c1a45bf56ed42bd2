"""The colours of the pages: text and marks stand out from what they lie on, in light and in dark.

Outside check: contrast by the formula and the thresholds of W3C WCAG 2.2 (1.4.3 for text, 1.4.11 for marks).
"""

from __future__ import annotations

import re

import pytest

from profilesmith.review.render.html.frame import asset


def luminance(colour: str) -> float:
    """Relative luminance, W3C WCAG 2.2."""
    full = colour if len(colour) == 7 else "#" + "".join(2 * digit for digit in colour[1:])
    channels = [int(full[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4 for value in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_contrast_formula_gives_the_standards_own_extremes() -> None:
    assert contrast("#000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)  # WebAIM's well-known grey that just fails


@pytest.mark.parametrize("scheme", [0, 1], ids=["light", "dark"])
def test_text_and_marks_stand_out_from_what_they_lie_on(scheme: int) -> None:
    palettes = [
        dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{3,6});", block))
        for block in re.findall(r":root \{(.*?)\}", asset("base.css"), re.S)
    ]
    colours = palettes[scheme]
    grounds = [colours[name] for name in ("paper", "card")]
    for text in ("ink", "soft", "down", "up", "other", "alarm"):
        assert min(contrast(colours[text], ground) for ground in grounds) >= 4.5, text  # WCAG 1.4.3
    assert contrast(colours["ink"], colours["alarm-paper"]) >= 4.5
    assert contrast(colours["alarm"], colours["alarm-paper"]) >= 4.5
    for mark in ("edge", "down", "up", "focus"):
        assert min(contrast(colours[mark], ground) for ground in grounds) >= 3, mark  # WCAG 1.4.11
    for mark in ("up", "ink", "down"):
        assert contrast(colours[mark], colours["band"]) >= 3, mark
