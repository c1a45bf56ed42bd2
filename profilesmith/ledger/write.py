"""The ledger as data: one versioned form, described by ``knowledge/ledger.schema.json``.

The change stands in it a second time as an RFC 6902 patch over the neutral profile.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from profilesmith.foundation.problem import Problem
from profilesmith.ledger import Ledger, RecipeUse, Row
from profilesmith.ledger.exact import fact_json, values_json
from profilesmith.ledger.judgement import Judgement
from profilesmith.profile.compare_profiles import Difference, compare_profiles
from profilesmith.profile.profile import Profile

FORMAT = 2
Json = dict[str, Any]


def profile_json(profile: Profile) -> Json:
    """The neutral profile: setting -> canonical value."""
    return {name: values_json(entry.values) for name, entry in profile.entries.items()}


def patch(base: Profile, derived: Profile) -> list[Json]:
    """RFC 6902 operations that turn the base's neutral profile into the derived one."""
    return [_operation(difference) for difference in compare_profiles(base, derived)]


def _operation(difference: Difference) -> Json:
    path = "/" + difference.setting.replace("~", "~0").replace("/", "~1")  # RFC 6901 pointer
    if not difference.new:
        return {"op": "remove", "path": path}
    return {"op": "replace" if difference.old else "add", "path": path, "value": values_json(difference.new)}


def _row(row: Row) -> Json:
    cause = row.cause
    return {
        "setting": row.setting,
        "status": row.status,
        "base": values_json(row.base),
        "derived": values_json(row.derived),
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


def _use(use: RecipeUse) -> Json:
    answers = {
        name: {"said": item.said, "value": fact_json(item.value), "origin": item.origin, "unit_kind": item.unit_kind}
        for name, item in use.answers.items()
    }
    return {
        "name": use.name,
        "version": use.version,
        "title": use.title,
        "answers": answers,
        "once": use.once,
        "cautions": list(use.cautions),
    }


def ledger_json(
    ledger: Ledger,
    files: Sequence[Json],
    key_map: str,
    literals: Iterable[str],
    unmapped: Sequence[Json],
    version: str,
    judgement: Judgement = Judgement(),
) -> Json:
    """The whole ledger. files: each base file's name and SHA-256."""
    return {
        "format": FORMAT,
        "kind": "profilesmith ledger",
        "written_by": f"profilesmith {version}",
        "files": list(files),
        "key_map": key_map,
        "facts": {name: {"said": fact.said, "value": fact_json(fact.value)} for name, fact in ledger.facts.items()},
        "recipes": [_use(use) for use in ledger.recipes],
        "rows": [_row(row) for row in ledger.rows],
        "base": profile_json(ledger.base),
        "derived": profile_json(ledger.derived),
        "patch": patch(ledger.base, ledger.derived),
        "conflicts": [problem_json(problem) for problem in ledger.problems],
        "literals": list(literals),
        "unmapped": list(unmapped),
        **judgement_json(judgement),
    }
