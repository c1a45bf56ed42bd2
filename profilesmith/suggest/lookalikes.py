"""Which keys that a map does not know look like print settings, and like which."""

from collections.abc import Iterable, Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.suggest.detect_habits import Writing, writing_of
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.propose import propose
from profilesmith.text.document import Document
from profilesmith.translation.key_map import KeyMap

# Scores above these are worth a person's look: for a setting that the map lacks, and for one that it has on another
# key.
LOOKS_LIKE, LOOKS_LIKE_BOUND = 0.5, 3.0


class Lookalike(NamedTuple):
    """setting: the one that the key looks most like; bound: whether the map has that one on another key."""

    setting: str
    bound: bool
    score: float


def lookalikes(
    documents: Sequence[Document], key_map: KeyMap, places: Iterable[tuple[str, str]]
) -> dict[tuple[str, str], Lookalike]:
    """(section, key) of those among some places that look like settings, best first."""
    wanted = set(places)
    lexicon = load_lexicon()
    writing: Writing = writing_of(tuple(documents), key_map.habits, lexicon)
    if key_map.decimal:
        writing = writing._replace(decimal=key_map.decimal)
    reading = propose(tuple(documents), writing, lexicon, {})
    held = {binding.setting for binding in key_map.bindings}
    alike: dict[tuple[str, str], Lookalike] = {}
    for slot, options in zip(reading.slots, reading.scores, strict=True):
        place = slot.place[:2]
        if place not in wanted or not options:
            continue
        name = max(
            options, key=lambda setting: options[setting].score - (LOOKS_LIKE_BOUND if setting in held else LOOKS_LIKE)
        )
        like = Lookalike(name, name in held, options[name].score)
        if like.score > (LOOKS_LIKE_BOUND if like.bound else LOOKS_LIKE) and place not in alike:
            alike[place] = like
    return dict(sorted(alike.items(), key=lambda item: (item[1].bound, -item[1].score)))
