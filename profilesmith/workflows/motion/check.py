"""Motion files by name: the files are opened here, and judged by the engine."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from profilesmith.engine.judge_motion import Known, judge_motion, pace_of, read_figures, spool_of
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.foundation.read_file import cannot_read, must_be_plain, read_bounded
from profilesmith.ledger.file import LARGEST_LEDGER
from profilesmith.ledger.read import Stored, read_ledger
from profilesmith.motion.clock import Drive, Pace
from profilesmith.motion.practice import Practice
from profilesmith.motion.words_map import read_words_map
from profilesmith.review.motion.compared import compared_review, time_ratio
from profilesmith.review.motion.report import motion_review
from profilesmith.review.review import Review
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.motion.record import Hashed, ledger_path, record_check
from profilesmith.workflows.read import read_facts

PORTION = 1 << 18
Tell = Callable[[int, int], None]


class MotionOrder(NamedTuple):
    """A call. ledger: a ledger file, or the derived file that it lies beside; "" without one."""

    ledger: str = ""
    words: str = ""
    facts: tuple[str, ...] = ()
    library: Path | None = None


def check(name: str, order: MotionOrder, full: bool = False, tell: Tell | None = None, record: bool = False) -> Review:
    """Judge one motion file. record: note it in the ledger, by the file's hash. Raises Refused."""
    if record and not order.ledger:
        hint = "Name it with --ledger."
        raise Refused([Problem("no-ledger", "There is no ledger to note it in.", Place("--record"), hint)])
    known = gather(order)
    source = Hashed(portions(name, tell))
    figures, judged = judge_motion(source, name, known)
    if record and known.stored is not None:
        record_check(order.ledger, known.stored, name, source.sha256, judged)
    return motion_review(name, order.ledger, figures, judged, spool_of(known, figures), load_vocabulary(), full)


def compare(old: str, new: str, order: MotionOrder, tell: Tell | None = None) -> Review:
    """Two motion files side by side. Raises Refused."""
    known = gather(order)
    paces = _paces(pace_of(known))
    sides = [[read_figures(portions(name, tell), name, known, pace) for pace in paces] for name in (old, new)]
    ratio = time_ratio(sides[0], sides[1])
    spool = spool_of(known, sides[1][0])
    return compared_review((old, sides[0][0]), (new, sides[1][0]), ratio, spool, load_vocabulary())


def _paces(pace: Pace) -> list[Pace]:
    """The corners of what is not known: both ends, and, where accelerations are open too, the crossed ones."""
    quick, slow = pace
    if quick.print == slow.print and quick.travel == slow.travel:
        return [pace]
    return [pace, Pace(Drive(quick.sudden, slow.print, slow.travel), Drive(slow.sudden, quick.print, quick.travel))]


def gather(order: MotionOrder) -> Known:
    """Ledger, words map and facts of a call. Raises Refused with all that is wrong."""
    problems: list[Problem] = []
    stored = _stored(order.ledger, problems) if order.ledger else None
    practice = _practice(order.words, problems) if order.words else Practice()
    facts = read_facts(order.facts, order.library, problems)
    refuse_if(problems)
    return Known(stored.ledger if stored else None, practice or Practice(), facts, stored)


def _stored(name: str, problems: list[Problem]) -> Stored | None:
    path = ledger_path(name)
    try:
        must_be_plain(path)
        with path.open("rb") as stream:
            text = stream.read(LARGEST_LEDGER + 1).decode("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        known = error if isinstance(error, OSError) else OSError(0, "it is not UTF-8 text")
        hint = "Name a file that 'derive' wrote, or the ledger beside it."
        problems.append(cannot_read(str(path), known)._replace(hint=hint))
        return None
    stored = read_ledger(text, str(path), load_vocabulary())
    if isinstance(stored, Problem):
        problems.append(stored)
        return None
    return stored


def _practice(name: str, problems: list[Problem]) -> Practice | None:
    raw = read_bounded(Path(name), name)
    if isinstance(raw, Problem):
        problems.append(raw)
        return None
    practice, faults = read_words_map(raw, name)
    problems += faults
    return practice


def portions(name: str, tell: Tell | None = None) -> Iterator[bytes]:
    """A file in portions. tell: how many of how many bytes were read. Raises Refused."""
    path = Path(name)
    try:
        must_be_plain(path)
        size, done = path.stat().st_size, 0
        with path.open("rb") as stream:
            while portion := stream.read(PORTION):
                done += len(portion)
                if tell is not None:
                    tell(done, size)
                yield portion
    except (OSError, ValueError) as error:
        known = error if isinstance(error, OSError) else FileNotFoundError()
        raise Refused([cannot_read(name, known)]) from error
    if not size:
        raise Refused([Problem("empty", "The file is empty.", Place(name), "Name the motion file itself.")])
