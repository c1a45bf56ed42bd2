"""A Recipe alone to a Sheet, for a person who has no settings text: every bound in words that anybody can follow."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from profilesmith.facts.facts import fact_kinds
from profilesmith.foundation.number import decimal_text
from profilesmith.foundation.quantity import read_quantity, show_quantity
from profilesmith.ledger import Asked
from profilesmith.recipe.operations import VALUE
from profilesmith.recipe.recipe import (
    Action,
    Clause,
    CountRef,
    FactRef,
    Fixed,
    FlowRef,
    InputRef,
    Operand,
    Recipe,
    Rule,
    SettingRef,
    parts,
)
from profilesmith.review.bounds import looser, only_bounds
from profilesmith.review.render.names import trade_name, trade_words
from profilesmith.review.render.sheet.combine import AskedStep, combined, contradiction
from profilesmith.review.render.sheet.sheet import Ask, Item, Sheet, SheetPart, SheetReason, Step
from profilesmith.vocabulary.setting import Setting, Unreadable, Vocabulary, read_value

LEAD = (
    "You need no file for this, only the screen on which your settings stand. Save them under a new name first.",
    "Go from box to box. A number that already fits stays as it is; one that does not goes to the nearest that fits.",
    "What your software does not have, leave out. Where it shows another unit, change the number into that unit.",
)
# A bead that many printers lay, for an example of what a flow means as a speed.
EXAMPLE_WIDTH, EXAMPLE_HEIGHT = Fraction("0.45"), Fraction("0.2")
_SIGNS = {">": "above", ">=": "at least", "<": "below", "<=": "at most", "=": "exactly", "!=": "not"}


def recipes_sheet(recipes: Sequence[Recipe], vocabulary: Vocabulary) -> Sheet:
    """One sheet of several recipes: of their bounds the strictest, of their aims the last, each question asked once."""
    asked: dict[str, Ask] = {}
    writers = [_Writer(recipe, vocabulary, asked) for recipe in recipes]
    areas: dict[str, list[Item]] = {title: [] for title in vocabulary.areas.values()}
    stop: list[str] = []
    for name, setting in vocabulary.settings.items():
        together = combined([writer.all_steps(setting) for writer in writers])
        steps = _strictest(together)
        if steps:
            areas[vocabulary.areas[setting.area]].append(Item(trade_name(name), tuple(dict.fromkeys(steps))))
        stop += contradiction(trade_name(name), together)
    once = ("It multiplies or adds: do this once, never to its own result.",) if any(r.once for r in recipes) else ()
    return Sheet(
        title=" + ".join(recipe.title or recipe.name for recipe in recipes),
        subject=" + ".join(_subject(recipe) for recipe in recipes),
        lead=LEAD + once,
        parts=tuple(SheetPart(title, tuple(items)) for title, items in areas.items() if items),
        stop=tuple(stop),
        asks=tuple(asked.values()),
        cautions=tuple(dict.fromkeys(text for recipe in recipes for text in recipe.cautions)),
        reasons=tuple(
            _reason(rule, recipe if len(recipes) > 1 else None)
            for recipe in recipes
            for rule in recipe.rules
            if rule.why
        ),
    )


def _subject(recipe: Recipe) -> str:
    origin = f"from {recipe.source_material} to {recipe.target_material}" if recipe.target_material else ""
    return ", ".join(part for part in (f"{recipe.name} {recipe.version}", origin) if part)


def _strictest(steps: list[AskedStep]) -> list[Step]:
    """Without the bounds that a stricter one makes idle: one that always holds, or holds under the same condition.

    A number that an answer may replace is no known bound.
    """
    bounds, only = [only_bounds(item.asked) for item in steps], [item.step.only for item in steps]
    kept = list(range(len(steps)))
    for number in reversed(range(len(steps))):
        others = [bounds[other] for other in kept if other != number and only[other] in ("", only[number])]
        if looser(bounds[number], others):
            kept.remove(number)
    return [steps[number].step for number in kept]


def _reason(rule: Rule, recipe: Recipe | None) -> SheetReason:
    """recipe: to be named, where the sheet is of several."""
    names = rule.named if len(rule.named) <= 3 else (*rule.named[:3], "...")
    sources = (f"{recipe.name} {recipe.version}, rule {rule.number}" if recipe else "", rule.source)
    return SheetReason(", ".join(trade_name(name) for name in names), rule.why, "; ".join(filter(None, sources)))


def _example(flow: Fraction) -> str:
    """What a flow means as a speed, rounded down: an example must not lie above its own limit."""
    speed = Fraction(flow / (EXAMPLE_WIDTH * EXAMPLE_HEIGHT) // 1)
    width, height = (show_quantity(value, "length") for value in (EXAMPLE_WIDTH, EXAMPLE_HEIGHT))
    return (
        f"For {show_quantity(flow, 'flow')} and a bead {width} wide and {height} high: {show_quantity(speed, 'speed')}."
    )


def _known(action: Action, setting: Setting) -> tuple[Asked, ...]:
    """What an action asks, where it says so itself."""
    texts = [operand.text for operand in action.operands if isinstance(operand, Fixed)]
    values = [value for text in texts if not isinstance(value := read_value(setting, text), Unreadable)]
    known = action.does.reads == VALUE and len(values) == len(action.operands)
    return (action.asked(values),) if known else ()


class _Writer:
    """Words for operands; notes which questions the boxes refer to."""

    def __init__(self, recipe: Recipe, vocabulary: Vocabulary, asked: dict[str, Ask]) -> None:
        """asked: the questions of the whole sheet, which its recipes share."""
        self.recipe, self.vocabulary, self.asked = recipe, vocabulary, asked

    def all_steps(self, setting: Setting) -> list[AskedStep]:
        return [step for rule in self.recipe.rules if setting.id in rule.settings for step in self.steps(rule, setting)]

    def label(self) -> str:
        count = len(self.asked)
        return chr(ord("A") + count) if count < 26 else str(count)

    def ask(self, subject: str) -> str:
        """The label of the question after an input (``input.name``) or a fact."""
        item = self.recipe.inputs.get(subject.removeprefix("input.")) if subject.startswith("input.") else None
        name = item.fact if item is not None and item.fact else subject
        if name.startswith("input."):  # another recipe's input of that name is another question
            name = f"{self.recipe.name} {name}"
        if name not in self.asked:
            known = (
                "" if item is None or item.default is None else f"If nobody can say: {item.kind.show(item.default)}."
            )
            words = item.ask if item is not None else fact_kinds()[name].ask
            self.asked[name] = Ask(self.label(), words, known or "If nobody can say, leave out what depends on it.")
        return self.asked[name].label

    def steps(self, rule: Rule, setting: Setting) -> list[AskedStep]:
        """One step for each action; an aim comes last, since it is followed inside the bounds."""
        only = " and ".join(self.clause(clause) for clause in rule.when)
        actions = sorted(rule.actions, key=lambda action: action.does.is_aim)
        return [
            AskedStep(self.step(action, setting)._replace(only=only), _known(action, setting), action.does.is_aim)
            for action in actions
        ]

    def clause(self, clause: Clause) -> str:
        label = self.ask(clause.subject)
        if clause.against is not None:
            return f"answer {label} is the same as answer {self.known(clause.against)[0]}"
        if clause.comparison is not None:
            return f"answer {label} is {_SIGNS[clause.comparison.sign]} {clause.comparison.operand}"
        return f"answer {label} is {' or '.join(clause.words)}"

    def step(self, action: Action, setting: Setting) -> Step:
        words, answers = zip(*(self.operand(operand, action, setting) for operand in action.operands), strict=True)
        product = action.does.products.get(words[0])
        phrase, how = action.does.by_hand if product is None else product.by_hand
        # A default counts only until somebody knows better.
        detail = "; ".join(part for part in (*dict.fromkeys(answers), how) if part)
        return Step(action.does.words(words, phrase), detail)

    def operand(self, operand: Operand, action: Action, setting: Setting) -> tuple[str, str]:
        """(the value in words, whose answer goes before it)"""
        if isinstance(operand, Fixed):
            # A share, a difference or a name is no value of the setting: it stays as the recipe writes it.
            if action.does.reads != VALUE:
                return operand.text, ""
            value = read_value(setting, operand.text)
            return (operand.text if isinstance(value, Unreadable) else setting.show(value)), ""
        if isinstance(operand, SettingRef):
            times = "" if operand.times == 1 else f"{decimal_text(operand.times * 100, 2)} % of "
            return f"{times}the {trade_words(operand.setting)}{f' plus {operand.plus}' if operand.plus else ''}", ""
        if isinstance(operand, FlowRef):
            return f"speed {self.work_out(operand.flow)}", ""
        if isinstance(operand, CountRef):
            return self.count(operand), ""
        label, default = self.known(operand)
        return (default, f"or what answer {label} says") if default else (f"answer {label}", "")

    def count(self, operand: CountRef) -> str:
        """``as many beads as make 0.9 mm and answer A``: for whoever counts them at the machine."""
        lengths = []
        for part in parts(operand):
            label, default = ("", str(part)) if isinstance(part, Fixed) else self.known(part)  # type: ignore[arg-type]
            lengths.append(default if not label else f"answer {label}{f' (else {default})' if default else ''}")
        return f"as many {operand.what.removesuffix('_for')} as make {' and '.join(lengths)}"

    def known(self, operand: InputRef | FactRef) -> tuple[str, str]:
        """The label of the question, and the default in words, "" for none."""
        item = self.recipe.inputs.get(operand.name) if isinstance(operand, InputRef) else None
        label = self.ask(f"input.{operand.name}" if isinstance(operand, InputRef) else operand.name)
        return label, item.kind.show(item.default) if item is not None and item.default is not None else ""

    def work_out(self, operand: Fixed | InputRef | FactRef) -> str:
        """The label of a speed that follows from a flow.

        A rectangle of the bead's width and height holds somewhat more than the bead, so the speed lies on the safe
        side.
        """
        item = self.recipe.inputs.get(operand.name) if isinstance(operand, InputRef) else None
        flow: object
        if isinstance(operand, Fixed):
            flow = read_quantity(operand.text, "flow")
            named = show_quantity(flow, "flow") if isinstance(flow, Fraction) else operand.text
        else:
            flow, named = item.default if item is not None else None, f"answer {self.known(operand)[0]}"
        key = f"speed of {named}"
        if key not in self.asked:
            example = _example(flow) if isinstance(flow, Fraction) else ""
            words = f"Work out a speed: divide {named} (mm³/s) by the bead width and by the layer height (mm)."
            self.asked[key] = Ask(self.label(), words, example)
        return self.asked[key].label
