"""Changed key maps against what their keys' words speak for: a second look by ``suggest`` at a reference
profile's text.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from profilesmith.engine.read import Source
from profilesmith.engine.suggest import suggest
from profilesmith.foundation.problem import Refused
from profilesmith.library.find import names
from profilesmith.library.library import Library, inside, load_library
from profilesmith.library.open_files import open_key_map
from profilesmith.lint.finding import LintFinding
from profilesmith.lint.names import files_of
from profilesmith.suggest.key_words import split_words
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.proposal import SURE, Proposal
from profilesmith.translation.key_map import Binding, KeyMap
from profilesmith.workflows.read import plain_bytes

OTHER_WORDS = "T511"
FIX = "Look at the text once more; where the binding is right, say why in a commit and call with --accept T511."


def other_words(before: Path, now: Path) -> Iterator[LintFinding]:
    """Hints on bindings of maps that are new or changed, wherever a reference profile has their text."""
    library, _ = load_library(now)
    old = {path.stem: path.read_bytes() for path in files_of(before, "key map")}
    for name, path in names("key map", now) if library else ():
        if library is not None and inside(now, path) and old.get(name) != plain_bytes(path):
            yield from _of_map(library, name, path)


def _of_map(library: Library, name: str, path: Path) -> Iterator[LintFinding]:
    key_map, _ = open_key_map(path, str(path))
    texts = next((profile.texts for profile in library.profiles if profile.key_map == name), ())
    raws = [(text, plain_bytes(library.folder / text)) for text in texts]
    if key_map is None or not raws or any(raw is None for _, raw in raws):
        return
    try:
        suggested = suggest([Source(text, raw or b"") for text, raw in raws], name)
    except Refused:  # nothing in the text is recognised: nothing is to be said
        return
    yield from _faults(key_map, suggested.whole.proposals, str(path))


def _faults(key_map: KeyMap, proposals: tuple[Proposal, ...], file: str) -> Iterator[LintFinding]:
    sure = {item.setting: item for item in proposals if item.certainty == SURE and item.founded}
    keys = {(item.section, item.key): item for item in sure.values()}
    for binding in key_map.bindings:
        place = (binding.section or "", binding.key)
        own, other = sure.get(binding.setting), keys.get(place)
        message = ""
        if other is not None and other.setting != binding.setting and not _shared(binding, other):
            message = f"{binding.key!r} is bound to {binding.setting}; its words speak for {other.setting}"
        elif own is not None and (own.section, own.key) != place and other is None:
            message = f"{binding.setting} is bound to {binding.key!r}; the words of {own.key!r} speak for it"
        elif own is None or (own.section, own.key) != place:
            word = _stray_word(binding)
            message = f"{binding.key!r} is bound to {binding.setting}; {word!r} speaks of no setting" if word else ""
        if message:
            yield LintFinding(OTHER_WORDS, "hint", file, binding.place.line, message, FIX)


def _stray_word(binding: Binding) -> str:
    """A word of a key that speaks against every setting, as a dryer's does; "" where another word speaks for one."""
    terms = load_lexicon().read(split_words(binding.key))
    stray = next((term.text for term in terms if term.decoy >= 1 and not term.ideas), "")
    # A unit or a kind of quantity at the end says nothing of what it is of.
    others = [term for term in terms[:-1] if term.ideas and not term.decoy]
    return "" if others else stray


def _shared(binding: Binding, other: Proposal) -> bool:
    """Whether one key may well hold both: a switch that is read off a number."""
    return binding.kind == "switch" or other.setting.endswith(".on")
