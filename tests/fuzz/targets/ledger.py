"""Any bytes as the ledger beside a derived file, which a stranger may have sent with it. What loads is shown in a
form.
"""

from __future__ import annotations

import re
from functools import cache

from profilesmith.foundation.problem import Problem
from profilesmith.ledger.read import read_ledger
from profilesmith.review.build_review import ledger_review
from profilesmith.review.render import RENDERERS, Look, render
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.derive import derive
from profilesmith.workflows.request import Request
from tests.fuzz.engine import Target
from tests.fuzz.targets.toml_words import ROOT

FORMS = ("terminal", "markdown", "json", "checklist", "page")
NUMBERS = re.compile(r"\d+|'[^']*'")
COMMANDS = frozenset("\x00\x07\x08\x1b\x7f\x9b\u202e\u2066\u200f")
DEMO = ROOT / "recipes" / "demo"


def behaviour(data: bytes) -> str:
    vocabulary = load_vocabulary()
    stored = read_ledger(data.decode("utf-8", "replace"), "ledger.json", vocabulary)
    if isinstance(stored, Problem):
        return f"{stored.code} {NUMBERS.sub('', stored.message)[:120]}"
    review = ledger_review(stored.ledger, vocabulary, "x", stored.file)
    form = FORMS[len(data) % len(FORMS)]
    assert form in RENDERERS
    text = render(review, form, Look(full=True))
    assert form == "json" or not COMMANDS & set(text), "a stranger's control character reaches the reader"
    return f"{form} {len(review.groups)} {len(review.consequences)} {bool(text)}"


@cache
def seeds() -> list[bytes]:
    """The ledgers of a small derivation: one for each base line, so that they stay small enough to be changed."""
    from profilesmith.ledger.json_text import json_text

    found = []
    for recipe in ("flexible-pla", "part-soft", "fine-finish"):
        request = Request(
            bases=(str(DEMO / "base.settings"),),
            key_map=str(DEMO / "keymap.toml"),
            recipes=(recipe,),
            facts=(str(DEMO / "machine.toml"),),
        )
        data = {**derive(request).review.data, "outputs": [{"name": "a", "sha256": "0" * 64}], "key_map_file": "k.toml"}
        for few in (1, 3):
            small = {
                name: value[:few]
                if isinstance(value, list)
                else dict(list(value.items())[:4])
                if isinstance(value, dict)
                else value
                for name, value in data.items()
            }
            found.append(json_text({**small, "files": [{"name": "a", "sha256": "0" * 64}]}).encode())
    return found


def tokens() -> list[bytes]:
    odd = (
        "1e999",
        "1e999999999",
        "-1e999999999",
        "1e-999999999",
        "NaN",
        "Infinity",
        "-Infinity",
        "9" * 400,
        "9" * 5000,
        "\\u001b[31m",
        "\\u202e",
        "null",
        "true",
        "false",
        "[]",
        "{}",
        '""',
        '"../../etc/passwd"',
        '"/dev/null"',
        '"\\ud800"',
        '"\\u0000"',
        '"\\u001b[31m"',
        '"<script>"',
        '"x"',
        "[[[[[[[[",
        '{"a":{"a":',
        ",",
        ":",
        "-0.0",
        "0.1",
        '"changed"',
        '"stop"',
        '"bars"',
        '"line"',
        '"windows"',
        "1",
        "-1",
        "0",
    )
    keys = (
        "format",
        "kind",
        "files",
        "outputs",
        "name",
        "sha256",
        "rows",
        "base",
        "derived",
        "recipes",
        "findings",
        "figures",
        "series",
        "points",
        "limits",
        "marks",
        "value",
        "x",
        "y",
        "cause",
        "asked",
        "values",
        "operation",
        "notes",
        "code",
        "question",
        "about",
        "exact",
        "said",
        "literals",
        "unmapped",
        "conflicts",
        "cautions",
        "line",
        "rule",
        "answers",
        "once",
        "patch",
        "op",
        "path",
        "verdict",
        "id",
        "status",
        "setting",
    )
    return [
        word.encode()
        for word in (*odd, *(f'"{key}"' for key in keys), *(f'"{name}"' for name in load_vocabulary().settings))
    ]


TARGET = Target("ledger", behaviour, seeds, tokens)
