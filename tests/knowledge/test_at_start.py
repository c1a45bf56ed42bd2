"""The data that every derivation reads are kept worked out: the same as what TOML says."""

from __future__ import annotations

import tomllib

import pytest

from profilesmith.facts.facts import fact_kinds
from profilesmith.foundation.package_data import package_text
from profilesmith.vocabulary.load_vocabulary import knowledge, load_vocabulary
from tests.knowledge import at_start


def test_it_is_made_of_the_texts_as_they_are() -> None:
    assert at_start.PLACE.read_text(encoding="utf-8") == at_start.made_anew(), "run python -m tests.knowledge.at_start"


def test_settings_and_facts_are_what_toml_says() -> None:
    """``repr`` tells 1 from 1.0 and from true, which are equal."""
    assert repr(list(load_vocabulary().settings.values())) == repr(at_start.settings())
    assert repr(list(fact_kinds().values())) == repr(at_start.fact_kinds())
    groups = at_start.tables_of("vocabulary.toml")["groups"]
    assert {name: list(group.members) for name, group in load_vocabulary().groups.items()} == {
        name: table["members"] for name, table in groups.items()
    }


@pytest.mark.parametrize("name", [*at_start.AS_THEY_ARE, "vocabulary.toml", "facts.toml"])
def test_a_file_is_read_as_toml_says(name: str) -> None:
    assert repr(knowledge(name)) == repr(tomllib.loads(package_text(f"knowledge/{name}")))
