"""Taking the part off: what soft plastic does on a bare bed and on a raft (common practice, no source)."""

from __future__ import annotations

from profilesmith.checks.supports import check_release
from tests.checks.samples import SOFT_SPOOL, case, only


def test_a_rubbery_plastic_on_a_bare_bed_does_not_suit() -> None:
    found = only(check_release(case({"raft.on": "off"}, SOFT_SPOOL, base={"raft.on": "off"})), "release")
    assert (found.verdict, found.unsuited) == ("note", True)
    assert "release layer" in found.text


def test_of_a_profile_alone_and_of_flexible_pla_it_is_good_to_know_only() -> None:
    (alone,) = check_release(case({"raft.on": "off"}, SOFT_SPOOL))
    (pla,) = check_release(case({"raft.on": "off"}, {"spool.material": "flexible PLA"}, base={"raft.on": "off"}))
    assert not alone.unsuited
    assert not pla.unsuited


def test_on_a_raft_it_is_the_raft_that_is_bent() -> None:
    found = only(check_release(case({"raft.on": "on"}, SOFT_SPOOL, base={"raft.on": "off"})), "release")
    assert (found.verdict, "bend the raft away" in found.text) == ("passed", True)


def test_nothing_of_a_rigid_spool_or_an_unknown_raft() -> None:
    assert check_release(case({"raft.on": "off"}, {"spool.material": "PLA"})) == ()
    assert check_release(case({"raft.on": None}, SOFT_SPOOL)) == ()
