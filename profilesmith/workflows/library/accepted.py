"""What a keeper takes on purpose: numbers of findings, each with its reason in a commit's message since the
revision.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.library.library import DESCRIPTION, load_library, parse_library
from profilesmith.lint.finding import LintFinding
from profilesmith.lint.head_commit import committed_files, messages_since
from profilesmith.lint.names import LibraryNames

# What a change does (T4..) and takes away (T5..); nothing else is anybody's to let pass.
ACCEPTABLE = re.compile(r"T[45][0-9]{2}")
SHORTEST = 10  # signs of a reason
REASON = re.compile(r"^[ \t]*(T[45][0-9]{2}):[ \t]*(\S.{9,})$", re.MULTILINE)


def reasons_for(accepted: Sequence[str], names: LibraryNames, since: str | None) -> dict[str, str]:
    """Number -> reason. Raises Refused for a number that cannot be accepted, or that no message gives a reason for."""
    place = Place("--accept")
    wanted = [number.upper() for number in accepted]
    strange = [number for number in wanted if not ACCEPTABLE.fullmatch(number)]
    hint = "Only what a change does or takes away can be accepted: T4.. and T5.., with --since."
    refuse_if(Problem("accept", f"{number[:40]!r} cannot be accepted.", place, hint) for number in strange)
    refuse_if(
        [Problem("accept", "Without --since nothing is held against anything.", place, hint)]
        if wanted and since is None
        else []
    )
    reasons = {**_in_library(names), **dict(REASON.findall(messages_since(names.folder, names.head)))} if wanted else {}
    refuse_if(
        Problem(
            "no-reason",
            f"No commit since {names.head.since} says why {number} is accepted, and no new line of {DESCRIPTION}.",
            place,
            f"Write a line '{number}: the reason' into the message of a commit of this change, or"
            f' {number} = "the reason" under [accepted] in {DESCRIPTION}.',
        )
        for number in wanted
        if number not in reasons
    )
    return {number: reasons[number].strip() for number in wanted}


def _in_library(names: LibraryNames) -> dict[str, str]:
    """Reasons that the change itself brought into the library's description: an old one speaks of an old change."""
    now, before = load_library(names.folder)[0], committed_files(names.folder, names.head, [DESCRIPTION])
    old = parse_library(before[DESCRIPTION]) if DESCRIPTION in before else None
    known = old.accepted if old else {}
    reasons = now.accepted.items() if now else ()
    return {number: why for number, why in reasons if known.get(number) != why and len(why.strip()) >= SHORTEST}


def with_accepted(findings: Iterable[LintFinding], reasons: dict[str, str]) -> list[LintFinding]:
    """The accepted ones as hints in any strictness, with the reason."""
    return [
        item._replace(severity="hint", message=f"{item.message} (accepted: {reasons[item.number]})", fix="")
        if item.number in reasons
        else item
        for item in findings
    ]
