"""R701: a recipe that does something else than at the last commit, or another revision, has another version."""

import re
from collections.abc import Iterator
from typing import Any

from profilesmith.foundation.toml_table import parse_toml
from profilesmith.foundation.words import listed
from profilesmith.lint.head_commit import Withheld, committed
from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import RecipeFile

# These may change without a new version: they say nothing of what a recipe does or why.
FREE = ("title", "authors", "goes_with", "version")
NUMBER = "R701"
PATCH = "Raise the middle number: evidence of the old one would count for it; the last number is for words alone."


def _version(file: RecipeFile) -> Iterator[Fault]:
    before = committed(file.names.folder, file.names.head, file.path, file.raw)
    if isinstance(before, Withheld):
        yield Fault(before.why, skipped=True)
        return
    if before is None:
        return
    old, new = _content(before), _content(file.raw)
    if old is None or new is None:
        return  # what was committed was no recipe
    was, is_now = old["version"], file.recipe.version
    line = file.lines.get(("recipe", "version"))
    if was == is_now and old["does"] != new["does"]:
        yield Fault(f"The recipe was changed since {file.names.head.since}, and is still {is_now}.", line)
    elif _parts(is_now) < _parts(was):
        yield Fault(f"The version went back from {was} to {is_now}.", line)
    elif was != is_now and _counted_as(is_now) == _counted_as(was):
        changed = [name for name, words in old["rules"].items() if words != new["rules"][name]]
        if changed:
            message = f"From {was} to {is_now} only the last number was raised, and its {listed(changed)} changed."
            yield Fault(message, line, PATCH)


def _content(raw: bytes) -> dict[str, Any] | None:
    """A recipe's version, and all that it does; None for another text."""
    top, _ = parse_toml(raw, "", "recipe")
    head = top.content.get("recipe") if top else None
    if top is None or not isinstance(head, dict) or not isinstance(head.get("version"), str):
        return None
    stated = {key: value for key, value in head.items() if key not in FREE}
    rest = {key: value for key, value in top.content.items() if key not in ("recipe", "example")}
    return {"version": head["version"], "does": (stated, rest), "rules": _beyond_words(head, top.content)}


def _beyond_words(head: dict[str, Any], content: dict[str, Any]) -> dict[str, Any]:
    """What no patch may change: rules with their conditions, questions, cautions; reasons, sources and wording left
    out.
    """
    rules = content.get("rule")
    inputs = content.get("inputs")
    return {
        "rules": [_without(rule, "why", "source") for rule in rules] if isinstance(rules, list) else rules,
        "inputs": {name: _without(item, "ask") for name, item in inputs.items()}
        if isinstance(inputs, dict)
        else inputs,
        "cautions": head.get("cautions"),
    }


def _without(item: Any, *names: str) -> Any:
    return {key: value for key, value in item.items() if key not in names} if isinstance(item, dict) else item


def _parts(version: str) -> tuple[int, ...]:
    """The three numbers; what follows them orders early versions among themselves and is left out."""
    match = re.match(r"([0-9]{1,9})\.([0-9]{1,9})\.([0-9]{1,9})", version)
    return tuple(int(part) for part in match.groups()) if match else ()


def _counted_as(version: str) -> tuple[object, ...]:
    """What evidence is counted by: the first two numbers, and what orders early versions."""
    return (*_parts(version)[:2], version.partition("-")[2])


RULES = (
    LintRule(
        NUMBER,
        "error",
        "A changed recipe has another version",
        "Evidence counts prints by version. Under an old number it would speak of a recipe that was never tried.",
        (
            "Raise the version: the last number for words, the middle one for new rules, the first "
            "where old results no longer hold."
        ),
        _version,
    ),
)
