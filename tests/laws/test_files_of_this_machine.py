"""Identity and edit locality over the key = value files of whatever machine the tests run on.

Outside check: these texts were written by many programs and people, none of them with this project in mind.
"""

from __future__ import annotations

import itertools
import os
import sys
from collections.abc import Iterator
from contextlib import suppress
from functools import cache
from pathlib import Path

import pytest

from profilesmith.text.document import Document, Habits
from profilesmith.text.edit_document import edit_document
from profilesmith.text.read_document import read_document
from tests.laws.test_set_and_back import and_back, has_room

ENDINGS = (".ini", ".cfg", ".conf", ".properties", ".desktop")
PLACES = ("/etc", "/usr", "/opt", "/root", sys.base_prefix, sys.prefix)
OURS = os.path.join("tests", "cases")  # written to be hard, by us
MOST_FILES, MOST_BYTES = 3000, 1_000_000
FEWEST = 50


def _walk(top: str) -> Iterator[str]:
    """Plain files below a folder; links are not followed."""
    folders = [top]
    while folders:
        try:
            entries = sorted(os.scandir(folders.pop()), key=lambda entry: entry.name)
        except OSError:
            continue
        for entry in entries:
            if entry.is_dir(follow_symlinks=False) and not entry.path.endswith(OURS):
                folders.append(entry.path)
            elif entry.name.endswith(ENDINGS) and entry.is_file(follow_symlinks=False):
                yield entry.path


@cache
def texts() -> tuple[tuple[str, bytes], ...]:
    """The files found, at most MOST_FILES, none larger than MOST_BYTES, each content once."""
    found: dict[bytes, str] = {}
    tops = [place for place in PLACES if not any(place.startswith(f"{other}/") for other in PLACES)]
    for path in itertools.chain.from_iterable(map(_walk, dict.fromkeys(tops))):
        with suppress(OSError):
            if os.path.getsize(path) <= MOST_BYTES:
                found.setdefault(Path(path).read_bytes(), path)
        if len(found) == MOST_FILES:
            break
    return tuple((name, raw) for raw, name in found.items())


def _enough() -> None:
    if len(texts()) < FEWEST:
        pytest.skip(f"this machine has {len(texts())} such files; {FEWEST} are too few to say anything")


def test_the_search_finds_plain_files_and_follows_no_links(tmp_path: Path) -> None:
    """What the two tests below stand on: a search that found nothing, or went in circles, would prove nothing."""
    (tmp_path / "a" / "b").mkdir(parents=True)
    (tmp_path / "tests" / "cases").mkdir(parents=True)
    for name in ("a/one.ini", "a/b/two.conf", "a/b/note.txt", "tests/cases/hard.cfg"):
        (tmp_path / name).write_text("k = 1\n")
    (tmp_path / "a" / "b" / "round").symlink_to(tmp_path / "a", target_is_directory=True)
    (tmp_path / "a" / "link.ini").symlink_to(tmp_path / "a" / "one.ini")
    found = {os.path.relpath(path, tmp_path) for path in _walk(str(tmp_path))}
    assert found == {os.path.join("a", "one.ini"), os.path.join("a", "b", "two.conf")}


def test_every_file_comes_out_as_it_went_in() -> None:
    _enough()
    bent = [name for name, raw in texts() if edit_document(read_document(raw, name), ()) != raw]
    assert bent == []


def _from_the_middle(document: Document) -> Iterator[int]:
    half = len(document.assignments) // 2
    return itertools.chain(range(half, len(document.assignments)), range(half))


def test_one_value_changed_in_each_and_set_back() -> None:
    """Exactly the span of that value differs, every other entry reads the same, and setting it back restores the
    file.
    """
    _enough()
    changed = 0
    for name, raw in texts():
        document = read_document(raw, name)
        at = next((at for at in _from_the_middle(document) if has_room(document, at)), None)
        if at is None:
            continue
        new = "41" if document.value(document.assignments[at]) != "41" else "42"
        try:
            and_back(document, raw, at, new, Habits())
        except AssertionError as error:
            pytest.fail(f"{name}, line {document.assignments[at].line}: {error}")
        changed += 1
    assert changed >= len(texts()) // 3, f"only {changed} of {len(texts())} files had a value to change"
