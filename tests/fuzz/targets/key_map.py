"""Any bytes as a key map. What loads is also put to use: it reads a small text and says what it read."""

from __future__ import annotations

from functools import cache

from profilesmith.text.read_document import read_document
from profilesmith.translation.document_to_profile import translate
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from tests.fuzz.engine import Target
from tests.fuzz.targets import toml_words


def behaviour(data: bytes) -> str:
    vocabulary = load_vocabulary()
    key_map, problems = load_key_map(data, "map.toml", vocabulary)
    assert (key_map is None) == bool(problems), "either a map or problems"
    for problem in problems:
        assert str(problem), "every problem can be told"
    if key_map is None:
        return toml_words.told(list(problems))
    lines = [
        f"{binding.key} = {value}"
        for binding, value in zip(key_map.bindings, ("3", "0.2", "on", "50%", "1,2", "a/b", "x") * 300, strict=False)
    ]
    document = read_document("\n".join(lines).encode("utf-8", "surrogatepass"), "text", key_map.habits)
    made = translate((document,), key_map, vocabulary)
    return f"{len(made.profile.entries)} {toml_words.told(list(made.problems))}"


@cache
def seeds() -> list[bytes]:
    return toml_words.files("map.toml", "keymap*.toml", "keymaps/*.toml")


TARGET = Target("keymap", behaviour, seeds, toml_words.tokens)
