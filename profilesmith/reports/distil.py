"""What was distilled of pairs, for a terminal or as JSON."""

from __future__ import annotations

import json

from profilesmith.reports.distil_report import report, report_json
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.distil import Distillation

FORMS = ("terminal", "json")


def show(result: Distillation, form: str, width: int = 100) -> str:
    """The findings for a terminal or as JSON."""
    parts = (result.distilled, result.alone, result.together, result.raw, load_vocabulary())
    if form == "json":
        return json.dumps(report_json(*parts), ensure_ascii=False, indent=2) + "\n"
    return report(*parts, width)
