"""The files that hold a ledger, a comparison or a judged profile: each stated once, as it is read, written and
published.
"""

import json
from collections.abc import Mapping
from typing import Any, Final, Literal

from profilesmith.facts.facts import FactValue
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.package_data import package_text
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import CONFLICT, Problem
from profilesmith.ledger.exact import FACT_VALUE, THERE
from profilesmith.ledger.form import LEFT_OUT, MET_AGAIN, Annotated, Further, schema_of
from profilesmith.ledger.history import HEX, Call, Earlier, FileHash, Mend, MotionCheck
from profilesmith.ledger.judgement import Caution, Figures, Finding, Judgement
from profilesmith.ledger.ledger import Line, RecipeUse, Row, StartCommand, Values
from profilesmith.ledger.plain_forms import Form
from profilesmith.vocabulary.setting import Value

FORMAT: Final = 2
LARGEST_LEDGER = 50_000_000  # signs of a ledger's file: none larger is written or read
ValuesThere = Annotated[tuple[Value, ...], THERE, MET_AGAIN]
WRITTEN_BY = Further(pattern="^profilesmith [0-9]+\\.[0-9]+\\.[0-9]+")
SETTING = {"pattern": "^[a-z0-9_]+\\.[a-z0-9_]+$"}
PROFILE = Further(propertyNames=SETTING)
SOME = Further(minItems=1)
PACKED = Further(items={"type": "string", "contentEncoding": "base64"}, minItems=1)
FACTS = Further(propertyNames={"pattern": "^(machine|spool|part)\\.[a-z0-9_]+$"})


class FactSaid(NamedTuple):
    """A fact as a ledger keeps it."""

    said: Annotated[str, "The text that said it."]
    value: Annotated[FactValue, FACT_VALUE, "The value, exact, in the canonical unit.", MET_AGAIN]


class PatchOperation(NamedTuple):
    """One operation of an RFC 6902 patch over the neutral profile. value: () for a removal."""

    op: Annotated[Literal["add", "replace", "remove"], "What is done, after RFC 6902."]
    path: Annotated[str, "The setting.", Further(pattern="^/[a-z0-9_]+\\.[a-z0-9_]+$")]
    value: Annotated[Values, "Its new value.", LEFT_OUT] = ()


def problem_json(problem: Problem) -> dict[str, Any]:
    """A problem as data."""
    return {
        "code": problem.code,
        "message": problem.message,
        "hint": problem.hint,
        "file": problem.place.file,
        "line": problem.place.line,
        "path": problem.place.path,
    }


def _conflict(item: Any) -> Problem:
    words = [item[name] for name in ("code", "message", "hint", "file", "path")]
    line = item["line"]
    if not all(isinstance(word, str) for word in words) or not isinstance(line, int | None):
        raise TypeError("no problem")
    code, message, hint, file, path = words
    return Problem(code, message, Place(file, line, path), hint, CONFLICT)


CONFLICTS = Form(
    problem_json,
    _conflict,
    {
        "type": "object",
        "additionalProperties": False,
        "required": ["code", "message", "hint", "file", "line", "path"],
        "properties": {
            "code": {"description": "A stable word for programs.", "type": "string", "pattern": "^[a-z0-9-]+$"},
            "message": {"description": "What is wrong.", "type": "string", "minLength": 1},
            "hint": {"description": "What to do.", "type": "string"},
            "file": {"description": "The file.", "type": "string"},
            "line": {"description": "The line in it.", "anyOf": [{"type": "integer"}, {"type": "null"}]},
            "path": {"description": "The place in a TOML file.", "type": "string"},
        },
    },
)


class LedgerFile(NamedTuple):
    """What a derivation did to every setting that a rule names, and why. Numbers are exact, in the unit of their
    setting.

    From ``outputs`` on only a ledger that lies beside its outputs has them. made: each output's text as the recipes
    alone made it; written: as it was written, where hand edits make it another; both as ``packed.pack`` has them.
    """

    format: Annotated[Literal[2], "The format of this document."]
    kind: Annotated[Literal["profilesmith ledger"], "What this document is."]
    written_by: Annotated[str, "The program and its version.", WRITTEN_BY]
    files: Annotated[tuple[FileHash, ...], "The base files, in the order in which they were given.", SOME]
    key_map: Annotated[str, "The name of the key map."]
    facts: Annotated[Mapping[str, FactSaid], "Every fact that was known.", FACTS]
    recipes: Annotated[tuple[RecipeUse, ...], "The recipes that were used, in their order."]
    rows: Annotated[tuple[Row, ...], "What every rule did to every setting that it names."]
    base: Annotated[Mapping[str, ValuesThere], "The profile before.", PROFILE]
    derived: Annotated[Mapping[str, ValuesThere], "The profile after.", PROFILE]
    patch: Annotated[tuple[PatchOperation, ...], "RFC 6902: turns `base` into `derived`."]
    conflicts: Annotated[
        tuple[Annotated[Problem, CONFLICTS], ...], "What stood against writing; with any here no file was written."
    ]
    literals: Annotated[tuple[StartCommand, ...], "Machine commands inside values that contradict the derived profile."]
    unmapped: Annotated[tuple[Line, ...], "The lines whose key the map does not know."]
    findings: Annotated[
        tuple[Annotated[Finding, MET_AGAIN], ...], "What the checks found, in the order in which they were made."
    ]
    cautions: Annotated[tuple[Caution, ...], "What may hurt someone and applies here."]
    figures: Annotated[Figures, "Flow, stiffness, time and windows as plain series, for any rendering to draw."]
    outputs: Annotated[tuple[FileHash, ...], "The derived files, one for each base file.", SOME, LEFT_OUT] = ()
    key_map_file: Annotated[str, "Where the map lies, as seen from the ledger.", LEFT_OUT] = ""
    made: Annotated[
        tuple[str, ...],
        "Each output's text as the recipes alone made it: zlib, base64; empty for a large one.",
        PACKED,
        LEFT_OUT,
    ] = ()
    written: Annotated[
        tuple[str, ...],
        "Each output's text as it was written, packed like `made`; absent where `made` is that text.",
        PACKED,
        LEFT_OUT,
    ] = ()
    call: Annotated[Call | None, "What was asked for.", LEFT_OUT] = None
    history: Annotated[
        tuple[Earlier, ...], "The derivations that this one carries on, the oldest first.", LEFT_OUT
    ] = ()
    motion: Annotated[
        tuple[MotionCheck, ...], "Motion files that were held against this ledger, the newest last.", LEFT_OUT
    ] = ()

    mends: Annotated[tuple[Mend, ...], "Mends after prints, the oldest first.", LEFT_OUT] = ()
    key_map_sha256: Annotated[str, "SHA-256 of the map's bytes; absent in older ledgers.", HEX, LEFT_OUT] = ""

    @property
    def judgement(self) -> Judgement:
        return Judgement(self.findings, self.cautions, self.figures)


class ComparisonFile(NamedTuple):
    """Two profiles side by side."""

    format: Literal[2]
    kind: Literal["profilesmith comparison"]
    old: Mapping[str, Values]
    new: Mapping[str, Values]
    patch: tuple[PatchOperation, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    figures: Figures


class CheckFile(NamedTuple):
    """One profile, judged."""

    format: Literal[2]
    kind: Literal["profilesmith check"]
    written_by: str
    facts: Mapping[str, FactSaid]
    profile: Mapping[str, Values]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    figures: Figures


class MotionFile(NamedTuple):
    """What a motion file does, judged. more: its own members, as JSON."""

    written_by: str
    more: Mapping[str, Any]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    figures: Figures = ()


File = LedgerFile | ComparisonFile | CheckFile | MotionFile
HEAD = {
    "$schema": "https://json-schema.org/draft/2020-12/schema",
    "$id": f"urn:profilesmith:ledger:{FORMAT}",
    "title": "Profilesmith ledger",
    "description": "What a derivation did to every setting that a rule names, and why. Numbers are in the "
    "canonical unit "
    "of their setting, and exact.",
}


def ledger_schema() -> dict[str, Any]:
    """The published JSON Schema of a ledger."""
    schema = schema_of(LedgerFile, HEAD)
    figure = json.loads(package_text("knowledge/figure.schema.json"))
    return {**schema, "$defs": {**schema["$defs"], **figure["$defs"]}}
