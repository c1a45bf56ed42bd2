"""Shapes in words and sentences, in three languages."""

import pytest

from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.shapes import pattern_of


@pytest.mark.parametrize(
    ("text", "shape"),
    [
        ("gyroid", "gyroid"),
        ("straight lines back and forth", "lines"),
        ("crossed lines", "grid"),
        ("three-sided cells", "triangles"),
        ("rings that follow the outline", "concentric"),
        ("cubes on their corners", "cubic"),
        ("waves in all directions", "gyroid"),
        ("honeycmb", "hexagons"),
        ("grd", "grid"),
        ("Striche hin und her", "lines"),
        ("kariert", "grid"),
        ("allers et retours", "lines"),
        ("vagues en tous sens", "gyroid"),
        ("waves and triangles", ""),
        ("oak", ""),
        ("", ""),
    ],
)
def test_a_shape_is_read_in_what_people_write(text: str, shape: str) -> None:
    assert pattern_of(text, load_lexicon()) == shape
