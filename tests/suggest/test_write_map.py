"""What is written loads as a map, and any text of a stranger is only ever a text in it."""

import tomllib
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.engine.suggest import load_text
from profilesmith.foundation.toml_text import comment_lines, quoted
from profilesmith.suggest.proposal import CHECK, SURE, Alternative, Entry, Proposal, Suggestion
from profilesmith.suggest.write_map import new_map, table_lines
from profilesmith.translation.check_key_map import is_one_line

Make = Callable[..., Proposal]
TEXTS = st.text(max_size=12).filter(is_one_line)
TABLES = st.dictionaries(st.from_regex(r"[a-z][a-z_]{0,9}", fullmatch=True), TEXTS, min_size=1, max_size=3)


@pytest.fixture
def make() -> Make:
    def run(setting: str, key: str, certainty: str = SURE, **more: object) -> Proposal:
        binding = {"setting": setting, "key": key, **more}
        doubts = () if certainty == SURE else ("The unit is a guess.",)
        others = () if certainty == SURE else (Alternative("other", "3", 9),)
        return Proposal(setting, "", key, binding, certainty, ("because",), doubts, others, "base", 4, "0.2", "0.2 mm")  # type: ignore[arg-type]

    return run


def suggestion(*proposals: Proposal) -> Suggestion:
    return Suggestion("shop", "en", {"comments": ["#"], "delimiter": "="}, proposals, ("raft.on",), ())


def test_only_what_is_sure_is_active(make: Make) -> None:
    text = new_map(suggestion(make("layer.height", "a", unit="mm"), make("wall.count", "b", CHECK)))
    bindings = tomllib.loads(text)["binding"]
    assert [one["setting"] for one in bindings] == ["layer.height"]
    assert '# setting = "wall.count"' in text
    assert "# check: The unit is a guess." in text
    assert "# or: other = 3 (line 9)" in text
    assert "# raft.on" in text.split("Not found")[1]


def test_checks_may_be_accepted(make: Make) -> None:
    text = new_map(suggestion(make("layer.height", "a"), make("wall.count", "b", CHECK)), accept_checks=True)
    assert [one["setting"] for one in tomllib.loads(text)["binding"]] == ["layer.height", "wall.count"]
    assert "accepted unchecked" in text


def test_a_block_is_accepted_by_taking_its_marks_away(make: Make) -> None:
    text = new_map(suggestion(make("layer.height", "a"), make("wall.count", "b", CHECK, on_when="> 0")))
    head, block = text.split("# ---- To be checked ----")
    lines = block.split("\n")
    start = lines.index("# [[binding]]")
    opened = [line[2:] if start <= at < start + 4 else line for at, line in enumerate(lines)]
    assert [one["setting"] for one in tomllib.loads(head + "\n".join(opened))["binding"]] == [
        "layer.height",
        "wall.count",
    ]


@pytest.mark.parametrize(
    "key", ['a"b', "a\\b", "a\nb", 'x"\n[[binding]]\nsetting="raft.on', "ü\x07\x7f", "# no", "'''", '"""']
)
def test_keys_are_only_texts(make: Make, key: str) -> None:
    text = new_map(suggestion(make("layer.height", key), make("wall.count", key + "2", CHECK)))
    assert [one["key"] for one in tomllib.loads(text)["binding"]] == [key]
    key_map, problems = load_text(text)
    if not key.isprintable():  # such a key is never proposed, and a map that holds it is refused
        assert {problem.code for problem in problems} == {"control-character"}
        return
    assert problems == []
    assert key_map is not None


@pytest.mark.parametrize("text", ["plain", 'q"q', "\\", "\x00\x1f\x7f", "ß°µ", "a\tb"])
def test_quoted_texts_are_read_back(text: str) -> None:
    assert tomllib.loads(f"a = {quoted(text)}")["a"] == text


def test_stray_bytes_cannot_be_written() -> None:
    assert not is_one_line("a\udcffb")
    assert is_one_line("aÿb")


def test_remarks_are_wrapped_and_harmless() -> None:
    lines = comment_lines("word " * 60 + "\nnext = 1")
    assert all(line.startswith("#") and len(line) <= 120 for line in lines)
    assert "\\u000a" in lines[-1]


@given(st.one_of(st.booleans(), st.integers(-9, 999), TEXTS, st.lists(TEXTS, max_size=3), TABLES))
def test_every_value_is_read_back_as_it_was(entry: Entry) -> None:
    assert tomllib.loads("\n".join(table_lines("[text]", {"it": entry})))["text"] == {"it": entry}
