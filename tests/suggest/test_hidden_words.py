"""What holds when a text's words are not listed: a part of each dialect's words is hidden from the lexicon, by
chance.
"""

import tomllib
import zlib
from pathlib import Path

import pytest

from profilesmith.suggest import suggest_key_map
from profilesmith.suggest.key_words import split_words
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.proposal import SURE
from profilesmith.workflows.suggest import MapOrder, suggest

FOLDERS = sorted(
    path.parent for path in (Path(__file__).resolve().parents[1] / "cases" / "dialects").glob("*/*/map.toml")
)


def hide(folder: Path, share: float) -> object:
    full = load_lexicon()
    words = set(split_words(b" ".join(path.read_bytes() for path in folder.glob("base.*")).decode("utf-8", "ignore")))
    gone = {
        phrase
        for phrase, term in full.terms.items()
        if not term.small
        and words & set(phrase.split())
        and zlib.crc32(f"test {phrase[:4]}".encode()) % 1000 < 1000 * share
    }
    return full._replace(terms={phrase: term for phrase, term in full.terms.items() if phrase not in gone}, found={})


@pytest.mark.parametrize("share", [0.3])
def test_structure_finds_most_and_calls_little_sure_that_is_not(monkeypatch: pytest.MonkeyPatch, share: float) -> None:
    sure = right = found = settings = 0
    decoys = []
    for folder in FOLDERS:
        bindings = tomllib.loads((folder / "map.toml").read_text(encoding="utf-8"))["binding"]
        keys = {one["setting"]: (one.get("section", ""), one["key"], one.get("field", 0)) for one in bindings}
        held = {place[:2] for place in keys.values()}
        monkeypatch.setattr(suggest_key_map, "load_lexicon", lambda folder=folder: hide(folder, share))
        for item in suggest(MapOrder(tuple(str(path) for path in sorted(folder.glob("base.*"))))).suggestion.proposals:
            fits = keys.get(item.setting) == item.place
            found += fits
            sure += item.certainty == SURE
            right += fits and item.certainty == SURE
            decoys += [item.key] if item.certainty == SURE and item.place[:2] not in held else []
        settings += len(keys)
    assert right >= 0.98 * sure
    assert found >= 0.85 * settings
    assert not decoys
