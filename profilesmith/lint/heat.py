"""R40x: temperatures above what a material stands, and dangers that a recipe does not speak of."""

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import cache

from profilesmith.checks.cautions import known_cautions
from profilesmith.checks.materials import Material, material, materials
from profilesmith.facts.facts import Hardness
from profilesmith.foundation.quantity import read_quantity
from profilesmith.lint.demands import ActionOnSetting, asked
from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import RecipeFile
from profilesmith.recipe.operations import DIFFERENCE
from profilesmith.recipe.recipe import Fixed, Rule
from profilesmith.vocabulary.load_vocabulary import knowledge

PROPERTIES = {
    "nozzle.temperature": "nozzle_temperature",
    "first_layer.nozzle_temperature": "nozzle_temperature",
    "bed.temperature": "bed_temperature",
    "first_layer.bed_temperature": "bed_temperature",
}
# The words of these cautions tell of heat and what it sets free.
HEAT_CAUTIONS = ("fumes", "fire", "heat", "liner")
HEAT_WORDS = ("heat", "hot", "burn", "°c")
NAME_IT = "let `to` name a material ('profilesmith materials' lists them)"
_SHORE = re.compile(r"([A-Za-z][A-Za-z -]{0,30}?),? ?([0-9]{1,3}) ?(?:Shore )?A")


def target_material(text: str) -> Material | None:
    """The material that ``to`` names: ``flexible PLA``, ``TPU, 95 Shore A``; None for one that is not known."""
    target = material(text)
    shore = _SHORE.fullmatch(text.strip())
    if target is None and shore and int(shore.group(2)) <= 100:
        target = material(shore.group(1), Hardness(Fraction(shore.group(2)), "A"))
    return target


def _too_hot(file: RecipeFile) -> Iterator[Fault]:
    """Against the material that ``to`` names; where it names none that is known, against the one that stands most."""
    known = target_material(file.recipe.target_material)
    spoken_of: set[int] = set()
    for item in asked(file.recipe, file.vocabulary):
        message = "" if item.rule.number in spoken_of else _too_hot_for(item, known)
        if message:
            spoken_of.add(item.rule.number)
            yield Fault(
                message,
                item.rule.place.line,
                "" if known else f"Lower it, take it from the label with an input, or {NAME_IT}.",
            )
    heats = any(_heats(rule, file) and not PROPERTIES.keys().isdisjoint(rule.settings) for rule in file.recipe.rules)
    if known is None and heats and not spoken_of:
        to = file.recipe.target_material
        why = (
            f"{to[:60]!r} is no material that is known" if to else "the recipe does not say to which material it leads"
        )
        line = file.lines.get(("recipe", "to"), file.lines.get(("recipe",)))
        yield Fault(
            f"Its temperatures were not held against a material's: {why}.",
            line,
            f"{NAME_IT.capitalize()}.",
            skipped=True,
        )


def _too_hot_for(item: ActionOnSetting, known: Material | None) -> str:
    """What is wrong with a temperature for a material, or for all of them; "" for nothing."""
    name = PROPERTIES.get(item.setting.id, "")
    able = [one for one in ([known] if known else materials().values()) if name in one.ranges]
    if not able:
        return ""
    usual, most = (
        max(able, key=lambda one: one.ranges[name].high),
        max(able, key=lambda one: plausible_end(one.key, name)),
    )
    reached, bound, end, even = (
        _reached(item),
        item.demand.high,
        plausible_end(most.key, name),
        "" if known else "even ",
    )
    if reached is not None and reached > Fraction(usual.ranges[name].high):
        shown = usual.ranges[name].show()
        return (
            f"{item.setting.id}: {item} goes to {item.setting.show(reached)}; {even}{usual.key} is "
            f"usually printed at {shown}."
        )
    if bound is not None and bound > end:
        return (
            f"{item.setting.id}: {item} allows {item.setting.show(bound)}; nothing above "
            f"{item.setting.show(end)} is plausible {even}for {most.key}."
        )
    return ""


def _reached(item: ActionOnSetting) -> Fraction | None:
    """The temperature that a rule brings a cooler profile to."""
    ends = [end for end in (item.demand.low, item.demand.aim) if isinstance(end, Fraction)]
    return max(ends, default=None)


@cache
def plausible_end(key: str, name: str) -> Fraction:
    """The highest plausible temperature of a material, such as its ``nozzle_temperature``, in °C."""
    end = read_quantity(knowledge("materials.toml")["materials"][key][name]["plausible"][1], "temperature")
    assert not isinstance(end, str)  # the data are ours, and tested
    return end


def _heats(rule: Rule, file: RecipeFile) -> bool:
    """Whether a rule can make something hotter."""
    if not any(file.vocabulary.settings[name].kind == "temperature" for name in rule.settings):
        return False
    for action in rule.actions:
        step = action.operands[0] if action.operands else None
        a_step = action.does.reads == DIFFERENCE
        cooler = a_step and isinstance(step, Fixed) and step.text.lstrip().startswith("-")
        if action.does.raises and not cooler:
            return True
    return False


def _heat_untold(file: RecipeFile) -> Iterator[Fault]:
    words = {word for item in known_cautions() if item.id in HEAT_CAUTIONS for word in item.said} | {*HEAT_WORDS}
    said = " ".join(file.recipe.cautions).casefold()
    heating = next((rule for rule in file.recipe.rules if _heats(rule, file)), None)
    if heating is not None and not any(word in said for word in words):
        yield Fault(
            f"Rule {heating.number} can raise a temperature, and no caution speaks of heat or fumes.",
            heating.place.line,
        )


def _amounts_untold(file: RecipeFile) -> Iterator[Fault]:
    """A scale or shift goes as far as the base does: nothing in the recipe bounds it."""
    for rule in file.recipe.rules:
        if any(action.does.once for action in rule.actions) and not file.recipe.cautions:
            yield Fault(f"Rule {rule.number} scales or shifts, and the recipe has no caution.", rule.place.line)
            return


RULES = (
    LintRule(
        "R401",
        "error",
        "No temperature is above what the material stands",
        (
            "Overheated plastic breaks down and gives off fumes. The ranges are those of 'profilesmith "
            "materials'; a spool's own label goes before them."
        ),
        "Lower it, or take it from the label with an input; if the ranges are wrong, mend them with a source.",
        _too_hot,
        key="recipe.to",
    ),
    LintRule(
        "R402",
        "error",
        "A recipe that heats says so",
        (
            "Hotter plastic gives off more fumes, and a lined hot end can be overheated. Who applies a "
            "stranger's recipe must be told."
        ),
        'Add a text to cautions that speaks of it, such as "Ventilate: hotter plastic gives off more fumes."',
        _heat_untold,
        key="recipe.cautions",
    ),
    LintRule(
        "R403",
        "error",
        "A recipe that scales or shifts has a caution",
        "A share or step has no end of its own: applied twice, or to an odd profile, it goes too far.",
        'Add a text to cautions, such as "Apply it once, and read the review before printing."',
        _amounts_untold,
        key="recipe.cautions",
    ),
)
