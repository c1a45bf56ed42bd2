"""A coupon's files: the plan, and the log beside it."""

from __future__ import annotations

import datetime
import secrets
from pathlib import Path

from profilesmith.coupon.load_plan import parse_plan
from profilesmith.coupon.log import CouponPrint, LogLine, line_text, prints
from profilesmith.coupon.plan import Plan
from profilesmith.coupon.read_log import parse_log
from profilesmith.evidence.append_record import append_lines
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.foundation.read_file import read_bounded
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.write_files import write_whole

LOG = ".log.jsonl"


class Coupon(NamedTuple):
    """A plan as its file has it, and its prints so far."""

    path: Path
    plan: Plan
    made: tuple[CouponPrint, ...]

    @property
    def log(self) -> Path:
        return log_beside(self.path)

    @property
    def open(self) -> list[CouponPrint]:
        """Prints that were asked for and are not graded."""
        return [item for item in self.made if not item.grade]


def log_beside(plan: Path) -> Path:
    """``walls.toml`` keeps its log in ``walls.log.jsonl``."""
    return plan.with_name(plan.stem + LOG)


def read_coupon(name: str) -> Coupon:
    """The plan and its log. Raises Refused."""
    path, vocabulary = Path(name), load_vocabulary()
    raw = read_bounded(path, name)
    if isinstance(raw, Problem):
        raise Refused([raw])
    plan, problems = parse_plan(raw, name, vocabulary)
    refuse_if(problems)
    assert plan is not None
    log = log_beside(path)
    lines: tuple[LogLine, ...] = ()
    if log.exists():
        text = read_bounded(log, str(log))
        if isinstance(text, Problem):
            raise Refused([text])
        lines, problems_of_log = parse_log(text, str(log), plan, vocabulary)
        refuse_if(problems_of_log)
    return Coupon(path, plan, tuple(prints(lines)))


def add_lines(coupon: Coupon, lines: list[LogLine]) -> None:
    """Add to the log. Raises Refused; then it is as it was."""
    refuse_if(append_lines(coupon.log, "".join(map(line_text, lines)).encode(), write_whole))


def mark() -> str:
    """Eight hexadecimal digits, drawn at random."""
    return secrets.token_hex(4)


def day(text: str) -> str:
    """A day as the log has it; today without one. Raises Refused."""
    if not text:
        return datetime.datetime.now(tz=datetime.UTC).astimezone().date().isoformat()
    try:
        return datetime.date.fromisoformat(text).isoformat()
    except ValueError as error:
        hint = "Write it as 2030-01-31."
        raise Refused([Problem("date", f"{text!r} is no day.", Place("--date"), hint)]) from error
