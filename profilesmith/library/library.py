"""A club's library: a folder of recipes, key maps, facts, reference profiles and evidence, described by
``library.toml``.
"""

import re
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem
from profilesmith.foundation.read_file import read_toml
from profilesmith.foundation.toml_table import TomlTable, TooManyMistakes, parse_toml

DESCRIPTION = "library.toml"
ACCEPTED = re.compile(r"T[45][0-9]{2}")


class ReferenceProfile(NamedTuple):
    """A profile that every recipe of the library is tried on.

    texts: files below the library's folder. key_map, facts: names in the library.
    """

    name: str
    texts: tuple[str, ...]
    key_map: str
    facts: tuple[str, ...] = ()
    place: Place = Place()


class Library(NamedTuple):
    """What ``library.toml`` says. folder: where it lies. accepted: number of a finding -> why it is taken on purpose.

    contact: how to reach the keepers, in a sentence.
    """

    folder: Path
    name: str
    about: str = ""
    licence: str = ""
    keepers: tuple[str, ...] = ()
    profiles: tuple[ReferenceProfile, ...] = ()
    strict: bool = False
    place: Place = Place()
    accepted: Mapping[str, str] = MappingProxyType({})
    contact: str = ""


def load_library(folder: Path) -> tuple[Library | None, list[Problem]]:
    """Read ``library.toml`` of a folder; all of its mistakes in one run."""
    path = folder / DESCRIPTION
    top, problems = read_toml(path, str(path), "library description")
    if top is None:
        return None, problems
    try:
        library = _read(top, folder)
    except TooManyMistakes:
        return None, top.file.problems
    return (None if top.file.problems else library), top.file.problems


def parse_library(raw: bytes) -> Library | None:
    """A description from bytes; None for one that does not read."""
    top, _ = parse_toml(raw, DESCRIPTION, "library description")
    if top is None:
        return None
    try:
        library = _read(top, Path())
    except TooManyMistakes:
        return None
    return None if top.file.problems else library


def _read(top: TomlTable, folder: Path) -> Library:
    head = top.table("library", required=True)
    library = Library(
        folder=folder,
        name=head.text("name", required=True),
        about=head.text("about"),
        licence=head.text("licence", required=True),
        keepers=head.texts("keepers") or (),
        contact=head.text("contact"),
        strict=head.flag("strict"),
        place=head.file.place(("library",)),
        profiles=tuple(_profile(table, folder) for table in top.tables("profile")),
    )
    head.done()
    library = library._replace(accepted=_accepted(top))
    top.done()
    return library


def _accepted(top: TomlTable) -> dict[str, str]:
    """Why findings are taken on purpose."""
    table = top.table("accepted")
    accepted = {}
    for number, reason in table.entries():
        if not isinstance(reason, str):
            table.complain("wrong-type", f"{number!r} must be a text in quotes.", number, 'Write T502 = "why".')
        elif not ACCEPTED.fullmatch(number):
            table.complain("accepted", f"{number!r} is no finding that can be accepted.", number, "T4.. and T5.. can.")
        else:
            accepted[number] = reason
    return accepted


def _profile(table: TomlTable, folder: Path) -> ReferenceProfile:
    texts = table.texts("text", required=True) or ()
    for text in texts:
        if not inside(folder, folder / text):
            table.complain(
                "outside", f"The text {text!r} lies outside the library.", "text", "Copy it into the library."
            )
    profile = ReferenceProfile(
        name=table.text("name", required=True),
        texts=texts,
        key_map=table.text("keymap", required=True),
        facts=table.texts("facts") or (),
        place=table.file.place(table.path),
    )
    table.done()
    return profile


def inside(folder: Path, path: Path) -> bool:
    """Whether a path, links followed, lies in a folder. Names and links of a stranger's library lead nowhere else."""
    return path.resolve().is_relative_to(folder.resolve())
