"""One derived file brought forward, as data that travels between processes; what goes wrong is its problems."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Final, Literal

from profilesmith.engine.rederive import Rederivation
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, fault_of, refuse_if
from profilesmith.ledger import Decision
from profilesmith.ledger.not_as_then import NotAsThen
from profilesmith.ledger.read import Stored
from profilesmith.merge.other_keys import other_keys_edited
from profilesmith.review.wording import signs_shown, visible
from profilesmith.revision.on_profiles import Moved
from profilesmith.revision.outcomes import Alarm, OutcomeDifference, ProfileOutcome, alarms_of, difference
from profilesmith.translation.document_to_profile import Translation
from profilesmith.workflows.derive import files_at
from profilesmith.workflows.derived_file import load_ledger
from profilesmith.workflows.edits_at_stake import AtStake, discarded_edits
from profilesmith.workflows.read import plain_bytes
from profilesmith.workflows.rederive.age import CURRENT
from profilesmith.workflows.rederive.check import check_all
from profilesmith.workflows.rederive.forward.targets import Target
from profilesmith.workflows.rederive.onto import onto_of
from profilesmith.workflows.rederive.rederive import rederive
from profilesmith.workflows.request import Request
from profilesmith.workflows.request_again import derived_paths
from profilesmith.write_files import make_folder, outputs_free
from profilesmith.write_many import write_many

BEFORE: Final = ".before"
"""The ending of what a file was, until the next run that writes it."""
FAULT = 70
State = Literal["made", "current", "stays", "failed"]


class ForwardOrder(NamedTuple):
    """What is to be done to every file. request: what is named anew; bases in it are what ``--onto`` names.

    prefer: "base", "derived" or "" for nobody; out: a folder, "" for none; in_place: into the files themselves.
    With neither nothing is written.
    """

    request: Request
    prefer: str = ""
    keep_facts: bool = False
    out: str = ""
    in_place: bool = False
    overwrite: bool = False
    discard_edits: bool = False

    @property
    def names_anew(self) -> bool:
        said = self.request
        return bool(said.bases or said.key_map or said.recipes or said.facts or said.answers)


class UnmappedKey(NamedTuple):
    """A key that the map does not know. was, now: None where it is not there."""

    key: str
    was: str | None
    now: str | None


class Forward(NamedTuple):
    """What came of one derived file.

    state: made; current (nothing it came from is newer); stays (conflicts that nobody decided); failed.
    moved: settings, from what stood in the file to what stands there now; lines: other keys, alike.
    decisions: what became of hand edits; open: conflicts that nobody decided. came, worse, went: alarms.
    written: files. problems: why it failed. lost: files whose hand edits were lost on purpose.
    """

    file: str
    state: State
    moved: tuple[Moved, ...] = ()
    lines: tuple[UnmappedKey, ...] = ()
    decisions: tuple[Decision, ...] = ()
    open: tuple[Decision, ...] = ()
    came: tuple[Alarm, ...] = ()
    worse: tuple[Alarm, ...] = ()
    went: tuple[Alarm, ...] = ()
    written: tuple[str, ...] = ()
    problems: tuple[Problem, ...] = ()
    lost: tuple[AtStake, ...] = ()
    not_as_then: NotAsThen = NotAsThen()
    code: int = 0


class MadeForward(NamedTuple):
    """A file that is ready to be written."""

    forward: Forward
    files: dict[Path, bytes]


def work(chunk: Sequence[Target], asked: ForwardOrder) -> list[Forward]:
    """Bring forward and write; whatever happens to one of them, the others go on."""
    made = [_made(target, asked) for target in chunk]
    problems = write_many([item.files for item in made], overwrite=asked.in_place or asked.overwrite)
    return [
        _failed(item.forward.file, Refused(refused)) if refused else item.forward
        for item, refused in zip(made, problems, strict=True)
    ]


def _made(target: Target, asked: ForwardOrder) -> MadeForward:
    open_: list[Decision] = []

    def choose(decision: Decision) -> str:
        if not asked.prefer:
            open_.append(decision)
        return asked.prefer

    try:
        if not asked.out and not asked.names_anew and _is_current(target.derived, asked):
            return MadeForward(Forward(target.derived, "current"), {})
        return _carry_out(target, asked, choose)
    except Refused as refused:
        if open_ and all(problem.code == "merge-conflict" for problem in refused.problems):
            return MadeForward(Forward(target.derived, "stays", open=tuple(open_), code=refused.exit_code), {})
        return MadeForward(_failed(target.derived, refused), {})
    except Exception as error:
        return MadeForward(Forward(target.derived, "failed", problems=(fault_of(error),), code=FAULT), {})


def _is_current(derived: str, asked: ForwardOrder) -> bool:
    return check_all([derived], (), asked.request.library, asked.keep_facts)[0].state == CURRENT


def _failed(name: str, refused: Refused) -> Forward:
    return Forward(name, "failed", problems=refused.problems, code=refused.exit_code)


def _carry_out(target: Target, asked: ForwardOrder, choose: object) -> MadeForward:
    """The one place that re-derives. Raises Refused."""
    stored = load_ledger(target.derived)
    bases = onto_of(stored, Path(target.derived).parent, asked.request.bases)
    request = asked.request._replace(bases=bases)
    made = rederive([target.derived], request, choose, asked.keep_facts)  # type: ignore[arg-type]
    refuse_if(made.derivation.problems)
    files, lost = _files(target, made, asked)
    differs = _difference(stored, made)
    forward = Forward(
        target.derived,
        "made",
        differs.moved,
        tuple(_lines(made.standing, made.made)),
        made.decisions,
        came=differs.came,
        worse=differs.worse,
        went=differs.went,
        written=tuple(map(str, files)),
        lost=lost,
        not_as_then=made.not_as_then,
    )
    return MadeForward(forward, files)


def _difference(stored: Stored, made: Rederivation) -> OutcomeDifference:
    """From what stood in the files, with hand edits, to what stands there now; alarms from the last judgement."""
    was, now = (
        {name: entry.values for name, entry in side.profile.entries.items()} for side in (made.standing, made.made)
    )
    old = ProfileOutcome({}, was, alarms_of(stored.file.judgement))
    return difference(old, ProfileOutcome({}, now, alarms_of(made.derivation.file.judgement)))


def _lines(standing: Translation, made: Translation) -> list[UnmappedKey]:
    """The keys that the map does not know and whose texts differ; of a value that goes on below the lines that do."""
    return [
        UnmappedKey(visible(edit.key), *(text if text is None else signs_shown(text) for text in (edit.was, edit.now)))
        for edit in other_keys_edited(standing, made)
    ]


def _files(target: Target, made: Rederivation, asked: ForwardOrder) -> tuple[dict[Path, bytes], tuple[AtStake, ...]]:
    """What is to be written, and hand edits that are lost by it on purpose. Raises Refused."""
    paths = derived_paths([target.derived], made.stored)
    if asked.in_place:
        return _in_place(paths, made), ()
    if not asked.out:
        return {}, ()
    place = (Path(asked.out) / target.place).parent
    files = files_at(made.derivation, [place / path.name for path in paths])
    refuse_if(
        outputs_free([path for path in files if place.is_dir()], map(Path, made.derivation.inputs), asked.overwrite)
    )
    lost = discarded_edits(files, asked.discard_edits) if asked.overwrite else ()
    refuse_if(make_folder(place))
    return files, lost


def _in_place(paths: Sequence[Path], made: Rederivation) -> dict[Path, bytes]:
    """The new texts and ledger, and beside each what it was."""
    files = files_at(made.derivation, paths)
    old = {path: plain_bytes(path) for path in files}
    refuse_if(_in_the_way(files, old, made))
    kept = {_before(path): raw for path, raw in old.items() if raw is not None}
    return {**kept, **files}


def _before(path: Path) -> Path:
    return path.with_name(path.name + BEFORE)


def _in_the_way(files: Mapping[Path, bytes], old: Mapping[Path, bytes | None], made: Rederivation) -> list[Problem]:
    """Links, files that changed while they were read, and a ``.before`` that no run of this kind has left."""
    *texts, ledger = files
    problems = [
        Problem("link", "The file is a link.", Place(str(path)), "Name the file itself, or use -o FOLDER.")
        for path in files
        if path.is_symlink()
    ]
    for path, document in zip(texts, made.standing.documents, strict=True):
        if old[path] != document.codec.encode(document.text):
            problems.append(
                Problem("changed", "The file changed while it was read.", Place(str(path)), "Run it again.")
            )
        if os.path.lexists(_before(path)) and not _before(ledger).is_file():
            message = f"{_before(path).name} lies beside it, and no earlier run has left it."
            problems.append(Problem("exists", message, Place(str(path)), "Move it away; the old text is to go there."))
    return problems
