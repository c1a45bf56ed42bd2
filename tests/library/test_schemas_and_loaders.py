"""Schemas and loaders say the same of files that were changed at random: keys deleted, renamed, retyped, moved, added.

A schema sees one place at a time. What it cannot judge is named in BEYOND, with the reason: only these codes may be all
that a loader finds in a text that the schema accepts. The other way round there is no exception.
"""

from __future__ import annotations

import copy
import json
import random
import re
import tomllib
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from profilesmith.coupon.load_plan import parse_plan
from profilesmith.coupon.log import LogLine, line_json
from profilesmith.coupon.read_log import parse_log
from profilesmith.evidence.load_evidence import parse_evidence
from profilesmith.evidence.record import Record, record_json
from profilesmith.evidence.tried_mend import TriedMend
from profilesmith.evidence.withdrawal import Withdrawal, withdrawal_json
from profilesmith.facts.load_facts import load_facts
from profilesmith.foundation.package_data import package_text
from profilesmith.foundation.problem import Problem
from profilesmith.library.library import load_library
from profilesmith.library.schemas.load_schema import load_schema
from profilesmith.mend.load_troubles import parse_troubles, shipped_troubles
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

ROOT = Path(__file__).resolve().parents[2]
VOCABULARY = load_vocabulary()
BEYOND = {
    "recipe": {
        "unknown-input": "inputs are named elsewhere in the file",
        "no-setting": "except may leave nothing",
        "operand": "what an input is stands elsewhere; settings of several kinds, and except",
        "when": "what an input is stands elsewhere",
        "default": "a choice's words stand beside it; the order of a window's ends",
    },
    "keymap": {
        "setting-twice": "two bindings",
        "bound-and-not": "what [keymap] says",
        "key-twice": "two bindings",
        "circle": "several bindings",
        "reference-is-bound": "two bindings",
        "half-switch": "what [text] says",
        "on-is-off": "two texts are equal",
        "choice-twice": "two texts are equal",
        "split-list": "two texts are equal",
        "decimal-divides": "what [text] says",
        "comment-in-text": "what [text] says",
        "switch-backward": "whether a number meets the comparison",
        "blanks": "blanks within quotes",
        "lines": "which places stand how often, and what stands between them",
        "control-character": "kinds of characters that patterns do not know",
    },
    "facts": {
        "fact-range": "numbers with units have no order for a schema",
        "fact-value": "the order of a window's ends",
    },
    "library": {"outside": "where a link or a name leads"},
    "evidence": {
        "value": "days that no month has",
        "fact-value": "ranges; the order of a window's ends",
        "setting-value": "ranges",
    },
    "coupon": {
        "range": "numbers with units have no order for a schema",
        "worse": "what [plan] says",
        "setting-value": "ranges",
        "setting-twice": "two factors",
        "factors": "what [plan] says",
        "too-few": "what [plan] says",
        "odd": "what [plan] says",
        "sure": "numbers with units have no order for a schema",
        "within": "what the setting is",
    },
    "troubles": {
        "no-cause": "an empty list",
        "missing": "looks are needed of a new trouble only",
        "empty": "looks are needed of a new trouble only",
        "one-mend": "do and setting exclude one another",
        "unknown-doing": "names of the file",
        "unknown-sign": "names of the file",
        "direction": "what the setting is",
        "step": "what the setting is",
        "most": "what the setting is",
        "to": "what the setting is",
        "when": "conditions are the recipes' own",
        "unknown-fact": "conditions are the recipes' own",
    },
    "coupon-log": {"log-line": "ranges; days that no month has; a note's signs"},
}
POOL: tuple[Any, ...] = (
    "",
    " ",
    "x",
    "1",
    "1.0.0",
    "on",
    "off",
    "40 mm/s",
    "30 %",
    "5 °C",
    "0.2 mm",
    "215",
    "> 3 mm",
    "= PTFE",
    "remote",
    "gyroid",
    "thickness",
    "92 Shore A",
    "mm",
    "length",
    "temperature window",
    "nozzle.temperature",
    "printing speeds",
    "210 °C to 220 °C",
    "last",
    "worked",
    "good",
    0,
    1,
    2,
    -3,
    2.5,
    True,
    False,
    [],
    {},
    ["x"],
    ["210 °C", "220 °C"],
    ["40 mm/s"],
    ["layer.height", "raft.on"],
    {"input": "x"},
    {"fact": "spool.maximum_flow"},
    {"fact": "spool.nozzle_window"},
    {"of": "bead.width"},
    {"of": "outer_wall.speed", "times": 0.5},
    {"flow": "4 mm3/s"},
    {"flow": {"fact": "spool.maximum_flow"}},
    {"x": 1},
)
KEYS = (
    "set",
    "aim",
    "cap",
    "raise_to",
    "window",
    "scale",
    "shift",
    "hold",
    "except",
    "when",
    "why",
    "fact",
    "default",
    "values",
    "goes_with",
    "note",
    "unit",
    "section",
    "relative_to",
    "relative_key",
    "shares",
    "angle_from",
    "choices",
    "on",
    "off",
    "on_when",
    "split",
    "field",
    "tools",
    "list",
    "add",
    "decimal",
    "strict",
    "about",
    "by",
    "unheard_of",
)


def toml(content: dict[str, Any]) -> bytes:
    """A content as TOML, all below the top level inline. JSON's texts are TOML's."""

    def inline(value: Any) -> str:
        if isinstance(value, dict):
            return (
                "{"
                + ", ".join(f"{json.dumps(key, ensure_ascii=False)} = {inline(item)}" for key, item in value.items())
                + "}"
            )
        if isinstance(value, list):
            return "[" + ", ".join(inline(item) for item in value) + "]"
        return json.dumps(value, ensure_ascii=False)

    return "".join(
        f"{json.dumps(key, ensure_ascii=False)} = {inline(value)}\n" for key, value in content.items()
    ).encode()


def spots(node: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """The paths of everything in a content."""
    items = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    return [path, *(spot for key, item in items for spot in spots(item, (*path, key)))]


def at(node: Any, path: tuple[Any, ...]) -> Any:
    for key in path:
        node = node[key]
    return node


def changed(content: dict[str, Any], chance: random.Random) -> dict[str, Any]:
    """A copy with one to three changes."""
    content = copy.deepcopy(content)
    for _ in range(chance.choice((1, 1, 2, 3))):
        path = chance.choice(spots(content)[1:] or [()])
        if not path:
            return content
        parent, key = at(content, path[:-1]), path[-1]
        way = chance.randrange(7)
        if way == 0:
            del parent[key]
        elif way == 1 and isinstance(parent, dict):
            parent[chance.choice((f"{key}x", *KEYS))] = parent.pop(key)
        elif way == 2 and isinstance(parent, dict):
            parent[chance.choice(KEYS)] = copy.deepcopy(chance.choice(POOL))
        elif way == 3:
            parent[key] = copy.deepcopy(at(content, chance.choice(spots(content)[1:])))
        elif way == 4:
            parent[key] = [copy.deepcopy(parent[key])]
        else:
            parent[key] = copy.deepcopy(chance.choice(POOL))
    return content


def beyond(kind: str, problem: Problem, content: dict[str, Any]) -> bool:
    """Whether a schema cannot know of a problem."""
    if problem.code not in BEYOND[kind]:
        return False
    if problem.code == "fact-value":
        return "window" in problem.message or kind == "evidence"
    if problem.code == "when":
        return "when input." in problem.message
    if kind == "recipe" and problem.code == "operand":
        rule = content["rule"][int(problem.place.path.split(",")[0].removeprefix("rule ")) - 1]
        named = rule["setting"] if isinstance(rule["setting"], list) else [rule["setting"]]
        settings = [VOCABULARY.settings[name] for group in named for name in VOCABULARY.expand(group)]
        kinds = {(item.kind, item.values) for item in settings}
        return "except" in rule or len(kinds) > 1 or "'input'" in str(rule)
    return True


def verdict(kind: str, content: dict[str, Any], folder: Path) -> list[Problem]:
    path = folder / ("library.toml" if kind == "library" else "file.toml")
    path.write_bytes(toml(content) if kind != "evidence" else b"")
    if kind == "recipe":
        return load_recipe(path.read_bytes(), "file.toml", VOCABULARY)[1]
    if kind == "keymap":
        return load_key_map(path.read_bytes(), "file.toml", VOCABULARY)[1]
    if kind == "facts":
        return load_facts([(path.read_bytes(), "file.toml")])[1]
    if kind == "library":
        return load_library(folder)[1]
    if kind == "troubles":
        return parse_troubles([(path.read_bytes(), "file.toml")], VOCABULARY, shipped_troubles())[1]
    if kind == "coupon":
        return parse_plan(path.read_bytes(), "file.toml", VOCABULARY)[1]
    if kind == "coupon-log":
        problems = parse_log(json.dumps(content).encode(), "file", None, VOCABULARY).problems
        shaped = isinstance(content.get("id"), str) and bool(re.fullmatch("[0-9a-f]{16}", content["id"]))
        return [problem for problem in problems if not (shaped and problem.code == "id")]
    problems = parse_evidence(json.dumps(content).encode(), "file", VOCABULARY).problems
    # Every change makes the hash a wrong one, which would hide all else: only the shape of an id is compared.
    shaped = isinstance(content.get("id"), str) and bool(re.fullmatch("[0-9a-f]{16}", content["id"]))
    return [problem for problem in problems if not (shaped and problem.code == "id")]


def seeds(kind: str) -> list[dict[str, Any]]:
    if kind == "evidence":
        record = Record(
            date="2030-01-31",
            recipe="slow",
            version="1.0.0",
            outcome="worked",
            judged={"adhesion": "good", "softness": "fair"},
            mark="0123abcd",
            facts={
                "machine.drive": "remote",
                "spool.nozzle_window": "210 °C to 220 °C",
                "spool.hardness": "92 Shore A",
                "spool.maximum_flow": "4 mm3/s",
            },
            values={
                "outer_wall.speed": ("40 mm/s", "30 mm/s"),
                "raft.on": "on",
                "infill.pattern": "gyroid",
                "wall.count": "3",
            },
            note="Held well.",
            together={"part-soft": "1.0.0"},
            by_hand=("raft.on",),
            seen={"stringing": "good"},
            mends=(
                TriedMend(
                    "2030-01-30", {"stringing": "poor"}, ("stringing",), {"raft.on": ("off", "on")}, (), "better"
                ),
                TriedMend(did=("dry the spool",)),
            ),
        )
        gone = Withdrawal("2030-02-01", "slow", record.id, "Another spool.", "0123abce", "somebody")
        return [record_json(record), withdrawal_json(gone)]
    if kind == "coupon-log":
        asked = LogLine("asked", "walls", 3, "2030-01-31", "0123abcd", {"outer_wall.speed": "40 mm/s", "raft.on": "on"})
        graded = LogLine("graded", "walls", 3, "2030-01-31", "0123abce", grade="fair", note="Two hairs.")
        return [line_json(asked), line_json(graded)]
    if kind == "troubles":
        whole = tomllib.loads(package_text("knowledge/troubles.toml"))
        parts = {"sign": whole["sign"][:1], "doing": whole["doing"][:1]}
        return [{"format": 1, **parts, "trouble": [item | {"cause": item["cause"][:2]}]} for item in whole["trouble"]]
    if kind == "coupon":
        return [
            tomllib.loads(path.read_text(encoding="utf-8")) for path in (ROOT / "tests/coupon/plans").glob("*.toml")
        ]
    keys = {"recipe": "rule", "keymap": "binding", "facts": "format", "library": "library"}
    folders = {"facts": ("recipes/facts", "tests/cases/derive"), "library": ("recipes",)}.get(
        kind, ("recipes", "tests/cases/derive")
    )
    found = []
    for path in sorted(path for folder in folders for path in (ROOT / folder).rglob("*.toml")):
        content = tomllib.loads(path.read_text(encoding="utf-8"))
        if (
            keys[kind] in content
            and (kind != "facts" or {"machine", "spool", "part"} & content.keys())
            and "expect" not in content
        ):
            found.append(content)
    return found


ALL_SEEDS: dict[str, Callable[[], list[dict[str, Any]]]] = {kind: (lambda kind=kind: seeds(kind)) for kind in BEYOND}  # type: ignore[misc]
ROUNDS = {
    "recipe": 500,
    "keymap": 500,
    "facts": 600,
    "library": 400,
    "evidence": 600,
    "coupon": 500,
    "troubles": 400,
    "coupon-log": 400,
}


@pytest.mark.parametrize("kind", BEYOND)
def test_schema_and_loader_agree(kind: str, tmp_path: Path) -> None:
    check, chance, sources = Draft202012Validator(load_schema(kind)), random.Random(f"{kind} 1"), ALL_SEEDS[kind]()
    assert sources
    counts: Counter[str] = Counter()
    for _ in range(ROUNDS[kind]):
        content = changed(small(chance.choice(sources), chance), chance)
        valid, problems = check.is_valid(content), verdict(kind, content, tmp_path)
        if valid and problems:
            unknown = [problem for problem in problems if not beyond(kind, problem, content)]
            assert not unknown, f"the schema accepts what the loader refuses: {unknown[0]}\n{content}"
        if not valid:
            assert problems, f"the loader accepts what the schema refuses: {errors(check, content)}\n{content}"
        counts["valid" if valid else "invalid"] += 1
    assert counts["valid"] > ROUNDS[kind] / 30, counts  # both verdicts must have had their chance
    assert counts["invalid"] > ROUNDS[kind] / 3, counts


def errors(check: Draft202012Validator, content: dict[str, Any]) -> list[str]:
    """All that the schema says: worked out only where it is to be read, for it takes longer than the verdict."""
    return [f"{list(error.absolute_path)}: {error.message[:300]}" for error in check.iter_errors(content)]


def small(content: dict[str, Any], chance: random.Random) -> dict[str, Any]:
    """A few rules or bindings of a file, so that changes meet them more often and the run is short."""
    content = copy.deepcopy(content)
    for key in ("rule", "binding", "example", "profile"):
        if isinstance(content.get(key), list) and len(content[key]) > 2:
            content[key] = chance.sample(content[key], 2)
    return content
