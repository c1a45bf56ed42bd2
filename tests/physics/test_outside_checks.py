"""Runs the table of outside checks, and checks that the table itself can fail."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.physics.outside_check import INDEPENDENCE, Outcome, OutsideCheck, run
from tests.physics.outside_checks import CHECKS, table


@pytest.mark.parametrize("check", CHECKS, ids=[check.name for check in CHECKS])
def test_outside_check(check: OutsideCheck) -> None:
    outcome = run(check)
    assert outcome.passed, f"expected {outcome.expected}, got {outcome.got}; {check.source}"


@pytest.mark.parametrize("check", CHECKS, ids=[check.name for check in CHECKS])
def test_rows_name_their_source_and_are_tight(check: OutsideCheck) -> None:
    assert check.source
    assert check.independence in INDEPENDENCE
    assert 0 <= check.tolerance <= 0.06


def test_names_are_unique() -> None:
    assert len({check.name for check in CHECKS}) == len(CHECKS)


@pytest.mark.parametrize(
    "check", [check for check in CHECKS if not callable(check.expected)], ids=lambda check: check.name
)
def test_every_row_fails_on_a_number_that_is_off(check: OutsideCheck) -> None:
    assert not callable(check.expected)
    off = tuple(value * (1 + 2.5 * check.tolerance) + (check.tolerance == 0) for value in check.expected)
    assert not Outcome(check, check.got(), off).passed


def test_a_missing_or_undefined_number_fails() -> None:
    check = replace(CHECKS[0], got=lambda: (1.0,), expected=(1.0,))
    assert run(check).passed
    assert not run(replace(check, got=lambda: ())).passed
    assert not run(replace(check, expected=())).passed
    assert not run(replace(check, got=lambda: (float("nan"),))).passed
    assert "FAILED" in "\n".join(table([run(replace(check, expected=(2.0,)))]))
