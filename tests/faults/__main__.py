"""``python -m tests.faults [--kills 1000]``: kill -9 at random moments of writing; prints what lay there afterwards."""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from pathlib import Path

from tests.faults.kills import kill_many


def main(words: list[str]) -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.faults", description=__doc__)
    parser.add_argument("--kills", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args(words)
    begun = time.monotonic()
    with tempfile.TemporaryDirectory(prefix="kills.") as folder:
        found = kill_many(Path(folder), options.kills, options.seed)
    for word, count in found.most_common():
        print(f"{word:<20} {count:>6}")
    print(f"{sum(found.values()):,} kills in {time.monotonic() - begun:.0f} s: nothing lost")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
