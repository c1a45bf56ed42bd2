"""Runs the table of outside checks, and checks that the table itself can fail."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from tests.physics.outside_check import INDEPENDENCE, Outcome, OutsideCheck, run
from tests.physics.outside_checks import CHECKS, table
from tests.physics.reached import reached
from tests.physics.samples import functions

ROWS = {check.name: check for check in CHECKS}


@cache
def outcome_of(name: str) -> Outcome:
    """Of a row of the table, worked out once for all tests: oracles solve for seconds."""
    return run(ROWS[name])


@cache
def reached_functions() -> set[str]:
    return reached(functions())


@pytest.mark.parametrize("check", CHECKS, ids=[check.name for check in CHECKS])
def test_outside_check(check: OutsideCheck) -> None:
    outcome = outcome_of(check.name)
    assert outcome.passed, f"expected {outcome.expected}, got {outcome.got}; {check.source}"


@pytest.mark.parametrize("check", CHECKS, ids=[check.name for check in CHECKS])
def test_rows_name_their_source_and_are_tight(check: OutsideCheck) -> None:
    assert check.source
    assert check.independence in INDEPENDENCE
    assert 0 <= check.tolerance <= 0.06


def test_at_least_45_rows_guard_45_functions_and_laws_that_a_command_reaches() -> None:
    laws = {law for check in CHECKS for law in check.laws}
    assert {law for law in laws if "." in law} <= reached_functions()
    assert len(CHECKS) >= 45
    assert len(laws) >= 45


def test_every_function_is_reached_by_the_package() -> None:
    """What nothing reaches is used, or leaves the house."""
    assert set(functions()) - reached_functions() == set()


def test_every_function_has_a_row_or_says_nothing_of_the_world() -> None:
    laws = {law for check in CHECKS for law in check.laws}
    bare = {name for name in functions() if name.partition(".")[0] in ("answer", "inputs")}
    assert set(functions()) - laws - bare == set()


def test_names_are_unique() -> None:
    assert len({check.name for check in CHECKS}) == len(CHECKS)


@pytest.mark.parametrize(
    "check", [check for check in CHECKS if not callable(check.expected)], ids=lambda check: check.name
)
def test_every_row_fails_on_a_number_that_is_off(check: OutsideCheck) -> None:
    assert not callable(check.expected)
    off = tuple(value * (1 + 2.5 * check.tolerance) + (check.tolerance == 0) for value in check.expected)
    assert not replace(outcome_of(check.name), expected=off).passed


def test_a_missing_or_undefined_number_fails() -> None:
    check = replace(CHECKS[0], got=lambda: (1.0,), expected=(1.0,))
    assert run(check).passed
    assert not run(replace(check, got=lambda: ())).passed
    assert not run(replace(check, expected=())).passed
    assert not run(replace(check, got=lambda: (float("nan"),))).passed
    assert "FAILED" in "\n".join(table([run(replace(check, expected=(2.0,)))]))
