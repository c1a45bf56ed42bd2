"""The ledger as data: one versioned form, described by ``knowledge/ledger.schema.json``.

The change stands in it a second time as an RFC 6902 patch over the neutral profile.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Any

from profilesmith.checks.judge import Judgement
from profilesmith.foundation.number import json_number
from profilesmith.foundation.problem import Problem
from profilesmith.profile.compare_profiles import Difference, compare_profiles
from profilesmith.profile.ledger import Ledger, Row
from profilesmith.profile.profile import Profile
from profilesmith.vocabulary.setting import Value

FORMAT = 1
Json = dict[str, Any]


def json_value(values: tuple[Value, ...]) -> Any:
    """A value in the canonical unit; a list where several tools differ; None for none."""
    plain = [json_number(value) if isinstance(value, Fraction) else value for value in values]
    if not plain:
        return None
    return plain[0] if len(plain) == 1 else plain


def profile_json(profile: Profile) -> Json:
    """The neutral profile: setting -> canonical value."""
    return {name: json_value(entry.values) for name, entry in profile.entries.items()}


def patch(base: Profile, derived: Profile) -> list[Json]:
    """RFC 6902 operations that turn the base's neutral profile into the derived one."""
    return [_operation(difference) for difference in compare_profiles(base, derived)]


def _operation(difference: Difference) -> Json:
    path = "/" + difference.setting.replace("~", "~0").replace("/", "~1")  # RFC 6901 pointer
    if not difference.new:
        return {"op": "remove", "path": path}
    return {"op": "replace" if difference.old else "add", "path": path, "value": json_value(difference.new)}


def _row(row: Row) -> Json:
    cause = row.cause
    return {
        "setting": row.setting,
        "status": row.status,
        "base": json_value(row.base),
        "derived": json_value(row.derived),
        "old_text": row.old_text,
        "new_text": row.new_text,
        "file": row.file,
        "line": row.line or None,
        "key": row.key,
        "recipe": cause.recipe,
        "version": cause.version,
        "rule": cause.rule or None,
        "demand": cause.demand,
        "why": cause.why,
        "source": cause.source,
        "note": row.note,
        "ask": row.ask,
    }


def problem_json(problem: Problem) -> Json:
    """A problem as data."""
    return {
        "code": problem.code,
        "message": problem.message,
        "hint": problem.hint,
        "file": problem.place.file,
        "line": problem.place.line,
        "path": problem.place.path,
    }


def judgement_json(judgement: Judgement) -> Json:
    """What the checks found: the members ``findings``, ``cautions`` and ``figures``."""
    return {
        "findings": [{**finding._asdict(), "settings": list(finding.settings)} for finding in judgement.findings],
        "cautions": [{"id": item.id, "text": item.text, "source": item.source} for item in judgement.cautions],
        "figures": list(judgement.figures),
    }


def ledger_json(
    ledger: Ledger,
    files: Sequence[Json],
    key_map: str,
    facts: Json,
    literals: Iterable[str],
    unmapped: Sequence[Json],
    version: str,
    judgement: Judgement = Judgement(),
) -> Json:
    """The whole ledger. files: each base file's name and SHA-256."""
    recipes = [
        {
            "name": use.name,
            "version": use.version,
            "title": use.title,
            "answers": dict(use.answers),
            "once": use.once,
            "cautions": list(use.cautions),
        }
        for use in ledger.recipes
    ]
    return {
        "format": FORMAT,
        "kind": "profilesmith ledger",
        "written_by": f"profilesmith {version}",
        "files": list(files),
        "key_map": key_map,
        "facts": facts,
        "recipes": recipes,
        "rows": [_row(row) for row in ledger.rows],
        "base": profile_json(ledger.base),
        "derived": profile_json(ledger.derived),
        "patch": patch(ledger.base, ledger.derived),
        "conflicts": [problem_json(problem) for problem in ledger.problems],
        "literals": list(literals),
        "unmapped": list(unmapped),
        **judgement_json(judgement),
    }
