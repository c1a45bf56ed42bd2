"""The forms in which a command can show something: the same names for ``--as`` and ``--report`` everywhere.

Inside, a form keeps the name of its rendering; what a person writes may be the short name or an alias.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import PurePath

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean, refuse_if
from profilesmith.review.render import ENDINGS, form_of_name

SHORT = {"page": "html", "markdown": "md"}
"""Rendering -> the name that is shown for it; the rendering's own name is taken as well."""
REVIEW = ("terminal", "page", "markdown", "json", "checklist", "checklist-page", "sheet", "sheet-page")
"""Every rendering of a review."""


def shown_name(form: str) -> str:
    """What a person writes for a rendering: ``html`` for ``page``."""
    return SHORT.get(form, form)


def names(known: Iterable[str]) -> str:
    """``terminal, html, md or json``, for help and hints. A page of a checklist is asked for by a report's name."""
    words = [shown_name(form) for form in known if not form.endswith("-page")]
    return f"{', '.join(words[:-1])} or {words[-1]}" if len(words) > 1 else "".join(words)


def form_called(name: str, known: Iterable[str] = REVIEW) -> str:
    """The rendering that a name means, among those that a command has. Raises Refused with the nearest name."""
    allowed = list(known)
    meant = {shown_name(form): form for form in allowed} | {form: form for form in allowed}
    if name not in meant:
        hint = did_you_mean(name, meant, f"Known here: {names(allowed)}.")
        raise Refused([Problem("form", f"There is no form {name!r} here.", Place("--as"), hint)])
    return meant[name]


def reports_called(reports: Iterable[str] | None, known: Iterable[str] = REVIEW) -> list[tuple[str, str]]:
    """Each report's name, and the form that it asks for. Raises Refused for every name that asks for none."""
    allowed = list(known)
    asked = [(name, form_of_name(name)) for name in reports or () if name]
    endings = [ending for ending, form in ENDINGS.items() if form in allowed]
    refuse_if(
        Problem("form", _no_form(name, form), Place("--report"), _with_ending(name, endings))
        for name, form in asked
        if form not in allowed
    )
    return asked


def _no_form(name: str, form: str) -> str:
    if form:
        return f"{name} asks for a {shown_name(form)}, which this command does not write."
    ending = PurePath(name).suffix
    return f"The ending {ending!r} of {name} names no form." if ending else f"{name} has no ending that names a form."


def _with_ending(name: str, endings: Sequence[str]) -> str:
    return f"Such as {PurePath(name).stem}{endings[0]}. Known endings: {', '.join(endings)}."
