"""R40x: temperatures above what a material stands, and dangers that a recipe does not speak of."""

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import cache

from profilesmith.checks.cautions import known_cautions
from profilesmith.checks.materials import Material, material
from profilesmith.facts.facts import Hardness
from profilesmith.foundation.quantity import read_quantity
from profilesmith.lint.demands import Asked, asked
from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import RecipeFile
from profilesmith.recipe.recipe import Fixed, Rule
from profilesmith.vocabulary.load_vocabulary import knowledge

PROPERTIES = {
    "nozzle.temperature": "nozzle_temperature", "first_layer.nozzle_temperature": "nozzle_temperature",
    "bed.temperature": "bed_temperature", "first_layer.bed_temperature": "bed_temperature",
}  # fmt: skip
# The words of these cautions tell of heat and what it sets free.
HEAT_CAUTIONS = ("fumes", "fire", "heat", "liner")
HEAT_WORDS = ("heat", "hot", "burn", "°c")
_SHORE = re.compile(r"([A-Za-z][A-Za-z -]{0,30}?),? ?([0-9]{1,3}) ?(?:Shore )?A")


def target_material(text: str) -> Material | None:
    """The material that ``to`` names: ``flexible PLA``, ``TPU, 95 Shore A``; None for one that is not known."""
    found = material(text)
    shore = _SHORE.fullmatch(text.strip())
    if found is None and shore and int(shore.group(2)) <= 100:
        found = material(shore.group(1), Hardness(Fraction(shore.group(2)), "A"))
    return found


def _too_hot(file: RecipeFile) -> Iterator[Fault]:
    known = target_material(file.recipe.target_material)
    if known is None:
        return
    told: set[int] = set()
    for item in asked(file.recipe, file.vocabulary):
        name = PROPERTIES.get(item.setting.id)
        if name is None or name not in known.ranges or item.rule.number in told:
            continue
        reached, allowed = _reached(item), Fraction(known.ranges[name].high)
        bound, most = item.demand.high, plausible_end(known.key, name)
        if reached is not None and reached > allowed:
            told.add(item.rule.number)
            usual = known.ranges[name].show()
            yield Fault(f"{item.setting.id}: {item} goes to {item.setting.show(reached)}; {known.key} is usually printed at {usual}.", item.rule.place.line)
        elif bound is not None and bound > most:
            told.add(item.rule.number)
            shown = item.setting.show(most)
            yield Fault(f"{item.setting.id}: {item} allows {item.setting.show(bound)}; nothing above {shown} is plausible for {known.key}.", item.rule.place.line)


def _reached(item: Asked) -> Fraction | None:
    """The temperature that a rule brings a cooler profile to."""
    ends = [end for end in (item.demand.low, item.demand.aim) if isinstance(end, Fraction)]
    return max(ends, default=None)


@cache
def plausible_end(key: str, name: str) -> Fraction:
    """The highest plausible temperature of a material, such as its ``nozzle_temperature``, in °C."""
    found = read_quantity(knowledge("materials.toml")["materials"][key][name]["plausible"][1], "temperature")
    assert not isinstance(found, str)  # the data are ours, and tested
    return found


def _heats(rule: Rule, file: RecipeFile) -> bool:
    """Whether a rule can make something hotter."""
    if not any(file.vocabulary.settings[name].kind == "temperature" for name in rule.settings):
        return False
    for action in rule.actions:
        step = action.operands[0] if action.operands else None
        cooler = action.operation == "shift" and isinstance(step, Fixed) and step.text.lstrip().startswith("-")
        if action.operation in ("set", "aim", "raise_to", "window", "shift") and not cooler:
            return True
    return False


def _heat_untold(file: RecipeFile) -> Iterator[Fault]:
    words = {word for item in known_cautions() if item.id in HEAT_CAUTIONS for word in item.said} | {*HEAT_WORDS}
    said = " ".join(file.recipe.cautions).casefold()
    heating = next((rule for rule in file.recipe.rules if _heats(rule, file)), None)
    if heating is not None and not any(word in said for word in words):
        yield Fault(f"Rule {heating.number} can raise a temperature, and no caution speaks of heat or fumes.", heating.place.line)


def _amounts_untold(file: RecipeFile) -> Iterator[Fault]:
    """A scale or shift goes as far as the base does: nothing in the recipe bounds it."""
    for rule in file.recipe.rules:
        if any(action.operation in ("scale", "shift") for action in rule.actions) and not file.recipe.cautions:
            yield Fault(f"Rule {rule.number} scales or shifts, and the recipe has no caution.", rule.place.line)
            return


RULES = (
    LintRule(
        "R401", "error", "No temperature is above what the material stands",
        "Overheated plastic breaks down and gives off fumes. The ranges are those of 'profilesmith materials'; a spool's own label goes before them.",
        "Lower it, or take it from the label with an input; if the ranges are wrong, mend them with a source.", _too_hot,
    ),
    LintRule(
        "R402", "error", "A recipe that heats says so",
        "Hotter plastic gives off more fumes, and a lined hot end can be overheated. Who applies a stranger's recipe must be told.",
        'Add a text to cautions that speaks of it, such as "Ventilate: hotter plastic gives off more fumes."', _heat_untold,
    ),
    LintRule(
        "R403", "error", "A recipe that scales or shifts has a caution",
        "A share or step has no end of its own: applied twice, or to an odd profile, it goes too far.",
        'Add a text to cautions, such as "Apply it once, and read the review before printing."', _amounts_untold,
    ),
)  # fmt: skip
