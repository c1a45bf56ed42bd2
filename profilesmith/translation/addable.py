"""What a map may add to a text."""

from collections.abc import Collection, Mapping

from profilesmith.profile.profile import Grid
from profilesmith.translation.key_map import KeyMap
from profilesmith.translation.spelling import new_grid
from profilesmith.translation.spot import Spot
from profilesmith.vocabulary.setting import Vocabulary


def addable(key_map: KeyMap, spots: Mapping[str, Spot], vocabulary: Vocabulary) -> dict[str, Grid]:
    """Settings that may be added. One that is a share, or that others are a share of, is left to the person."""
    wholes: Collection[str] = {spot.binding.relative_to for spot in spots.values()}
    return {
        binding.setting: new_grid(binding, vocabulary.settings[binding.setting])
        for binding in key_map.bindings
        if binding.add and binding.setting not in (*spots, *wholes) and not binding.relative_to and not binding.split
    }
