"""What a hand edited in a text since its ledger was written, for commands that read it as any other text."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from profilesmith.engine.edits_since import edits_since
from profilesmith.foundation.problem import Refused
from profilesmith.ledger.place import ledger_beside
from profilesmith.workflows.derived_file import derived_file


def edits_beside(texts: Sequence[str]) -> list[str]:
    """Sentences on edits, by the first ledger beside some texts; none where there is none that can be read."""
    for text in texts:
        if os.path.isfile(ledger_beside(Path(text))):
            try:
                file = derived_file(text)
            except Refused:  # a text is read without it
                return []
            outputs = {item.name for item in file.stored.file.outputs}
            return edits_since(file) if Path(text).name in outputs else []  # a copied ledger tells of another text
    return []
