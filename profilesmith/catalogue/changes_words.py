"""Changes of a recipe, and what they do to profiles, in words for a pull request: plain text that is Markdown, too."""

from collections.abc import Iterator, Mapping

from profilesmith.catalogue.asks import rule_asks
from profilesmith.catalogue.catalogue import RecipeVersion
from profilesmith.catalogue.effect_words import effect_head
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.words import plural
from profilesmith.recipe.recipe import Input, Rule
from profilesmith.revision.meaning import direction
from profilesmith.revision.recipe_changes import ItemChange, RecipeChanges, RuleChange
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

_HEAD = {
    "title": "title",
    "from": "material that it starts from",
    "to": "material that it leads to",
    "licence": "licence",
    "authors": "authors",
    "cautions": "cautions",
    "goes_with": "recipes that it goes with",
}
SAME_VERSION = "Both are version {}, but do not do the same: raise the version, since evidence counts prints by it."


Item = tuple[str, ...]
"""One thing that changed: what it is, and lines on it."""


class ChangesSummary(NamedTuple):
    """sentence: all in one. blocks: a heading and what stands below it. warning: "" for none."""

    sentence: str
    blocks: tuple[tuple[str, tuple[Item, ...]], ...] = ()
    warning: str = ""


def summary_of(changes: RecipeChanges) -> ChangesSummary:
    """What changed; a summary alone where nothing did."""
    old, new = changes.old, changes.new
    if not changes.any:
        order = " The rules stand in another order, which changes nothing." if changes.moved else ""
        return ChangesSummary(f"no difference.{order}")
    parts: tuple[tuple[str, Iterator[Item]], ...] = (
        ("Rules that came", (_whole(rule, new.inputs) for rule in changes.came)),
        ("Rules that went", (_whole(rule, old.inputs) for rule in changes.went)),
        ("Rules that changed", (_changed(change, changes) for change in changes.changed)),
        ("Order that counts", _order(changes)),
        ("Questions", ((_question(item),) for item in changes.inputs)),
        ("About the recipe", ((line,) for item in changes.head for line in _about(item))),
    )
    blocks = tuple((heading, block) for heading, items in parts if (block := tuple(items)))
    warned = (old.name, old.version) == (new.name, new.version) and changes.does
    return ChangesSummary(_summary(changes), blocks, SAME_VERSION.format(new.version) if warned else "")


def changes_lines(changes: RecipeChanges) -> list[str]:
    """All of it; one line where nothing changed."""
    old, new, summary = changes.old, changes.new, summary_of(changes)
    later = new.version if old.name == new.name else f"{new.name} {new.version}"
    title = f"{old.name} {old.version}" + ("" if later == old.version else f" → {later}")
    lines = [f"{title}: {summary.sentence}"]
    for heading, items in summary.blocks:
        lines += ["", heading]
        for first, *more in items:
            lines += [f"- {first}", *(f"  {line}" for line in more)]
    return [*lines, "", summary.warning] if summary.warning else lines


def _summary(changes: RecipeChanges) -> str:
    counts = (
        (len(changes.came), "rule", "came"),
        (len(changes.went), "rule", "went"),
        (len(changes.changed), "rule", "changed"),
        (len(changes.inputs), "question", "changed"),
        (changes.examples_came, "example", "came"),
        (changes.examples_went, "example", "went"),
    )
    clauses = [f"{plural(count, what)} {verb}" for count, what, verb in counts if count]
    return ", ".join(clauses or ["its rules do what they did"]) + "."


def rule_name(rule: Rule) -> str:
    """The settings of a rule as its recipe names them."""
    vocabulary = load_vocabulary()
    meant = {member for name in rule.named for member in vocabulary.expand(name)}
    left_out = sorted(meant - set(rule.settings))
    return ", ".join(rule.named) + (f" except {', '.join(left_out)}" if left_out else "")


def _demand(rule: Rule, inputs: Mapping[str, Input]) -> str:
    return f"{rule_asks(rule, inputs)}{_when(rule)}"


def _when(rule: Rule) -> str:
    return f", when {' and '.join(str(clause) for clause in rule.when)}" if rule.when else ""


def _whole(rule: Rule, inputs: Mapping[str, Input]) -> Item:
    reason = f"{rule.why or 'No reason is given.'} Source: {rule.source or 'not said'}."
    return f"{rule_name(rule)}: {_demand(rule, inputs)} (rule {rule.number})", *(
        (reason,) if rule.why or rule.source else ()
    )


def _changed(change: RuleChange, changes: RecipeChanges) -> Item:
    new = change.new
    in_parts = change.parts & {"bound", "condition"}
    asks = "" if in_parts else f": {_demand(new, changes.new.inputs)}"
    return f"{rule_name(new)}{asks} (rule {new.number})", *_parts_in_words(change, changes)


def _parts_in_words(change: RuleChange, changes: RecipeChanges) -> Iterator[str]:
    old, new = change.old, change.new
    if "settings" in change.parts:
        yield f"speaks of: {rule_name(new)}; was: {rule_name(old)}"
    if "bound" in change.parts:
        is_now, was, way = rule_asks(new, changes.new.inputs), rule_asks(old, changes.old.inputs), direction(old, new)
        yield f"asks: {is_now}; was: {was}{f' ({way} now)' if way else ''}"
    if "condition" in change.parts:
        is_now, was = (_when(rule).removeprefix(", ") or "always" for rule in (new, old))
        yield f"holds: {is_now}; was: {was}"
    for name, heading in (("why", "reason"), ("source", "source")):
        if name in change.parts:
            yield f"{heading}: {getattr(new, name) or 'none'}"
            yield f"{heading} before: {getattr(old, name) or 'none'}"


def _order(changes: RecipeChanges) -> Iterator[Item]:
    for one, other in changes.reordered:
        yield (
            f"{rule_name(other.new)}: {_demand(other.new, changes.new.inputs)} (rule "
            f"{other.new.number}) now counts over"
            f" {_demand(one.new, changes.new.inputs)} (rule {one.new.number}); it was the other way round",
        )


def _question(item: ItemChange) -> str:
    if item.old is None:
        default = f"; else {item.new['default']}" if item.new["default"] else ""
        return f"came: {item.name}: {item.new['ask']}{default}"
    if item.new is None:
        return f"went: {item.name}: {item.old['ask']}"
    names = {"kind": "kind", "fact": "fact that answers it", "default": "default", "ask": "question"}
    answers = [
        f"{word} {item.new[key] or 'none'}; was {item.old[key] or 'none'}"
        for key, word in names.items()
        if item.old[key] != item.new[key]
    ]
    return f"{item.name}: {'; '.join(answers)}"


def _about(item: ItemChange) -> Iterator[str]:
    if isinstance(item.new, list):
        yield from (f"{_HEAD[item.name]}: came: {text}" for text in item.new if text not in item.old)
        yield from (f"{_HEAD[item.name]}: went: {text}" for text in item.old if text not in item.new)
    else:
        yield f"{_HEAD[item.name]}: {item.new or 'none'}; was {item.old or 'none'}"


class VersionWords(NamedTuple):
    """A version for a page. summary: "" of the first. effects: on a profile, in lines."""

    version: str
    day: str
    summary: str
    blocks: tuple[tuple[str, tuple[Item, ...]], ...]
    effects: tuple[tuple[str, tuple[str, ...]], ...]


def version_words(item: RecipeVersion) -> VersionWords:
    """What a version changed, and what that does to the reference profiles."""
    summary = ChangesSummary("") if item.changes is None else summary_of(item.changes)
    return VersionWords(item.version, item.day, summary.sentence, summary.blocks, tuple(map(effect_head, item.effects)))
