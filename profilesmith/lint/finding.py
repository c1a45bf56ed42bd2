"""LintFinding: what one rule says of one file. Plain data that travels between processes."""

from collections.abc import Iterable
from typing import Literal

from profilesmith.foundation.named_tuple import NamedTuple

Severity = Literal["error", "hint", "skipped"]


class LintFinding(NamedTuple):
    """number: of the rule, such as ``R104``. line: counted from 1; None for the whole file.

    severity: ``error`` fails a check, ``hint`` does not; ``skipped`` says that a rule could not be asked, and why.
    message: what is wrong. fix: what to do.
    """

    number: str
    severity: Severity
    file: str
    line: int | None
    message: str
    fix: str

    @property
    def place(self) -> str:
        """``recipes/gentle.toml:12``."""
        return self.file if self.line is None else f"{self.file}:{self.line}"


def strictly(findings: Iterable[LintFinding]) -> list[LintFinding]:
    """The same with every hint as an error."""
    return [item._replace(severity="error") if item.severity == "hint" else item for item in findings]
