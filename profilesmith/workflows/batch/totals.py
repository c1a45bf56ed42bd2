"""What the derivations of a batch came to together."""

from __future__ import annotations

from profilesmith.workflows.batch.work import FAULT, BatchResult


class Totals:
    """Counts of the results so far, and the exit code that they lead to."""

    def __init__(self) -> None:
        self.done = self.failed = self.changed = self.cautions = 0
        self.codes: set[int] = set()

    def add(self, result: BatchResult) -> None:
        self.done += 1
        self.failed += bool(result.code)
        self.changed += result.changed
        self.cautions += result.cautions
        self.codes.add(result.code)

    @property
    def exit_code(self) -> int:
        """A fault of ours first, then wrong input, then conflicts."""
        failed = self.codes - {0}
        return 0 if not failed else FAULT if FAULT in failed else min(failed)

    def data(self) -> dict[str, int]:
        return {
            "derivations": self.done,
            "written": self.done - self.failed,
            "failed": self.failed,
            "settings_changed": self.changed,
            "cautions": self.cautions,
        }
