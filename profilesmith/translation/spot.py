"""Where a setting is written in the base files, and what a map may add to them."""

from collections.abc import Collection, Mapping
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.profile.profile import Grid
from profilesmith.translation.find_keys import KeyLine
from profilesmith.translation.key_map import Binding, KeyMap
from profilesmith.translation.pieces import Span
from profilesmith.translation.spelling import new_grid
from profilesmith.vocabulary.setting import Vocabulary


class Spot(NamedTuple):
    """Where a setting is written. lines: all lines that say it; spans: the pieces in ``raw``, its first line's text."""

    binding: Binding
    lines: tuple[KeyLine, ...]
    spans: tuple[Span, ...]
    constant: Fraction | None = None
    raw: str = ""


def addable(key_map: KeyMap, spots: Mapping[str, Spot], vocabulary: Vocabulary) -> dict[str, Grid]:
    """Settings that may be added. One that is a share, or that others are a share of, is left to the person."""
    wholes: Collection[str] = {spot.binding.relative_to for spot in spots.values()}
    return {
        binding.setting: new_grid(binding, vocabulary.settings[binding.setting])
        for binding in key_map.bindings
        if binding.add and binding.setting not in (*spots, *wholes) and not binding.relative_to and not binding.split
    }
