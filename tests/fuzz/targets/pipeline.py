"""The whole: a small text, a map, a recipe and facts in one input, derived in process.

Invariants beyond "a refusal or a result": the audit never finds a fault of our own; without a recipe the bytes stay;
what was derived reads as the derived profile; deriving again changes nothing, unless the recipe scales or shifts.
"""

from __future__ import annotations

from functools import cache, lru_cache, partial
from pathlib import Path

from profilesmith.engine.derive import carry_out, ledger_of
from profilesmith.engine.read import Ingredients, Source, document_of, ingredients
from profilesmith.facts.load_facts import load_facts
from profilesmith.foundation.problem import Refused
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.review.render import Look, render
from profilesmith.text.document import Habits
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from tests.fuzz.engine import Target
from tests.fuzz.targets import document, toml_words

MARK = b"\n%%%%\n"
CASES = Path(__file__).parents[2] / "cases"
FORMS = ("terminal", "markdown", "json", "checklist")


# Most inputs change one part of a known one: the others are read once. What is read is frozen, and must stay so.
_map = lru_cache(maxsize=500)(partial(load_key_map, name="map.toml", vocabulary=load_vocabulary()))
_recipe = lru_cache(maxsize=500)(partial(load_recipe, name="recipe.toml", vocabulary=load_vocabulary()))
_facts = lru_cache(maxsize=500)(lambda raw: load_facts([(raw, "facts.toml")]))


def behaviour(data: bytes) -> str:
    text, key_map, recipe, facts = (*data.split(MARK), b"", b"", b"")[:4]
    follow = len(text) % 2 == 0
    try:
        given = _given(text, key_map, recipe, facts)
        made = carry_out(given.translation, given.recipes, ledger_of(given), follow)
    except Refused as refused:
        codes = {problem.code for problem in refused.problems}
        if "audit" in codes:
            raise AssertionError(f"the audit found a fault of ours: {refused}") from refused
        return " ".join(sorted(codes))
    render(made.review, FORMS[len(data) % len(FORMS)], Look(full=True))
    if made.problems:
        return f"problems {sorted({problem.code for problem in made.problems})}"
    new = made.outputs[0]
    if not recipe:
        assert new == text, "no recipe, no change"
    elif not any(item.once for item in made.recipes):
        given = _given(new, key_map, recipe, facts)
        again = carry_out(given.translation, given.recipes, ledger_of(given), follow, words=False)
        assert not again.problems, "what was derived can be derived again"
        assert again.outputs[0] == new, "deriving again changes nothing"
    return f"derived {sorted({row.status for row in made.ledger.rows})} {new == text}"


def _given(text: bytes, key_map: bytes, recipe: bytes, facts: bytes) -> Ingredients:
    """All parts read, as the engine's own door reads them. Raises Refused with all their problems."""
    read_map, wrong = _map(key_map)
    problems = [*wrong]
    document = document_of(Source("base.cfg", text), read_map.habits if read_map else Habits(), problems)
    recipes = []
    if recipe:
        read_recipe, wrong = _recipe(recipe)
        problems += wrong
        recipes += [read_recipe] if read_recipe else []
    known, wrong = _facts(facts) if facts else ({}, [])
    problems += wrong
    return ingredients([document], read_map, recipes, known, {}, problems)


SMALL = (
    b'format = 1\n[recipe]\nname = "r"\nversion = "1.0.0"\n[[rule]]\n'
    b'setting = "printing speeds"\ncap = "40 mm/s"\nwhy = "w"\n[[rule]]\n'
    b'setting = "nozzle.temperature"\nwindow = ["210 \xc2\xb0C", "220 \xc2\xb0C"]\n'
    b'aim = "215 \xc2\xb0C"\n'
)


@cache
def seeds() -> list[bytes]:
    found = []
    for case in sorted((CASES / "derive").iterdir()):
        base, key_map = case / "base.cfg", case / "map.toml"
        if not base.exists() or not key_map.exists():
            continue
        recipe = next(
            (path.read_bytes() for path in sorted(case.glob("*.toml")) if b"[[rule]]" in path.read_bytes()), SMALL
        )
        facts = next((path.read_bytes() for path in sorted(case.glob("facts*.toml"))), b"")
        found += [MARK.join((base.read_bytes(), key_map.read_bytes(), each, facts)) for each in (recipe, SMALL)]
    return [data for data in found if len(data) < 4000]


def tokens() -> list[bytes]:
    return [*document.tokens(), *toml_words.tokens()]


TARGET = Target("pipeline", behaviour, seeds, tokens)
