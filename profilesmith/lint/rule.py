"""LintRule: a numbered rule with its reason. Fault: what it finds in one file."""

from collections.abc import Callable, Iterator
from typing import Any, Literal

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.lint.finding import LintFinding


class Fault(NamedTuple):
    """line: counted from 1; None for the whole file. fix: "" for the rule's own. skipped: the rule could not be
    asked.
    """

    message: str
    line: int | None = None
    fix: str = ""
    skipped: bool = False


def nothing(subject: Any) -> Iterator[Fault]:
    """For a rule that a loader judges: it has told already."""
    return iter(())


class LintRule(NamedTuple):
    """number: a letter for the kind of file and three digits. why: the reason, for people. fix: what to do.

    find: from a subject (``subjects.py``) to its faults. codes: the loaders' problems that stand under this number.
    key: what the rule asks after, such as ``rule.why``; a rule with one is asked of a recipe that does not read, too.
    """

    number: str
    severity: Literal["error", "hint"]
    title: str
    why: str
    fix: str
    find: Callable[[Any], Iterator[Fault]] = nothing
    codes: tuple[str, ...] = ()
    key: str = ""

    def finding(self, fault: Fault, file: str) -> LintFinding:
        """What it found, at its place."""
        severity = "skipped" if fault.skipped else self.severity
        return LintFinding(self.number, severity, file, fault.line, fault.message, fault.fix or self.fix)


class RuleText(NamedTuple):
    """A rule as documentation shows it."""

    number: str
    severity: str
    title: str
    why: str
    fix: str
