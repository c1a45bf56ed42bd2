"""Review again: the ledger beside a derived file, in any form, and whether the file was edited since."""

import os
from pathlib import Path
from typing import NamedTuple

from profilesmith.checks.judge import judge
from profilesmith.checks.measured import UNKNOWN, Measured
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.foundation.read_file import cannot_read
from profilesmith.ledger import Ledger
from profilesmith.ledger.place import ledger_beside
from profilesmith.ledger.read import LARGEST_LEDGER, Stored, read_ledger
from profilesmith.left_over import unfinished
from profilesmith.profile.profile import Profile
from profilesmith.review.build_review import NO_EDITS, ledger_review
from profilesmith.review.decisions import remembered
from profilesmith.review.review import Review
from profilesmith.review.road import road_lines
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.edits_since import Since, translation_now, where
from profilesmith.workflows.ledger_doubts import DOUBT, ledger_doubts
from profilesmith.workflows.plain_file import sha256_of

GONE = " is gone"
BROKEN_OFF = "Broken off: a run that wrote here did not end"


class Again(NamedTuple):
    """edited: sentences on what was changed by hand; empty when every file is as it was written.

    left_out: sentences on what could not be taken from the motion file.
    """

    review: Review
    edited: tuple[str, ...]
    left_out: tuple[str, ...] = ()


def load_ledger(derived: str) -> Stored:
    """The stored ledger of a derived file. Raises Refused."""
    path = ledger_beside(Path(derived))
    if os.path.exists(path) and not os.path.isfile(path):
        raise Refused(
            [
                Problem(
                    "no-ledger", f"{path.name!r} is no plain file.", Place(derived), "Derive again to get a new ledger."
                )
            ]
        )
    try:
        with path.open("rb") as stream:
            text = stream.read(LARGEST_LEDGER + 1).decode("utf-8")
    except FileNotFoundError as error:
        hint = "Name a file that 'derive' wrote; its ledger must lie beside it."
        if not os.path.exists(derived):
            raise Refused(
                [Problem("no-file", "There is no such file, and no ledger of it.", Place(derived), hint)]
            ) from error
        raise Refused(
            [Problem("no-ledger", f"There is no ledger {path.name!r} beside it.", Place(derived), hint)]
        ) from error
    except (OSError, UnicodeDecodeError) as error:
        reason = error if isinstance(error, OSError) else OSError(0, "it is not UTF-8 text")
        raise Refused([cannot_read(str(path), reason)]) from error
    found = read_ledger(text, str(path), load_vocabulary())
    if isinstance(found, Problem):
        raise Refused([found])
    return found


def review_again(derived: str, motion: str = "", words: str = "") -> Again:
    """The review of a derived file as it was written, and what was edited since. Raises Refused.

    motion: its motion file, with the words map of that; then the checks are made anew with it.
    """
    stored = load_ledger(derived)
    found = _since(stored, Path(derived)) or ledger_doubts(stored, Path(derived))
    edited = tuple(map(visible, found if isinstance(found, list) else found.sentences))
    subject = f"{derived}, derived from {', '.join(item.name for item in stored.file.files)}"
    notes = [f"{since(text)}." for text in edited] or ["The derived file is as it was written."]
    edits = found.edits if isinstance(found, Since) else NO_EDITS
    file, ledger = stored.file, stored.ledger
    measured, not_taken = _measured(motion, words, ledger)
    if edits or motion:  # what is judged is what stands in the file now
        now = found.profile if isinstance(found, Since) else ledger.derived
        file = file._replace(**judge(ledger.base, now, ledger.facts, measured)._asdict())
    read = _now(stored, Path(derived), found)
    review = ledger_review(ledger, load_vocabulary(), subject, file, notes=notes, edits=edits, now=read)
    review = review._replace(
        from_ledger=bool(found) and read is None,
        road=road_lines(stored.file.mends),
        texts=tuple(visible(item.name) for item in stored.file.files),
        map_name=visible(stored.file.key_map),
        outputs=tuple(visible(str(Path(derived).with_name(item.name))) for item in stored.file.outputs),
    )
    return Again(review._replace(edits=tuple(map(visible, remembered(stored.file.history)))), edited, not_taken)


def _now(stored: Stored, derived: Path, found: list[str] | Since) -> Profile | None:
    """The values that stand in the file; None where nobody can read it."""
    if isinstance(found, Since):
        return found.profile
    translation = translation_now(stored, derived)
    return translation.profile if translation else None


def _measured(motion: str, words: str, ledger: Ledger) -> tuple[Measured, tuple[str, ...]]:
    """What a motion file tells, and what of it could not be taken."""
    if not motion:
        return UNKNOWN, ()
    from profilesmith.workflows.motion.measured import left_out, measured_of  # forty files, for those who name one

    measured = measured_of(motion, words, ledger)
    return measured, tuple(left_out(motion, measured.after))


def since(text: str) -> str:
    """A sentence of ``edits_since`` with its head; one that is not of an edit has its own."""
    return text if text.startswith((BROKEN_OFF, DOUBT)) else f"Edited since: {text}"


def broken_off(derived: Path) -> str:
    """That a run which wrote here did not end, or ""."""
    left = unfinished(ledger_beside(derived))
    return (
        f"{BROKEN_OFF} ({left[0].name} was left): text and ledger may be of two derivations; derive again"
        if left
        else ""
    )


def edits_since(stored: Stored, derived: Path) -> list[str]:
    """Sentences on edits of the derived files since the ledger was written."""
    found = _since(stored, derived)
    return found if isinstance(found, list) else found.sentences


def _since(stored: Stored, derived: Path) -> list[str] | Since:
    """What was edited; sentences alone where nobody can say where, and none where nothing was."""
    changed = []
    for item in stored.file.outputs:
        path = derived.with_name(item.name)
        if not os.path.isfile(path):  # also a pipe or a device, which has no end
            changed.append(f"{path}{GONE}")
        elif sha256_of(path) != item.sha256:
            changed.append(str(path))
    if not changed:
        return []
    left = broken_off(derived)
    if left:
        return [left]
    found = where(stored, derived)
    if found is None:
        return [
            name if name.endswith(GONE) else f"{name}; where is not known, as its key map cannot be read"
            for name in changed
        ]
    if not found.sentences:
        return [f"{name}, outside of all that the map knows" for name in changed]
    return found
