"""What to try after the demo was laid out."""

from __future__ import annotations

import shlex

NEXT = (
    "derive {folder}/base.settings --keymap {folder}/keymap.toml --recipe flexible-pla --recipe part-soft "
    "--facts {folder}/machine.toml --facts {folder}/spool.toml --facts {folder}/part.toml --start-block follow "
    "--report {folder}/review.html -o {folder}/followed.settings",
    "explain infill.speed {folder}/base.settings --keymap {folder}/keymap.toml --recipe flexible-pla",
    "compare {folder}/soft.settings {folder}/followed.settings",
)
"""Each works as it stands in the shell and folder in which the demo was laid out."""


def next_commands(folder: str) -> list[str]:
    return [template.format(folder=shlex.quote(folder)) for template in NEXT]
