"""A recipe for other printers, of what was found on one: the mends that helped, and other rules of this profile
alone.
"""

from __future__ import annotations

import re
from pathlib import Path

from profilesmith.engine.derived_file import laid_in
from profilesmith.engine.mend import road_in
from profilesmith.foundation import toml_reader
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.foundation.toml_values import pair_lines
from profilesmith.ledger.place import ledger_beside
from profilesmith.mend.as_rules import CAUTIONS, LAID, sum_rules
from profilesmith.recipe.as_text import head_text
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.mend_cautions import WHAT_HELPED
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.derived_file import load_ledger
from profilesmith.workflows.mend_said import read_last
from profilesmith.write_files import outputs_free, write_whole


def recipe_from_ledger(derived: str, out: str, last: str = "", overwrite: bool = False) -> Recipe:
    """Write it. last: what came of the newest mend. Raises Refused; then nothing was written."""
    verdict = read_last(last)
    stored = load_ledger(derived)
    rules = sum_rules(road_in(stored, derived), verdict, load_vocabulary())
    for source in laid_in(stored):
        if source.name != LAID:
            content = toml_reader.loads(source.raw.decode("utf-8-sig"))
            rules += ["\n".join(["[[rule]]", *pair_lines(rule), ""]) for rule in content.get("rule", ())]
    if not rules:
        hint = "Say what came of a mend with --last better: only what helped goes into the recipe."
        raise Refused([Problem("no-rule", "Nothing in the ledger is known to have helped.", Place(derived), hint)])
    stem = re.sub("[^a-z0-9]+", "-", Path(out).stem.lower()).strip("-") or "what-helped"
    raw = "\n".join([head_text(stem, WHAT_HELPED, "1.0.0", CAUTIONS), *rules]).encode()
    recipe, problems = load_recipe(raw, out, load_vocabulary())
    inputs = [Path(derived), ledger_beside(Path(derived))]
    refuse_if([*problems, *outputs_free([Path(out)], inputs, overwrite)])
    refuse_if(write_whole({Path(out): raw}, overwrite))
    assert recipe is not None
    return recipe
