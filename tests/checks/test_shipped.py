"""The shipped printers, spools and profiles: something that a practitioner would agree with, and no false stop.

What each pair must show is common practice: a rigid PLA profile is too fast and too cold for soft TPU, a long tube
takes up the pull of a soft strand, a profile for a 0.4 mm nozzle does not fit a 0.6 mm one.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from profilesmith.ledger.judgement import ALARMS
from profilesmith.review.review import Review
from profilesmith.workflows.check import check
from profilesmith.workflows.derive import derive
from profilesmith.workflows.request import Request

RECIPES = Path(__file__).resolve().parents[2] / "recipes"
PROFILES = [("plain-shop.settings", "plain-shop"), ("werkbank.conf", "werkbank"), ("spoken-sheet.txt", "spoken-sheet")]
PRINTERS = ("direct-drive-bench-printer", "long-tube-bench-printer", "wide-nozzle-floor-printer")
SPOOLS = ("flexible-pla-92a-spool", "tpu-95a-spool", "tpu-85a-spool")
DEMO = RECIPES / "demo"


def judged(profile: str, key_map: str, *facts: str) -> Review:
    return check(Request(bases=(str(RECIPES / "profiles" / profile),), key_map=key_map, facts=facts))


def verdicts(review: Review) -> dict[str, str]:
    return {item.check: item.verdict for item in review.consequences}


@pytest.mark.parametrize("printer", PRINTERS)
@pytest.mark.parametrize(("profile", "key_map"), PROFILES)
@pytest.mark.parametrize("spool", SPOOLS)
def test_a_rigid_profile_with_a_soft_spool(profile: str, key_map: str, printer: str, spool: str) -> None:
    found = verdicts(judged(profile, key_map, printer, spool))
    assert "stop" not in found.values()
    wide = printer == "wide-nozzle-floor-printer"
    assert found["flow-spool"] in (("not judged",) if wide else ("caution", "note"))
    assert found["nozzle-temperature"] == "caution"
    assert ("facts-nozzle" in found) == (printer == "wide-nozzle-floor-printer")
    if "retraction-stretch" in found:
        assert printer == "long-tube-bench-printer"
        assert found["retraction-stretch"] in ("caution", "note")


@pytest.mark.parametrize("printer", PRINTERS[:2])
@pytest.mark.parametrize(("profile", "key_map"), PROFILES)
def test_a_rigid_profile_on_its_own_printer_raises_no_alarm(profile: str, key_map: str, printer: str) -> None:
    found = verdicts(judged(profile, key_map, printer))
    assert not set(found.values()) & {*ALARMS}
    assert found["flow-machine"] == "passed"


@pytest.mark.parametrize(
    ("recipes", "spool"),
    [
        (("flexible-pla",), SPOOLS[0]),
        (("tpu-95a",), SPOOLS[1]),
        (("tpu-85a", "part-sandable"), SPOOLS[2]),
    ],
)
@pytest.mark.parametrize(("profile", "key_map"), PROFILES)
def test_a_shipped_recipe_cures_what_it_is_for(
    recipes: tuple[str, ...], spool: str, profile: str, key_map: str
) -> None:
    request = Request(
        bases=(str(RECIPES / "profiles" / profile),),
        key_map=key_map,
        recipes=recipes,
        facts=("direct-drive-bench-printer", spool),
    )
    found = verdicts(derive(request).review)
    assert not set(found.values()) & {*ALARMS}, found
    assert (found["flow-spool"], found["nozzle-temperature"]) == ("passed", "passed")
    assert found["print-time"] == "note"


def test_the_demo() -> None:
    facts = tuple(str(DEMO / name) for name in ("machine.toml", "spool.toml", "part.toml"))
    request = Request(
        bases=(str(DEMO / "base.settings"),),
        key_map=str(DEMO / "keymap.toml"),
        recipes=("flexible-pla", "part-soft"),
        facts=facts,
    )
    found = verdicts(derive(request).review)
    assert not set(found.values()) & {*ALARMS}
    # The sleeve is 1.8 mm thick, its closing layers fill it: less infill does not make it softer, and the maker must
    # know.
    assert found["stiffness"] == "note"
    base = verdicts(check(request._replace(recipes=())))
    assert (base["flow-spool"], base["nozzle-temperature"]) == ("caution", "caution")
