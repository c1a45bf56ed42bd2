"""The table of outside checks: every value that does not come from the project itself, with source and tolerance.

``python -m tests.physics.outside_checks`` prints it and ends with 1 when a check fails; pytest runs the same rows.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator

from tests.physics import rows_machine, rows_moisture, rows_part, rows_surface
from tests.physics.outside_check import INDEPENDENCE, Numbers, Outcome, OutsideCheck, run

CHECKS: tuple[OutsideCheck, ...] = (
    *rows_machine.ROWS,
    *rows_part.ROWS,
    *rows_surface.ROWS,
    *rows_moisture.ROWS,
)


def table(outcomes: list[Outcome]) -> Iterator[str]:
    """The lines of the table; each check takes three."""
    for outcome in outcomes:
        check = outcome.check
        kind = "absolute" if check.absolute else "relative"
        tolerance = f"{check.tolerance:g} {kind}" if check.tolerance else "exact"
        yield f"{'passed' if outcome.passed else 'FAILED'}  {check.name}"
        yield f"        expected {_numbers(outcome.expected)}; got {_numbers(outcome.got)}; tolerance {tolerance}"
        yield f"        [{check.independence}] {check.source}; guards {', '.join(check.laws)}"
    failed = sum(not outcome.passed for outcome in outcomes)
    guarded = {law for outcome in outcomes for law in outcome.check.laws}
    yield f"{len(outcomes)} outside checks of {len(guarded)} functions and laws, {failed} failed"
    yield "; ".join(f"[{mark}] {meaning}" for mark, meaning in INDEPENDENCE.items())


def main() -> int:
    outcomes = [run(check) for check in CHECKS]
    for line in table(outcomes):
        print(line)
    return 0 if all(outcome.passed for outcome in outcomes) else 1


def _numbers(numbers: Numbers) -> str:
    return ", ".join(f"{number:.7g}" for number in numbers)


if __name__ == "__main__":
    sys.exit(main())
