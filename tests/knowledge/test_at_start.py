"""The data that every derivation reads are kept as JSON too: the same data, and only while their text is the same."""

from __future__ import annotations

import tomllib

import pytest

from profilesmith.foundation.package_data import package_text
from profilesmith.vocabulary import load_vocabulary
from tests.knowledge.at_start import NAMES, PLACE, made_anew


def test_it_is_made_of_the_texts_as_they_are() -> None:
    assert PLACE.read_text(encoding="utf-8") == made_anew(), "run python -m tests.knowledge.at_start"


@pytest.mark.parametrize("name", NAMES)
def test_what_is_read_is_what_toml_says(name: str) -> None:
    """``repr`` tells 1 from 1.0 and from true, which are equal."""
    assert repr(load_vocabulary.knowledge(name)) == repr(tomllib.loads(package_text(f"knowledge/{name}")))


def test_a_text_that_was_changed_since_is_read_itself(monkeypatch: pytest.MonkeyPatch) -> None:
    text = package_text("knowledge/limits.toml") + '\n[[limit]]\nfact = "one.more"\n'
    monkeypatch.setattr(
        load_vocabulary, "package_text", lambda name: text if name.endswith("limits.toml") else package_text(name)
    )
    assert load_vocabulary.knowledge("limits.toml") == tomllib.loads(text)
