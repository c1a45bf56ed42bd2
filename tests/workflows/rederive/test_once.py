"""A re-derivation judges once and reads every text once: forty profiles are re-derived in one evening."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from profilesmith.engine import derivation_review
from profilesmith.merge import merged_texts, sides
from profilesmith.translation import document_to_profile
from profilesmith.workflows.demo import run_demo
from profilesmith.workflows.rederive import rederive as module
from profilesmith.workflows.request import Request


@pytest.mark.parametrize("edited", [False, True])
def test_once(edited: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    run_demo(str(tmp_path / "heron"))
    soft = tmp_path / "heron" / "soft.settings"
    if edited:
        soft.write_text(soft.read_text(encoding="utf-8").replace("lid_lamp = 60", "lid_lamp = 61"), encoding="utf-8")
    better = soft.with_name("better.settings")
    better.write_text(f"; better\n{soft.with_name('base.settings').read_text(encoding='utf-8')}", encoding="utf-8")
    judged: list[object] = []
    judge = derivation_review.judge
    monkeypatch.setattr(derivation_review, "judge", lambda *given: judged.append(given) or judge(*given))
    read: Counter[str] = Counter()

    def translate(documents: tuple, *more: object) -> object:
        read["".join(item.text for item in documents)] += 1
        return document_to_profile.translate(documents, *more)  # type: ignore[arg-type]

    for room in (sides, merged_texts):
        monkeypatch.setattr(room, "translate", translate)
    made = module.rederive([str(soft)], Request(bases=(str(better),), key_map=""), lambda decision: "").derivation
    assert made.outputs[0] == b"; better\n" + soft.read_bytes()
    assert len(judged) == 1
    assert set(read.values()) == {1}
    assert len(read) == (4 if edited else 2)  # as made, as edited, as the recipes make it now, as merged
