"""``python -m tests.lowest_versions``: installs the lowest versions that ``pyproject.toml`` allows, and runs the main
jobs on them.

A fresh environment in a folder that goes with the run; needs a package index. Exit 1 when a job fails.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import tomllib
import venv
from pathlib import Path

ROOT = Path(__file__).parents[2]
JOBS = (
    "demo there",
    (
        "derive there/base.settings --keymap there/keymap.toml --recipe flexible-pla --facts "
        "there/spool.toml -o out.txt --report r.html --report r.md"
    ),
    "review out.txt",
    "rederive out.txt --check",
    "keymap suggest there/base.settings -o map.toml",
    "keymap check there/keymap.toml there/base.settings",
    "recipe check flexible-pla",
    "recipe compare flexible-pla tpu-95a",
    "library new club",
    "library check club",
    "library page club -o pages",
    "compare there/base.settings out.txt --keymap there/keymap.toml",
    "vocabulary speed",
    "--help",
)


def lowest() -> list[str]:
    """``name==lowest`` of every dependency."""
    told = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["dependencies"]
    return [word.partition(",")[0].replace(">=", "==") for word in told]


def main() -> int:
    with tempfile.TemporaryDirectory() as place:
        venv.create(Path(place, "env"), with_pip=True)
        python = str(Path(place, "env", "bin", "python"))
        pip = [python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
        subprocess.run([*pip, *lowest()], check=True)
        environment = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"}
        failed = 0
        for job in JOBS:
            command = [python, "-m", "profilesmith", *job.split()]
            ran = subprocess.run(command, cwd=place, env=environment, capture_output=True, text=True, check=False)
            failed += ran.returncode not in (0, 1) or "Traceback" in ran.stderr
            print(f"{ran.returncode} {job}" + (f"\n{ran.stderr[-800:]}" if ran.returncode not in (0, 1) else ""))
        print(f"{', '.join(lowest())}: {failed} of {len(JOBS)} jobs failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
