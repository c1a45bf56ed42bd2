"""The starter example of a new library taken out again: its files as far as nobody changed them, and its
reference profile.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.foundation.toml_values import without_tables
from profilesmith.library.lay_out import EXAMPLE
from profilesmith.library.library import DESCRIPTION, Library, parse_library
from profilesmith.workflows.library.folder import open_library
from profilesmith.workflows.library.starter import is_example
from profilesmith.write_files import write_whole


class TakenOut(NamedTuple):
    """profiles, files: taken out, by name. used: files that another reference profile uses; changed: by somebody."""

    profiles: tuple[str, ...]
    files: tuple[str, ...]
    used: tuple[str, ...]
    changed: tuple[str, ...]


def without_example(named: Path | None) -> TakenOut:
    """Take the example out. Raises Refused."""
    library = open_library(named)
    gone = [place for place in EXAMPLE if is_example(library, place)]
    if not gone:
        message = "Nothing of the starter example is there as it was laid out."
        raise Refused([Problem("no-example", message, Place(str(library.folder)), "Take out by hand what is left.")])
    description = library.folder / DESCRIPTION
    text, profiles = _without_profiles(description.read_text(encoding="utf-8"), gone)
    after = parse_library(text.encode())
    used = set() if after is None else set(_used(after))
    kept = [place for place in gone if place in used]
    if after is None:
        hint = "Take the example out by hand."
        raise Refused(
            [Problem("bad-library", "The description would not read any more.", Place(str(description)), hint)]
        )
    if profiles:
        refuse_if(write_whole({description: text.encode()}, overwrite=True))
    return _take_out(library, gone, kept)._replace(profiles=tuple(profiles))


def _take_out(library: Library, gone: list[str], kept: list[str]) -> TakenOut:
    files: list[str] = []
    used: list[str] = []
    changed: list[str] = []
    for place in EXAMPLE:
        path = library.folder / place
        if place in gone and place not in kept:
            path.unlink()
            files.append(place)
        elif path.exists():
            (used if place in kept else changed).append(place)
    return TakenOut((), tuple(files), tuple(used), tuple(changed))


def _without_profiles(text: str, gone: list[str]) -> tuple[str, list[str]]:
    """The description without the reference profiles of the example's text, and their names. All else stays as it
    is.
    """

    def of_example(table: Mapping[str, object]) -> bool:
        written = table.get("text")
        texts = written if isinstance(written, list) else [written]
        return bool(texts) and all(item in gone for item in texts)

    left, taken = without_tables(text, "profile", of_example)
    return left, [str(table.get("name", "")) for table in taken]


def _used(library: Library) -> Iterator[str]:
    """The files that the reference profiles that are left need."""
    for profile in library.profiles:
        yield from profile.texts
        yield f"keymaps/{profile.key_map}.toml"
        yield from (f"facts/{name}.toml" for name in profile.facts)
