"""Review -> str, one file a form, listed in one literal dict. To add one: a file and a line here."""

from collections.abc import Callable, Mapping
from importlib import import_module
from pathlib import PurePath

from profilesmith.foundation.late_pattern import late
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.review.review import Review

LAST_WORD = late(r"[^a-z0-9]+")


class Look(NamedTuple):
    """How a rendering is to come out.

    width: columns of the terminal; colour: with control sequences; full: all lists; sources: of consequences and
    cautions.
    """

    width: int = 80
    colour: bool = False
    full: bool = False
    sources: bool = False


# The modules are imported when asked for: a plain derivation needs no templates, a page no rich.
RENDERERS: Mapping[str, str] = {
    "terminal": "profilesmith.review.render.terminal",
    "markdown": "profilesmith.review.render.markdown",
    "page": "profilesmith.review.render.page",
    "json": "profilesmith.review.render.json",
    "checklist": "profilesmith.review.render.checklist",
    "checklist-page": "profilesmith.review.render.checklist_page",
    "sheet": "profilesmith.review.render.whole_sheet",
    "sheet-page": "profilesmith.review.render.whole_sheet_page",
}

DATA = ("json",)
"""Those that programs read: the same rows, without what a person is to look at first."""

ENDINGS: Mapping[str, str] = {".html": "page", ".htm": "page", ".md": "markdown", ".json": "json", ".txt": "terminal"}

# A report with this word in its name is for typing in by hand.
CHECKLISTS: Mapping[str, str] = {"page": "checklist-page", "markdown": "checklist"}

# One with this as the last word of its name holds every value.
SHEETS: Mapping[str, str] = {"page": "sheet-page", "markdown": "sheet"}


def form_of_name(file_name: str) -> str:
    """The form that a report's name asks for: ``review.html`` a page, ``checklist.md`` a checklist; "" for none.

    ``soft-sheet.html`` is a whole sheet; ``datasheet.html`` is none.
    """
    path = PurePath(file_name.lower())
    form = ENDINGS.get(path.suffix, "")
    if "checklist" in path.stem:
        return CHECKLISTS.get(form, form)
    return SHEETS.get(form, form) if LAST_WORD.split(path.stem)[-1] == "sheet" else form


def render(review: Review, form: str, look: Look = Look()) -> str:
    """The review in one of the forms of RENDERERS. Ends with a newline."""
    function: Callable[[Review, Look], str] = import_module(RENDERERS[form]).render
    return function(review, look)
