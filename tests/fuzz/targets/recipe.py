"""Any bytes as a recipe. What loads also runs its own examples, and is shown."""

from __future__ import annotations

from functools import cache

from profilesmith.library.run_examples import run_examples
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from tests.fuzz.engine import Target
from tests.fuzz.targets import toml_words


def behaviour(data: bytes) -> str:
    vocabulary = load_vocabulary()
    recipe, problems = load_recipe(data, "recipe.toml", vocabulary)
    assert (recipe is None) == bool(problems), "either a recipe or problems"
    for problem in problems:
        assert str(problem), "every problem can be told"
    if recipe is None:
        return toml_words.told(list(problems))
    assert all(setting in vocabulary.settings for rule in recipe.rules for setting in rule.settings), (
        "rules speak of the vocabulary only"
    )
    shown = [rule.demand() for rule in recipe.rules] + [
        item.kind.show(item.default) for item in recipe.inputs.values() if item.default is not None
    ]
    results = run_examples(recipe, vocabulary)
    return f"loaded {min(len(shown), 5)} {len(results)} {sum(bool(result.faults) for result in results)}"


@cache
def seeds() -> list[bytes]:
    whole = toml_words.files("recipe*.toml", "*.toml")
    return [text for text in whole if b"[recipe]" in text and b"[[rule]]" in text]


TARGET = Target("recipe", behaviour, seeds, toml_words.tokens)
