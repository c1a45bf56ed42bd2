"""What is proposed for a text that lies in a file."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from profilesmith.suggest.proposal import Proposal
from profilesmith.workflows.suggest import MapOrder, suggest


@pytest.fixture
def proposals(tmp_path: Path) -> Callable[[str], dict[str, Proposal]]:
    def run(text: str) -> dict[str, Proposal]:
        base = tmp_path / "base.card"
        base.write_text(text)
        return {item.setting: item for item in suggest(MapOrder((str(base),))).suggestion.proposals}

    return run
