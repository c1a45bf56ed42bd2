"""The starter example of a new library: which files are it, and what it is tried with. A real recipe never is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from profilesmith.library.lay_out import EXAMPLE, library_files
from profilesmith.library.library import Library, ReferenceProfile
from profilesmith.workflows.read import plain_bytes

STARTER = "example-gentle"  # the recipe that a new library begins with


def example_texts(library: Library) -> Mapping[str, bytes]:
    """The example's files as a new library of this name and licence has them, by their place."""
    files = library_files(library.name, library.licence, {})
    return {place: files[place] for place in EXAMPLE}


def is_example(library: Library, place: str) -> bool:
    """Whether a file is the starter example's, as it was laid out."""
    return plain_bytes(library.folder / place) == example_texts(library).get(place, b"")


def is_example_profile(library: Library, profile: ReferenceProfile) -> bool:
    """Whether a reference profile is the starter example's: it says nothing of a real recipe."""
    return all(text in EXAMPLE and is_example(library, text) for text in profile.texts)


def suits(recipes: Sequence[str], of_example: bool) -> bool:
    """Whether recipes are tried on a reference profile: on the example's only its own, with whatever it goes with."""
    return not of_example or STARTER in recipes
