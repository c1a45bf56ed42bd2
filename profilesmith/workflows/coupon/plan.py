"""A new plan from what the user names; the loader itself says whether it is one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from profilesmith.coupon.load_plan import parse_plan
from profilesmith.coupon.plan import Plan
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean, refuse_if
from profilesmith.foundation.toml_values import pair_lines
from profilesmith.recipe.operations import BY_NAME, VALUE
from profilesmith.recipe.recipe import Fixed, Recipe
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import SEE_SETTINGS, Setting
from profilesmith.workflows.coupon.files import mark
from profilesmith.workflows.read import read_recipes
from profilesmith.write_files import outputs_free, write_whole

FASTER_IS_WORSE = ("speed", "acceleration", "flow")


class Wish(NamedTuple):
    """What was named on the command line. factors: ``SETTING=LOW to HIGH``. library: where recipes are looked for."""

    kind: str
    factors: tuple[str, ...]
    judged: str
    recipes: tuple[str, ...] = ()
    worse: str = ""
    within: str = ""
    sure: str = ""
    most: int | None = None
    blind: bool = False
    about: str = ""
    bases: tuple[str, ...] = ()
    key_map: str = ""
    facts: tuple[str, ...] = ()
    start_block: str = ""
    library: Path | None = None


def make_plan(wish: Wish, out: str, overwrite: bool = False) -> Plan:
    """Write a plan. Raises Refused; then nothing was written."""
    problems: list[Problem] = []
    recipes = read_recipes(wish.recipes, wish.library, problems)
    refuse_if(problems)
    raw = plan_text(wish, Path(out).stem, recipes, mark()).encode()
    plan, problems = parse_plan(raw, out, load_vocabulary())
    refuse_if(problems)
    assert plan is not None
    refuse_if(outputs_free([Path(out)], (), overwrite))
    refuse_if(write_whole({Path(out): raw}, overwrite))
    return plan


def plan_text(wish: Wish, name: str, recipes: Sequence[Recipe], drawn: str) -> str:
    """The plan's TOML. Raises Refused for a factor that is none."""
    head = {
        "name": name,
        "kind": wish.kind,
        "judged": wish.judged,
        "about": wish.about,
        "way": "blind" if wish.blind else "",
        "recipes": list(wish.recipes),
        "bases": list(wish.bases),
        "keymap": wish.key_map,
        "facts": list(wish.facts),
        "start_block": wish.start_block,
        "mark": drawn,
    }
    stop = {"within": wish.within, "sure": wish.sure, "most": wish.most}
    lines = ["format = 1", "", "[plan]", *_entries(head)]
    for factor in wish.factors:
        lines += ["", "[[factor]]", *_entries(_factor(factor, wish, recipes))]
    if any(stop.values()):
        lines += ["", "[stop]", *_entries(stop)]
    return "\n".join(lines) + "\n"


def _entries(table: Mapping[str, object]) -> list[str]:
    return pair_lines({key: value for key, value in table.items() if value not in ("", None, [])})


def _factor(text: str, wish: Wish, recipes: Sequence[Recipe]) -> dict[str, object]:
    name, has_ends, ends = text.partition("=")
    low, is_range, high = ends.partition(" to ")
    if not (has_ends and is_range):
        hint = 'Write SETTING=LOW to HIGH, such as "outer_wall.speed=12 mm/s to 90 mm/s".'
        raise Refused([Problem("factor", f"{text!r} names no setting with two ends.", Place("--factor"), hint)])
    setting = load_vocabulary().settings.get(name.strip())
    if setting is None:
        hint = did_you_mean(name.strip(), load_vocabulary().settings, SEE_SETTINGS)
        raise Refused(
            [Problem("unknown-setting", f"The setting {name.strip()!r} is not known.", Place("--factor"), hint)]
        )
    factor: dict[str, object] = {"setting": setting.id, "range": [low.strip(), high.strip()]}
    if wish.kind == "threshold":
        worse = wish.worse or ("high" if setting.kind in FASTER_IS_WORSE else "")
        factor |= {"worse": worse, "around": recipe_value(setting, recipes)}
    return factor


def _says_a_value(operation: str) -> bool:
    """Whether an operation names one value: a bound, an aim, exactly this; no window and no step."""
    known = BY_NAME[operation]
    return known.operands == 1 and known.reads == VALUE


def recipe_value(setting: Setting, recipes: Sequence[Recipe]) -> str:
    """Where the recipes have a setting: the last plain bound on it without a condition, "" where there is none."""
    text = ""
    for rule in (rule for recipe in recipes for rule in recipe.rules):
        if setting.id in rule.settings and not rule.when:
            for action in rule.actions:
                if isinstance(action.operands[0], Fixed) and _says_a_value(action.operation):
                    text = action.operands[0].text
    return text
