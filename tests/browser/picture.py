"""``python -m tests.browser.picture``: the README's picture of the review page, from the demo, by Debian's chromium."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

PLACE = Path(__file__).parents[2] / "profilesmith/guide/review.png"
WIDTH, HEIGHT = 900, 760
MOST = 150_000  # bytes


def main() -> None:
    chromium = shutil.which("chromium")
    if chromium is None:
        raise SystemExit("chromium is not installed")
    run = [sys.executable, "-m", "profilesmith"]
    env = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])}
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([*run, "demo", "heron", "-q"], cwd=folder, env=env, check=True)
        page = Path(folder, "heron", "review.html")
        with page.open("wb") as stream:
            words = ["review", "soft.settings", "--as", "html"]
            subprocess.run([*run, *words], cwd=page.parent, env=env, stdout=stream, check=True)
        options = [
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--hide-scrollbars",
            f"--window-size={WIDTH},{HEIGHT}",
        ]
        subprocess.run([chromium, *options, f"--screenshot={PLACE}", page.as_uri()], check=True, capture_output=True)
    size = PLACE.stat().st_size
    if size > MOST:
        raise SystemExit(f"{PLACE.name} has {size:,} bytes, more than {MOST:,}")
    print(f"{PLACE.name}: {size:,} bytes")


if __name__ == "__main__":
    main()
