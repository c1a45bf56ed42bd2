"""Which library a call means, and its reference profiles read once: texts, map and facts, by name alone."""

import os
from pathlib import Path

from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.foundation.read_file import no_such_file
from profilesmith.library.find import names, shipped
from profilesmith.library.library import DESCRIPTION, Library, ReferenceProfile, inside, load_library
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.library.starter import is_example_profile
from profilesmith.workflows.read import read_documents, read_facts, read_key_map

LARGEST_PROFILE = 5_000_000  # bytes


class Ground(NamedTuple):
    """A reference profile that reads: what recipes are tried on. is_example: a new library's, for its one recipe."""

    profile: ReferenceProfile
    translation: Translation
    facts: Facts
    is_example: bool = False


def library_folder(named: Path | None) -> Path:
    """The folder that is named, else $PROFILESMITH_LIBRARY, else the one that the caller stands in. Raises Refused."""
    if named is not None:
        folder = named
    elif os.environ.get("PROFILESMITH_LIBRARY"):
        folder = Path(os.environ["PROFILESMITH_LIBRARY"])
    else:
        folder = Path()
    if not os.path.isdir(folder):
        raise Refused(
            [
                Problem(
                    "no-folder",
                    "There is no such folder.",
                    Place(str(folder)),
                    "Check the name; 'profilesmith library new' lays one out.",
                )
            ]
        )
    if not os.path.isfile(folder / DESCRIPTION):
        hint = "Name a library with --library, or lay one out with 'profilesmith library new FOLDER'."
        raise Refused(
            [Problem("no-library", f"Here is no {DESCRIPTION}: the folder is no library.", Place(str(folder)), hint)]
        )
    return folder


def open_library(named: Path | None) -> Library:
    """The library that a call means. Raises Refused with every mistake of its description."""
    library, problems = load_library(library_folder(named))
    refuse_if(problems)
    assert library is not None
    return library


def ground(library: Library, profile: ReferenceProfile) -> tuple[Ground | None, list[Problem]]:
    """Read a reference profile once."""
    problems: list[Problem] = []
    key_map_path = _held(library, "key map", profile.key_map, profile, problems)
    fact_paths = [_held(library, "facts", name, profile, problems) for name in profile.facts]
    key_map = read_key_map(str(key_map_path), library.folder, problems) if key_map_path else None
    facts = read_facts([str(path) for path in fact_paths if path], library.folder, problems)
    texts = [library.folder / text for text in profile.texts]
    problems += [problem for text in texts if (problem := _unfit(text)) is not None]
    if key_map is None or problems:
        return None, problems
    documents = read_documents(map(str, texts), key_map.habits, problems)
    if problems or not documents:
        return None, problems
    translation = translate(documents, key_map, load_vocabulary())
    if translation.problems:
        return None, list(translation.problems)
    return Ground(profile, translation, facts, is_example_profile(library, profile)), []


def _unfit(text: Path) -> Problem | None:
    """Why a text is not even opened: every recipe would be tried on it, whatever a stranger has put there."""
    if not os.path.isfile(text):  # a pipe would be waited for without end
        return no_such_file(str(text))
    if text.stat().st_size > LARGEST_PROFILE:
        message = f"The text is larger than {LARGEST_PROFILE:,} bytes."
        return Problem(
            "too-large", message, Place(str(text)), "A reference profile is a few pages; leave out what is no setting."
        )
    return None


def _held(library: Library, kind: str, name: str, profile: ReferenceProfile, problems: list[Problem]) -> Path | None:
    """A file by its name in the library or the shipped one. A stranger's library names no path, and its links lead
    nowhere.
    """
    path = dict(names(kind, library.folder)).get(name)
    if path is None:
        hint = "Put the file into the library, and name it without its folder and ending."
        problems.append(
            Problem("not-found", f"There is no {kind} called {name!r} in the library.", profile.place, hint)
        )
    elif not (inside(library.folder, path) or inside(shipped(), path)):
        problems.append(
            Problem(
                "outside",
                f"The {kind} {name!r} lies outside the library.",
                profile.place,
                "Put the file itself there, not a link.",
            )
        )
        return None
    return path
