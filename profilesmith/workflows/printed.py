"""What was printed: recipes, facts and values, from a derivation made once more or from a derived file and its
ledger.
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from math import isclose
from pathlib import Path

from profilesmith.engine.derived_file import translation_now
from profilesmith.engine.edits_since import edits_since, kept_edits
from profilesmith.engine.mend import road_in
from profilesmith.evidence.of_derivation import printed_values
from profilesmith.evidence.record import MotionVerdict, Values
from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger.place import ledger_beside
from profilesmith.ledger.read import Stored
from profilesmith.mend.as_rules import LAID
from profilesmith.mend.road import RoadStep
from profilesmith.profile.profile import Profile
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.hand_edits import changed_settings
from profilesmith.review.render.command import command
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.derive import apply
from profilesmith.workflows.derived_file import derived_file, load_ledger
from profilesmith.workflows.derived_now import read_now
from profilesmith.workflows.read import read_recipes
from profilesmith.workflows.request import Request

PRINTED, NOW = VALUES = ("printed", "now")
"""Of a file that was edited since: the values as they were written, or as they stand in it."""


class Printed(NamedTuple):
    """recipes: name -> version, in their order. wanted: those to record. by_hand: settings edited since; edits:
    sentences on them.

    motion: what the newest check of a motion file against the ledger said. road: the mends that led to it.
    """

    recipes: Mapping[str, str]
    wanted: tuple[str, ...]
    facts: Facts
    values: Values
    by_hand: tuple[str, ...] = ()
    edits: tuple[str, ...] = ()
    motion: MotionVerdict = ""
    road: tuple[RoadStep, ...] = ()


def printed_from_base(request: Request, values: str = "") -> Printed:
    """Derive once more; the result is what was printed. Raises Refused. values: of files that were edited only."""
    if values:
        hint = "Leave it out, or name the file that was printed with --derived."
        raise Refused([Problem("values", "Without --derived nothing was edited since.", Place("--values"), hint)])
    if not request.recipes or not request.bases or not request.key_map:
        hint = "Name the derived file with --derived, or the recipes with --base and --keymap."
        raise Refused([Problem("no-print", "It is not said what was printed.", Place("evidence add"), hint)])
    _, recipes, facts, ledger = apply(request)
    refuse_if([*ledger.problems, *_derived_bases(request.bases, recipes, request.library)])
    versions = {recipe.name: recipe.version for recipe in recipes}
    return Printed(
        versions, tuple(versions), facts, printed_values(ledger.changed_settings(), ledger.derived, load_vocabulary())
    )


def _derived_bases(bases: Sequence[str], recipes: Sequence[Recipe], library: Path | None) -> list[Problem]:
    """Bases that a recipe of this call made: derived again they would show nothing changed."""
    problems = []
    for base in bases:
        if not os.path.isfile(ledger_beside(Path(base))):
            continue
        try:
            names = {use.name for use in load_ledger(base).ledger.recipes}
        except Refused:  # no ledger of ours
            continue
        both = ", ".join(recipe.name for recipe in recipes if recipe.name in names)
        if both:
            hint = (
                "Record the print from it: "
                f"'{command('evidence add', '--derived', base, library=library)}', with what you judged."
            )
            problems.append(
                Problem(
                    "derived-base",
                    f"This was itself derived with {both}: its ledger lies beside it.",
                    Place(base),
                    hint,
                )
            )
    return problems


def printed_from_derived(derived: str, request: Request, values: str = "") -> Printed:
    """Read the ledger beside a derived file, and the file as it is now. Raises Refused.

    request: of it the recipes to record (none: all of the ledger), the key map when the ledger's is gone, and the
    library.
    values: PRINTED or NOW, which must be said where values were edited since.
    """
    refuse_if([*_said_twice(request), *_other_values(values)])
    stored = load_ledger(derived)
    refuse_if(stored.ledger.problems)
    wanted = _wanted(derived, stored, request)
    now = read_now(derived, stored, request)
    vocabulary, ledger = load_vocabulary(), stored.ledger
    # Without an edit, what differs is a map that learnt more keys since.
    edits = tuple(edits_since(derived_file(derived, stored)))
    edited = changed_settings(ledger, now.profile) if edits else []
    own = [name for name in edited if not _follows(name, ledger.derived, now.profile)]
    refuse_if(_not_said(derived, own, values))
    profile, edited = (ledger.derived, []) if values == PRINTED else (now.profile, edited)
    hand = (set(own) & set(edited)) | laid_over(stored) | _kept(derived, stored, profile)
    names = [name for name in vocabulary.settings if name in {*ledger.changed_settings(), *edited, *hand}]
    by_hand = tuple(name for name in names if name in hand)
    return Printed(
        {use.name: use.version for use in stored.named},
        wanted,
        stored.ledger.facts,
        printed_values(names, profile, vocabulary),
        by_hand,
        edits,
        _motion(stored),
        road_in(stored, derived),
    )


def edited_values(derived: str, request: Request) -> tuple[str, ...]:
    """Sentences on a derived file that was edited since, where some of its values are others. Raises Refused."""
    stored = load_ledger(derived)
    edits = tuple(edits_since(derived_file(derived, stored)))
    return edits if edits and changed_settings(stored.ledger, read_now(derived, stored, request).profile) else ()


def _other_values(values: str) -> list[Problem]:
    known = values in ("", *VALUES)
    hint = "Write printed (as it was derived) or now (with the edits)."
    return (
        [] if known else [Problem("values", f"{values!r} is not one of {', '.join(VALUES)}.", Place("--values"), hint)]
    )


def _not_said(derived: str, edited: Sequence[str], values: str) -> list[Problem]:
    if not edited or values:
        return []
    message = f"It was edited since it was derived ({', '.join(edited)}): which values were printed?"
    hint = f"Add --values {PRINTED} where the edits came after the print, --values {NOW} where they were printed."
    return [Problem("edited-since", message, Place(derived), hint)]


def _motion(stored: Stored) -> MotionVerdict:
    checks = stored.file.motion
    return "" if not checks else "found" if checks[-1].found else "passed"


def laid_over(stored: Stored) -> set[str]:
    """The settings that a rule of this profile alone moved: for the recipes' evidence they were moved by hand.

    Mends are not: the record names them as mends.
    """
    laid = _laid(stored) - {LAID}
    return {row.setting for row in stored.ledger.of_status("changed", "added") if row.cause.recipe in laid}


def _kept(derived: str, stored: Stored, profile: Profile) -> set[str]:
    """The edits that went along when the file was mended or derived again, and that stand in the profile still."""
    file = derived_file(derived, stored)
    kept = kept_edits(file, translation_now(file))
    return {name for name, edit in kept.items() if not edit.follows and profile.values(name) != edit.made}


def _laid(stored: Stored) -> set[str]:
    return {use.name for use in stored.ledger.recipes[len(stored.named) :]}


def _said_twice(request: Request) -> list[Problem]:
    """What the ledger says already."""
    given = (("--base", request.bases), ("--facts", request.facts), ("--answer", request.answers))
    hint = "Leave it out: the ledger knows base, facts and answers."
    return [
        Problem("twice", f"With --derived there is no {option}.", Place(option), hint)
        for option, value in given
        if value
    ]


def _wanted(derived: str, stored: Stored, request: Request) -> tuple[str, ...]:
    known = list(dict.fromkeys(use.name for use in stored.named))
    problems: list[Problem] = []
    names = [
        name
        for word in request.recipes
        for name in (
            [word] if word in known else [item.name for item in read_recipes([word], request.library, problems)]
        )
    ]
    refuse_if(problems)
    hint = f"Its recipes: {', '.join(known) or 'none'}."
    refuse_if(
        Problem("other-recipe", f"This was not derived with {name!r}.", Place(derived), hint)
        for name in names
        if name not in known
    )
    if not known:
        raise Refused(
            [Problem("no-recipe", "This was derived without a recipe.", Place(derived), "Evidence is about recipes.")]
        )
    return tuple(dict.fromkeys(names)) or tuple(known)


def _follows(name: str, then: Profile, now: Profile) -> bool:
    """Whether a value moved only with the setting that it is a share of: nobody edited it itself."""
    entry = now.entries.get(name)
    if entry is None or not entry.shares or entry.shares[0] is None:
        return False
    before, reference = then.number(name), then.number(entry.relative_to)
    return before is not None and bool(reference) and isclose(before / (reference or 1), entry.shares[0])
