"""A recipe file to a Recipe, or all of its mistakes in one run. A recipe is a stranger's text: everything is
bounded.
"""

from __future__ import annotations

from profilesmith.facts.facts import SEE_FACTS, FactKind, fact_kinds, read_fact, why_not
from profilesmith.foundation.late_pattern import late
from profilesmith.foundation.problem import Problem, did_you_mean
from profilesmith.foundation.quantity import CANONICAL
from profilesmith.foundation.toml_table import TomlTable, TooManyMistakes, parse_toml
from profilesmith.recipe.read_rule import read_rule
from profilesmith.recipe.recipe import Example, Input, Recipe
from profilesmith.vocabulary.setting import SEE_SETTINGS, Vocabulary

MOST_RULES = 500
VERSION = late(
    r"(0|[1-9][0-9]{0,8})\.(0|[1-9][0-9]{0,8})\.(0|[1-9][0-9]{0,8})"
    r"(-[0-9A-Za-z.-]{1,64})?(\+[0-9A-Za-z.-]{1,64})?"
)


def load_recipe(raw: bytes, name: str, vocabulary: Vocabulary) -> tuple[Recipe | None, list[Problem]]:
    """Read and check a recipe from a file's bytes. name: the file as the user named it."""
    top, problems = parse_toml(raw, name, "recipe")
    if top is None:
        return None, problems
    recipe = what_reads(top, vocabulary)
    if recipe is None or top.file.problems:
        return None, top.file.problems
    return recipe._replace(raw=raw), []


def _is_version(text: str) -> bool:
    """Whether a text is a semantic version. Most are three plain numbers, which needs no pattern."""
    parts = text.split(".")
    plain = (part.isascii() and part.isdigit() and len(part) <= 9 and (part[0] != "0" or part == "0") for part in parts)
    return (len(parts) == 3 and all(plain)) or VERSION.fullmatch(text) is not None


def what_reads(top: TomlTable, vocabulary: Vocabulary) -> Recipe | None:
    """What could be read of a recipe; the rest is in its file's problems. None: it has too many. With problems it is
    not to be applied.
    """
    try:
        return _read(top, top.file.name, vocabulary)
    except TooManyMistakes:
        return None


def _read(top: TomlTable, name: str, vocabulary: Vocabulary) -> Recipe:
    head = top.table("recipe", required=True)
    title, version = head.text("name", required=True), head.text("version", required=True)
    if version and not _is_version(version):
        head.complain(
            "version",
            f"The version {version!r} is not a version such as 1.0.0.",
            "version",
            "Write three numbers with points between them.",
        )
    inputs = {key: _input(table, key) for key, table in _named_tables(top, "inputs")}
    known = {key: item for key, item in inputs.items() if item is not None}
    tables = list(top.tables("rule"))
    if not tables:
        top.complain("no-rule", "The recipe has no rule.", "", "Add a [[rule]].")
    if len(tables) > MOST_RULES:
        top.complain("too-many", f"The recipe has more than {MOST_RULES} rules.", "", "Split it into several recipes.")
    rules = [read_rule(table, number, vocabulary, known) for number, table in enumerate(tables[:MOST_RULES], 1)]
    recipe = Recipe(
        name=title,
        version=version,
        title=head.text("title"),
        source_material=head.text("from"),
        target_material=head.text("to"),
        licence=head.text("licence"),
        authors=head.texts("authors") or (),
        cautions=head.texts("cautions") or (),
        goes_with=head.texts("goes_with") or (),
        inputs=known,
        file=name,
        rules=tuple(rule for rule in rules if rule is not None),
        examples=tuple(_example(table, vocabulary, known) for table in top.tables("example")),
    )
    head.done()
    top.done()
    return recipe


def _named_tables(top: TomlTable, key: str) -> list[tuple[str, TomlTable]]:
    outer = top.table(key)
    return [(name, outer.table(name)) for name, _ in outer.entries()]


def input_kind(name: str, text: str, values: tuple[str, ...]) -> FactKind | None:
    """``temperature window``, ``flow``, ``choice``, ``hardness``, ...: the kind of an input, or None."""
    quantity, _, window = text.partition(" ")
    if text in ("choice", "text", "hardness"):
        return FactKind(name=name, kind=text, meaning="", ask="", values=values)
    if quantity in CANONICAL and window in ("", "window"):
        return FactKind(name=name, kind=window or "quantity", meaning="", ask="", unit_kind=quantity)
    return None


def _input(table: TomlTable, name: str) -> Input | None:
    kind_text, fact, ask = table.text("kind", required=True), table.text("fact"), table.text("ask", required=True)
    kind = input_kind(name, kind_text, table.texts("values") or ())
    default = table.raw("default")
    table.done()
    if kind is None:
        hint = 'Write a quantity such as "temperature", with " window" behind it for two ends, or "choice".'
        table.complain("input-kind", f"The kind {kind_text!r} is not known.", "kind", hint)
        return None
    known = fact_kinds().get(fact)
    if fact and known is None:
        table.complain(
            "unknown-fact", f"The fact {fact!r} is not known.", "fact", did_you_mean(fact, fact_kinds(), SEE_FACTS)
        )
    elif known is not None and (known.kind, known.unit_kind) != (kind.kind, kind.unit_kind):
        message = f"The fact {fact!r} is a {known.unit_kind} {known.kind}, the input a {kind_text}."
        table.complain("input-fact", message, "fact", "Give the input the fact's kind.")
    value = None
    if default is not None:
        value = read_fact(kind, default)
        if value is None:
            table.complain("default", f"The default is wrong: {why_not(kind, default)}.", "default", "Mend it.")
    return Input(name=name, kind=kind, fact=fact, default=value, ask=ask)


def _example(table: TomlTable, vocabulary: Vocabulary, inputs: dict[str, Input]) -> Example:
    parts = {key: dict(table.table(key).entries()) for key in ("given", "facts", "answers", "expect")}
    table.done()
    for key in ("given", "expect"):
        for setting, text in parts[key].items():
            if setting not in vocabulary.settings:
                hint = did_you_mean(setting, vocabulary.settings, SEE_SETTINGS)
                table.complain("unknown-setting", f"The setting {setting!r} is not known.", key, hint)
            elif not isinstance(text, str):
                from profilesmith.recipe.sample import sample  # only when something is wrong

                known = vocabulary.settings[setting]
                table.complain(
                    "wrong-type",
                    f"{setting!r} must be a text in quotes.",
                    key,
                    f"Write {sample(known.kind, text, known.values)}.",
                )
    for fact in parts["facts"]:
        if fact not in fact_kinds():
            table.complain(
                "unknown-fact", f"The fact {fact!r} is not known.", "facts", did_you_mean(fact, fact_kinds(), SEE_FACTS)
            )
    for answer in parts["answers"]:
        if answer not in inputs:
            table.complain(
                "unknown-input",
                f"There is no input {answer!r}.",
                "answers",
                did_you_mean(answer, inputs, f"Add [inputs.{answer}]."),
            )
    if not parts["expect"]:
        table.complain("no-expect", "The example expects nothing.", "", "Add expect = { ... }.")
    return Example(place=table.file.place(table.path), **parts)
