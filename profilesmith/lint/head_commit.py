"""What git's last commit, or another revision, holds of a library, read without running anything that a stranger's
repository names.

Git is called with a fixed list of words and no shell. A revision that somebody names is made a commit's hash first, and
is never taken for an option. ``ls-tree`` and ``cat-file`` run no pager, hook, filter or text
converter; fsmonitor is off, nothing is fetched, and a bare repository inside the folder is not taken for the library's.
"""

import hashlib
import os
import re
import subprocess
from collections.abc import Iterable, Mapping
from pathlib import Path

from profilesmith.foundation.named_tuple import NamedTuple

LONGEST_WAIT_S = 30.0
_GIT = (
    "git",
    "--no-pager",
    "--no-optional-locks",
    "-c",
    "core.fsmonitor=false",
    "-c",
    "core.hooksPath=/dev/null",
    "-c",
    "protocol.allow=never",
    "-c",
    "safe.bareRepository=explicit",
)
_HASHES = {40: "sha1", 64: "sha256"}
_HASH = re.compile(r"[0-9a-f]{40}|[0-9a-f]{64}")
_LINK = b"120000"  # the mode of a symbolic link, whose blob is a path
NO_REVISION = "git knows no such revision"


class HeadCommit(NamedTuple):
    """blobs: the object name of each committed file, by its path below the library. why_not: a sentence; "" when known.

    since: what people call it. commit: its hash, "" where none is known.
    """

    blobs: Mapping[str, str]
    why_not: str = ""
    since: str = "the last commit"
    commit: str = ""


def head_commit(folder: Path) -> HeadCommit:
    """What the last commit holds of a folder."""
    return _held(folder, "HEAD", "the last commit")


def commit_of(folder: Path, revision: str) -> HeadCommit:
    """What a revision holds of a folder: a branch, a tag, a hash, or whatever else git takes for one."""
    if revision.startswith("-") or not revision.isprintable() or not revision.strip():
        return HeadCommit({}, NO_REVISION, revision)
    raw, why_not = git_says(folder, ("rev-parse", "--verify", "--end-of-options", f"{revision}^{{commit}}"))
    commit = raw.decode("ascii", "replace").strip()
    if why_not or not _HASH.fullmatch(commit):
        return HeadCommit({}, why_not or NO_REVISION, revision)
    return _held(folder, _merge_base(folder, commit), revision)


def _merge_base(folder: Path, commit: str) -> str:
    """Where the work at hand left a revision: what was done there since is nobody's change here.

    The revision itself where there is no such commit: histories that share nothing, or that were not fetched.
    """
    raw, why_not = git_says(folder, ("merge-base", "HEAD", commit))
    base = raw.decode("ascii", "replace").strip()
    return base if not why_not and _HASH.fullmatch(base) else commit


def _held(folder: Path, commit: str, since: str) -> HeadCommit:
    raw, why_not = git_says(folder, ("ls-tree", "-r", "-z", commit))
    blobs: dict[str, str] = {}
    for line in raw.split(b"\0"):
        head, _, name = line.partition(b"\t")
        parts = head.split()
        if len(parts) == 3 and parts[1] == b"blob" and parts[0] != _LINK:
            blobs[os.fsdecode(name)] = parts[2].decode("ascii", "replace")
    return HeadCommit(blobs, why_not, since, commit)


def messages_since(folder: Path, head: HeadCommit) -> str:
    """The messages of all commits since that one, as text."""
    words = ("log", "--no-show-signature", "--no-patch", "--format=%B", f"{head.commit}..HEAD")
    raw, why_not = git_says(folder, words) if _HASH.fullmatch(head.commit) else (b"", "no commit")
    return "" if why_not else raw.decode("utf-8", "replace")


class Withheld(NamedTuple):
    """What git names and does not have here, as in a clone without blobs. why: a sentence."""

    why: str


def committed(folder: Path, head: HeadCommit, path: Path, raw: bytes) -> bytes | Withheld | None:
    """The committed bytes of a file where they differ from those at hand; None where they do not, or it is new."""
    name = os.path.relpath(os.path.abspath(path), os.path.abspath(folder)).replace(os.sep, "/")
    blob = head.blobs.get(name, "")
    kind = _HASHES.get(len(blob))
    if kind is None or hashlib.new(kind, b"blob %d\0" % len(raw) + raw, usedforsecurity=False).hexdigest() == blob:
        return None
    before, why_not = git_says(folder, ("cat-file", "blob", blob))
    return Withheld(f"git has not the file of {head.since} here: is this a clone without them?") if why_not else before


def committed_files(folder: Path, head: HeadCommit, names: Iterable[str]) -> dict[str, bytes]:
    """The committed bytes of several files by one call of git; what it does not hold is left out."""
    wanted = [name for name in names if name in head.blobs]
    asked = "".join(f"{head.blobs[name]}\n" for name in wanted).encode("ascii", "replace")
    raw, why_not = git_says(folder, ("cat-file", "--batch"), asked) if wanted else (b"", "")
    contents: dict[str, bytes] = {}
    at = 0
    for name in () if why_not else wanted:
        head_line = raw[at : max(raw.find(b"\n", at), at)]
        parts = head_line.split()
        if len(parts) != 3:  # "missing": there is no such object here
            at += len(head_line) + 1
            continue
        begin = at + len(head_line) + 1
        contents[name] = raw[begin : begin + int(parts[2])]
        at = begin + int(parts[2]) + 1
    return contents


def git_says(folder: Path, words: tuple[str, ...], asked: bytes | None = None) -> tuple[bytes, str]:
    """Git's output, or the reason why there is none. asked: what it reads from its standard input."""
    # Variables that would point git at another repository are dropped: inside a hook they are set.
    kept = {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}
    environment = {
        **kept,
        "GIT_TERMINAL_PROMPT": "0",
        "GIT_NO_LAZY_FETCH": "1",  # known to newer versions alone
        "GIT_ALLOW_PROTOCOL": "",  # older ones fetch nothing either, as no way of fetching is allowed
        "GIT_OPTIONAL_LOCKS": "0",
        "GIT_LITERAL_PATHSPECS": "1",  # a file's name is no pattern
        "LC_ALL": "C",
    }
    try:
        done = subprocess.run(
            (*_GIT, *words),
            cwd=folder,
            env=environment,
            input=asked if asked is not None else b"",
            capture_output=True,
            timeout=LONGEST_WAIT_S,
            check=False,
        )
    except FileNotFoundError:
        return b"", "git is not installed"
    except (OSError, subprocess.TimeoutExpired):
        return b"", "git gave no answer"
    if done.returncode:
        if b"not a git repository" not in done.stderr and words[0] == "rev-parse":
            return b"", NO_REVISION
        known = b"Not a valid object name" in done.stderr or b"not a tree" in done.stderr
        return b"", "nothing is committed yet" if known else "the library lies in no git work tree"
    return done.stdout, ""
