"""A re-derivation judges once and reads every text once: forty profiles are re-derived in one evening.

The audit is apart: it reads what is to be written by itself, whoever has read it already.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from profilesmith.checks import judge as judging
from profilesmith.engine import derive as deriving
from profilesmith.text.walk import Walk
from profilesmith.translation.document_to_profile import Translating
from profilesmith.workflows.demo import run_demo
from profilesmith.workflows.rederive import rederive as module
from profilesmith.workflows.request import Request


class Counts:
    """How often each text is read and translated, and how often is judged. auditing: that is not counted."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.read: Counter[str] = Counter()
        self.translated: Counter[str] = Counter()
        self.judged, self.auditing = 0, False
        begin, translate, cases, audit = Walk.__init__, Translating.profile, judging._cases, deriving.audit

        def read(walk: Walk, text: str, *more: Any) -> None:
            self.read[text] += not self.auditing
            begin(walk, text, *more)

        def translated(work: Any) -> object:
            self.translated["".join(document.text for document in work.documents)] += not self.auditing
            return translate(work)

        def judged(*given: Any) -> object:
            self.judged += 1
            return cases(*given)

        def audited(*given: Any, **more: Any) -> object:
            self.auditing = True
            problems = audit(*given, **more)
            self.auditing = False
            return problems

        monkeypatch.setattr(Walk, "__init__", read)
        monkeypatch.setattr(Translating, "profile", translated)
        monkeypatch.setattr(judging, "_cases", judged)
        monkeypatch.setattr(deriving, "audit", audited)


@pytest.mark.parametrize("edited", [False, True])
def test_once(edited: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    run_demo(str(tmp_path / "heron"))
    soft = tmp_path / "heron" / "soft.settings"
    if edited:
        soft.write_text(soft.read_text(encoding="utf-8").replace("lid_lamp = 60", "lid_lamp = 61"), encoding="utf-8")
    better = soft.with_name("better.settings")
    better.write_text(f"; better\n{soft.with_name('base.settings').read_text(encoding='utf-8')}", encoding="utf-8")
    counts = Counts(monkeypatch)
    made = module.rederive([str(soft)], Request(bases=(str(better),), key_map=""), lambda decision: "").derivation
    assert made.outputs[0] == b"; better\n" + soft.read_bytes()
    assert counts.judged == 1
    # The new base, the text as made, as edited, as the recipes make it now, as merged.
    assert [count for count in counts.read.values() if count] == [1] * (5 if edited else 3)
    assert +counts.translated == +counts.read
