"""Evidence: a print that somebody judged is recorded in a library; what is recorded is listed and summed up."""

from __future__ import annotations

import datetime
import secrets
import time
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import cast

from profilesmith.evidence.append_record import append_record
from profilesmith.evidence.load_evidence import LoadedEvidence
from profilesmith.evidence.of_derivation import recorded_facts
from profilesmith.evidence.of_road import NowPrinted, tried_mends
from profilesmith.evidence.read_record import read_record
from profilesmith.evidence.record import JUDGED, OUTCOMES, Outcome, Record, record_line
from profilesmith.evidence.tally import Tally, tally
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean, refuse_if
from profilesmith.ledger.history import GRADES, Grade
from profilesmith.library.find import named_library
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.evidence_of import evidence_path, load_of
from profilesmith.workflows.printed import Printed, printed_from_base, printed_from_derived
from profilesmith.workflows.request import Request
from profilesmith.workflows.road import now_printed
from profilesmith.write_files import write_whole

FORMS = ("terminal", "json")
# What the command line calls the members of a record.
OPTIONS = {
    **{f"judged, {name}": f"--{name}" for name in JUDGED},
    **{name: f"--{name}" for name in (*JUDGED, "outcome", "date", "note", "by")},
}
AT_ONCE = 60.0  # seconds within which the same call is more likely a slip than a second print
Again = Callable[[str], bool]


class JudgedPrint(NamedTuple):
    """What a person says of a print, as typed. grades: adhesion -> good; by: "" for nobody's name; date: "" for
    today.

    seen: ``stringing=good``, troubles of that print; last: what came of the newest mend of its ledger.
    """

    outcome: str
    grades: Mapping[str, str] = {}
    note: str = ""
    by: str = ""
    date: str = ""
    seen: tuple[str, ...] = ()
    last: str = ""


class Added(NamedTuple):
    """A record as written. again: an equal record of that day is there already."""

    record: Record
    path: Path
    tally: Tally
    again: bool


class AllAdded(NamedTuple):
    """added: one for each recipe. left_out: sentences on facts that were not recorded. edits: on what was edited by
    hand.
    """

    added: tuple[Added, ...]
    left_out: tuple[str, ...]
    edits: tuple[str, ...]
    values: str = ""


def add_evidence(
    request: Request, judged: JudgedPrint, derived: str = "", values: str = "", again: Again | bool = True
) -> AllAdded:
    """Record how a print went, once for each of its recipes. Raises Refused; then nothing was written.

    again: whether an equal print may be recorded a moment after one; what is asked then, with a sentence on it.

    derived: the file that was printed; its ledger says the rest. Without it the request is derived once more.
    values: ``printed`` or ``now`` where the file was edited since: what of it the print was made with.
    """
    refuse_if([*_misjudged(judged), *_day_to_come(judged.date)])
    folder = club_folder(request.library)
    printed = printed_from_derived(derived, request, values) if derived else printed_from_base(request, values)
    facts, left_out = recorded_facts(printed.facts)
    now = now_printed(printed.road, judged.seen, judged.last, request.library)
    mark = secrets.token_hex(4)
    once = judged._replace(grades={})  # what was observed is of the print, and stands in its first record
    records = [
        _record(name, printed, facts, judged if number == 0 else once, now, mark)
        for number, name in enumerate(printed.wanted)
    ]
    # The one who writes and the one who reads hold to the same rules: what would be refused later is refused now.
    refuse_if(problem for record in records for problem in _read_back(record))
    paths = [evidence_path(folder, record.recipe) for record in records]
    known = [load_of(folder, path) for path in paths]
    refuse_if(problem for loaded in known for problem in loaded.problems)
    refuse_if(_at_once(records[0], paths[0], known[0], again))
    for number, (path, record) in enumerate(zip(paths, records, strict=True)):
        refuse_if(_with_the_rest(append_record(path, record, write_whole), paths[:number]))
    added = (_added(record, path, loaded) for record, path, loaded in zip(records, paths, known, strict=True))
    return AllAdded(tuple(added), left_out, printed.edits, values)


def _at_once(record: Record, path: Path, before: LoadedEvidence, again: Again | bool) -> list[Problem]:
    """The same call twice: an equal record is the file's last, and was written a moment ago."""
    if not before.records or not _is_equal(before.records[-1], record) or again is True:
        return []
    if not 0 <= time.time() - path.stat().st_mtime < AT_ONCE:
        return []
    message = "The same print was recorded less than a minute ago."
    if callable(again) and again(message):
        return []
    hint = "Add --again where this is a second print; nothing was recorded now."
    return [Problem("again", message, Place(str(path)), hint)]


def _misjudged(judged: JudgedPrint) -> Iterator[Problem]:
    """Outcomes and grades that there are not, before anything is looked for."""
    asked = [("outcome", judged.outcome, OUTCOMES), *((word, grade, GRADES) for word, grade in judged.grades.items())]
    for word, value, known in asked:
        if value not in known:
            hint = did_you_mean(value, known, f"Write {', '.join(known[:-1])} or {known[-1]}.")
            yield Problem("value", f"{value!r} is not one of {', '.join(known)}.", Place(f"--{word}"), hint)


def _record(
    name: str, printed: Printed, facts: Mapping[str, str], judged: JudgedPrint, now: NowPrinted, mark: str
) -> Record:
    return Record(
        date=judged.date or datetime.date.today().isoformat(),
        recipe=name,
        version=printed.recipes[name],
        outcome=cast(Outcome, judged.outcome),
        judged=cast(Mapping[str, Grade], judged.grades),
        facts=facts,
        values=printed.values,
        mark=mark,
        note=judged.note,
        by=judged.by,
        by_hand=printed.by_hand,
        motion=printed.motion,
        seen=now.seen,
        mends=tried_mends(printed.road, now, load_vocabulary()),
        together={other: version for other, version in printed.recipes.items() if other != name},
    )


def _added(record: Record, path: Path, before: LoadedEvidence) -> Added:
    again = any(_is_equal(item, record) for item in before.records)
    return Added(record, path, tally(record.recipe, record.version, (*before.records, record)), again)


def _is_equal(one: Record, other: Record) -> bool:
    """Whether two records say the same."""
    return one._replace(mark="", place=Place()) == other._replace(mark="", place=Place())


def _with_the_rest(problems: list[Problem], written: list[Path]) -> list[Problem]:
    """A disk that is full at the second file: the first record is there, and that is said."""
    done_hint = f" Recorded already: {', '.join(map(str, written))}." if written else ""
    return [problem._replace(hint=f"{problem.hint}{done_hint}".strip()) for problem in problems]


def _day_to_come(date: str) -> list[Problem]:
    """A day that is still to come; tomorrow's may have begun where the print was made."""
    try:
        day = datetime.date.fromisoformat(date)
    except ValueError:  # reading the record back says what is wrong with it
        return []
    if day <= datetime.date.today() + datetime.timedelta(days=1):
        return []
    return [Problem("future", f"The day {date} is still to come.", Place("--date"), "Give the day of the print.")]


def _read_back(record: Record) -> list[Problem]:
    _, problems = read_record(record_line(record), Place("evidence add"), load_vocabulary())
    return [problem._replace(place=Place(_option(problem.place.path))) for problem in problems]


def _option(member: str) -> str:
    """What a user calls a member of a record: ``--adhesion`` for ``judged, adhesion``."""
    return OPTIONS.get(member, ", ".join(("evidence add", member)))


def club_folder(named: Path | None) -> Path:
    """The library that a record goes to. Raises Refused: the one that ships is for reading."""
    library = named_library(named)
    if library is None:
        hint = "Name your own: --library FOLDER. 'profilesmith library new FOLDER' lays one out."
        message = "A record needs a library to go to; the one that ships is only read."
        raise Refused([Problem("no-library", message, Place("--library"), hint)])
    return library
