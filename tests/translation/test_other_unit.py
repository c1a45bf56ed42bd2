"""A number that no setting can have is mostly one in another unit: the unit that makes sense is offered."""

from __future__ import annotations

import pytest

from profilesmith.translation.other_unit import other_unit_hint
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


@pytest.mark.parametrize(
    ("setting", "text", "offer"),
    [
        ("layer.height", "200", ': unit = "um" would make it 0.2 mm'),
        ("layer.height", " 200 ", ': unit = "um" would make it 0.2 mm'),
        ("layer.height", "200 mm", ""),
        ("layer.height", "thick", ""),
        ("layer.height", "0", ""),
        ("layer.height", "1e9", ""),
        ("wall.count", "1000000", ""),
    ],
)
def test_the_first_unit_that_fits(setting: str, text: str, offer: str) -> None:
    assert other_unit_hint(text, load_vocabulary().settings[setting]) == offer
