"""What git remembers of some files of a folder: what they were, and since when. Read as ``head_commit`` reads."""

import os
from collections.abc import Iterator, Sequence
from pathlib import Path

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.lint.head_commit import git_says

MOST_NAMES = 2_000
MOST_STATES = 60  # of one file, the newest
LARGEST = 1_000_000  # bytes of one state
_LOG = ("log", "-z", "--raw", "--no-abbrev", "--no-renames", "--relative", "--first-parent", "-m")
_FORMAT = ("--no-show-signature", "--format=%H %cs", "--")
_FILES = (b"100644", b"100755")


class Past(NamedTuple):
    """What a file held from a day on, as git's main line tells it: what a merge brought has the merge's day."""

    day: str
    raw: bytes


def past_of(folder: Path, names: Sequence[str]) -> dict[str, list[Past]]:
    """The states of each file, the oldest first; none for what git does not know, or where there is no git."""
    raw, why_not = git_says(folder, (*_LOG, *_FORMAT, *names[:MOST_NAMES])) if names else (b"", "")
    states: dict[str, list[tuple[str, str]]] = {}
    for day, name, blob in () if why_not else _changes(raw):
        states.setdefault(name, []).append((day, blob))
    kept = {name: listed[:MOST_STATES][::-1] for name, listed in states.items()}
    blobs = _blobs(folder, [blob for listed in kept.values() for _, blob in listed])
    return {
        name: [Past(day, blobs[blob]) for day, blob in listed if blob in blobs]
        for name, listed in kept.items()
        if name in names
    }


def _changes(raw: bytes) -> Iterator[tuple[str, str, str]]:
    """(day, file, blob) of every change, the newest first."""
    day = ""
    parts = iter(raw.split(b"\0"))
    for part in parts:
        words = part.strip().split()
        if part.strip().startswith(b":") and len(words) == 5:
            name = os.fsdecode(next(parts, b""))
            if words[1] in _FILES:
                yield day, name, words[3].decode("ascii", "replace")
        elif len(words) == 2:
            day = words[1].decode("ascii", "replace")


def _blobs(folder: Path, wanted: Sequence[str]) -> dict[str, bytes]:
    """The bytes of blobs by two calls; left out is what is not here, and what is too large for a recipe."""
    asked = "".join(f"{blob}\n" for blob in dict.fromkeys(wanted)).encode("ascii", "replace")
    sizes, _ = git_says(folder, ("cat-file", "--batch-check"), asked) if wanted else (b"", "")
    heads = [line.decode("ascii", "replace").split() for line in sizes.splitlines()]
    small = [head[0] for head in heads if len(head) == 3 and head[1] == "blob" and int(head[2]) <= LARGEST]
    asked = "".join(f"{blob}\n" for blob in small).encode("ascii", "replace")
    raw, _ = git_says(folder, ("cat-file", "--batch"), asked) if small else (b"", "")
    contents: dict[str, bytes] = {}
    at = 0
    for blob in small:
        head = raw[at : max(raw.find(b"\n", at), at)]
        parts = head.split()
        if len(parts) != 3:
            break
        at += len(head) + 1
        contents[blob] = raw[at : at + int(parts[2])]
        at += int(parts[2]) + 1
    return contents
