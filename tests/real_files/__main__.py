"""``python -m tests.real_files [FOLDER...] [--debian] [--only NAME] [--told N]``: the laws on every settings text below
some folders.

--debian: fetch the packages that ``packages.py`` names with apt-get, unpack them into a folder that goes with the run,
and read their files. Prints a table; exit 1 when anything came out wrong.
"""

from __future__ import annotations

import argparse
import itertools
import os
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from tests.real_files.laws import TRANSFORMS, Tally, hold, new_tally
from tests.real_files.packages import PACKAGES, fetch
from tests.real_files.reader import LARGEST, Page, read_page

ABOUT = ("doc", "lintian", "man", "locale")  # folders of texts about programs, not for them
LAWS = ("identity", "one edit", "one edit, set back", "words", "words, set back")


def pages(folders: list[Path], seen: set[bytes]) -> Iterator[tuple[str, Page]]:
    """Every text below the folders that the reader can judge, each content once. Links are not followed."""
    for folder in folders:
        for top, folders_in, names in os.walk(folder):
            folders_in[:] = sorted(name for name in folders_in if name not in ABOUT)
            for name in sorted(names):
                path = Path(top, name)
                if path.is_symlink() or not path.is_file() or path.stat().st_size > LARGEST:
                    continue
                raw = path.read_bytes()
                page = None if raw in seen else read_page(raw)
                if page is not None:
                    seen.add(raw)
                    yield str(path.relative_to(folder)), page


def table(tallies: dict[str, Tally]) -> Iterator[str]:
    """One line for each law, summed over the transformations, and one for each transformation."""
    yield f"{'':24}{'right':>8}{'refused':>9}{'wrong':>7}"
    for law in LAWS:
        yield _row(law, [(item.right[law], item.refused[law], item.wrong[law]) for item in tallies.values()])
    for name, item in tallies.items():
        yield _row(name, [tuple(sum(part.values()) for part in (item.right, item.refused, item.wrong))])


def _row(name: str, cells: list[tuple[int, ...]]) -> str:
    right, refused, wrong = (sum(column) for column in zip(*cells, strict=True))
    return f"{name:24}{right:>8,}{refused:>9,}{wrong:>7,}"


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.real_files", description=__doc__)
    parser.add_argument("folders", nargs="*", type=Path, metavar="FOLDER")
    parser.add_argument("--debian", action="store_true", help=f"fetch {len(PACKAGES)} Debian packages and read them")
    parser.add_argument(
        "--only", choices=list(TRANSFORMS), action="append", help="this transformation; else all of them"
    )
    parser.add_argument("--told", type=int, default=20, help="how many refusals and faults are shown")
    given = parser.parse_args()
    started, seen = time.monotonic(), set[bytes]()
    chosen = {name: TRANSFORMS[name] for name in given.only or TRANSFORMS}
    tallies, homes = {name: new_tally() for name in chosen}, Counter[str]()
    with tempfile.TemporaryDirectory() as place:
        folders = [(str(folder), folder) for folder in given.folders]
        fetched = fetch(PACKAGES, Path(place)) if given.debian else iter(())
        for home, folder in itertools.chain(folders, ((folder.name, folder) for folder in fetched)):
            for name, page in pages([folder], seen):
                homes[home] += 1
                for kind, transform in chosen.items():
                    hold(page, f"{home}/{name}", transform, tallies[kind])
    print(f"{sum(homes.values()):,} files: " + ", ".join(f"{home} {count}" for home, count in homes.items()))
    print("\n".join(table(tallies)))
    told = list(dict.fromkeys(text for item in tallies.values() for text in item.told))
    print("\n".join(told[: given.told]))
    print(f"{time.monotonic() - started:.0f} s")
    return 1 if any(sum(item.wrong.values()) for item in tallies.values()) else 0


if __name__ == "__main__":
    sys.exit(main())
