"""What our TOML files are made of: words of the vocabulary, keys of the formats, numbers and shapes that are odd."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from profilesmith.facts.facts import fact_kinds
from profilesmith.foundation.quantity import UNITS
from profilesmith.recipe.operations import BY_NAME
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

ROOT = Path(__file__).parents[3]
ODD = (
    "1e999",
    "nan",
    "inf",
    "-inf",
    "-0",
    "0",
    "1e99",
    "1e-99",
    "1" * 60,
    "9" * 39,
    "0.000000000001",
    "1979-05-27",
    "07:32:00",
    "true",
    "[]",
    "{}",
    "[[1]]",
    "{a={b={c={}}}}",
    '"\\u0000"',
    '"\\u001b[31m"',
    '"\\u202e"',
    '"\\u2028"',
    "'''\n'''",
    '"""\n"""',
    "a.b.c",
    "\n[",
    "\n[[",
    "]]\n",
    "]\n",
    " = ",
    '"',
    "'",
    ",",
    "#",
    "\n",
    "format = 1\n",
    '""',
    '"40 mm/s"',
    '"-40 mm/s"',
    '"70 %"',
    '"5 °C"',
    '"1e99 mm"',
    '"> 10 mm"',
    '"!= 0"',
    "1_0",
    "0x10",
    "\ufeff",
    "\x7f",
    '"" = 1',
    '"a.b"',
    '["210 °C", "220 °C"]',
    '["220 °C", "210 °C"]',
    '{ input = "x" }',
    '{ fact = "spool.nozzle_window" }',
    '{ of = "outer_wall.speed", times = 0.5 }',
    '{ flow = "4 mm3/s" }',
    "{ of = 1 }",
    'times = "1/3"',
    'plus = "1 mm"',
)
KEYS = (
    "recipe",
    "rule",
    "inputs",
    "example",
    "given",
    "facts",
    "answers",
    "expect",
    "when",
    "why",
    "source",
    "setting",
    "except",
    "name",
    "version",
    "kind",
    "fact",
    "default",
    "ask",
    "values",
    "goes_with",
    "keymap",
    "text",
    "binding",
    "key",
    "section",
    "unit",
    "relative_to",
    "relative_key",
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
    "comments",
    "inline_comments",
    "delimiter",
    "decimal",
    "duplicates",
    "language",
    "format",
    "about",
    "licence",
    "authors",
    "cautions",
    "title",
    "machine",
    "spool",
    "part",
    "temperature window",
    "choice",
    "flow",
)


@cache
def tokens() -> list[bytes]:
    vocabulary = load_vocabulary()
    words = [
        *ODD,
        *KEYS,
        *BY_NAME,
        *vocabulary.names(),
        *UNITS,
        *fact_kinds(),
        *(name.partition(".")[2] for name in fact_kinds()),
        "hold",
        "thickness",
        "line spacing",
    ]
    return [word.encode() for word in words]


def files(*patterns: str) -> list[bytes]:
    """The beginnings of all shipped and case files that match."""
    found = [
        path
        for pattern in patterns
        for folder in ("recipes", "tests/cases")
        for path in sorted((ROOT / folder).rglob(pattern))
    ]
    return [text for path in found if path.is_file() and len(text := path.read_bytes()) < 6000]


def told(problems: list[object]) -> str:
    """A behaviour: which problems there were."""
    return " ".join(sorted({problem.code for problem in problems}))  # type: ignore[attr-defined]
