"""Git for tests: repositories of nobody, whatever the settings and hooks of whoever runs them are."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

NOBODY = (
    *("-c", "user.name=nobody", "-c", "user.email=nobody@example.org"),
    *("-c", "commit.gpgsign=false", "-c", f"core.hooksPath={os.devnull}"),
)


def git(folder: Path, *words: str, day: str = "") -> str:
    """What git says. day: when it was committed, as 2026-03-01; "" for now."""
    at = f"{day}T12:00:00+0000"
    times = {"GIT_AUTHOR_DATE": at, "GIT_COMMITTER_DATE": at} if day else {}
    run = subprocess.run(
        ("git", *NOBODY, *words), cwd=folder, check=True, capture_output=True, timeout=60, env={**os.environ, **times}
    )
    return run.stdout.decode("utf-8", "replace").strip()
