"""What a keeper takes on purpose: numbers of findings, each with its reason in a commit's message since the
revision.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.lint.finding import LintFinding
from profilesmith.lint.head_commit import messages_since
from profilesmith.lint.names import LibraryNames

# What a change does (T4..) and takes away (T5..); nothing else is anybody's to let pass.
ACCEPTABLE = re.compile(r"T[45][0-9]{2}")
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
    told = dict(REASON.findall(messages_since(names.folder, names.head))) if wanted else {}
    refuse_if(
        Problem(
            "no-reason",
            f"No commit since {names.head.since} says why {number} is accepted.",
            place,
            f"Write a line '{number}: the reason' into the message of a commit of this change.",
        )
        for number in wanted
        if number not in told
    )
    return {number: told[number].strip() for number in wanted}


def with_accepted(findings: Iterable[LintFinding], reasons: dict[str, str]) -> list[LintFinding]:
    """The accepted ones as hints in any strictness, with the reason."""
    return [
        item._replace(severity="hint", message=f"{item.message} (accepted: {reasons[item.number]})", fix="")
        if item.number in reasons
        else item
        for item in findings
    ]
