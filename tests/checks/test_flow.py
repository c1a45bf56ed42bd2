"""Flow against spool and hot end. Bead areas are checked against an outside library in tests/physics."""

from __future__ import annotations

import pytest

from profilesmith.checks.beads import LaidBeads, beads
from profilesmith.checks.flow import check
from tests.checks.samples import case, only, profile

SLOW: dict[str, str | None] = dict.fromkeys(
    ("outer_wall.speed", "inner_wall.speed", "infill.speed", "first_layer.speed"), "30 mm/s"
)


def test_passes_below_the_spools_limit() -> None:
    found = only(check(case(SLOW, {"spool.maximum_flow": "4 mm3/s"}, base={})), "flow-spool")
    assert found.verdict == "passed"
    assert (found.limit, found.ask) == ("4 mm³/s", "")
    assert found.before
    assert found.headroom


def test_names_every_feature_above_the_limit() -> None:
    found = only(check(case(told={"spool.maximum_flow": "4 mm3/s"})), "flow-spool")
    assert found.verdict == "caution"
    assert found.settings == ("outer_wall.speed", "inner_wall.speed", "infill.speed")
    # 80 mm/s of a bead 0.45 x 0.2 mm (0.0814 mm2) needs 6.5 mm3/s.
    assert found.after == "6.5 mm³/s"
    assert found.headroom == ""
    assert "infill 6.5" in found.text


def test_the_speeds_that_it_names_are_low_enough() -> None:
    found = only(check(case(told={"spool.maximum_flow": "4 mm3/s"})), "flow-spool")
    assert "49 mm/s" in found.text
    cured = dict.fromkeys(("outer_wall.speed", "inner_wall.speed", "infill.speed"), "49 mm/s")
    assert only(check(case({**cured}, {"spool.maximum_flow": "4 mm3/s"})), "flow-spool").verdict == "passed"


def test_the_texts_own_limit_makes_it_a_note() -> None:
    now: dict[str, str | None] = {"filament.maximum_flow": "4 mm3/s"}
    found = only(check(case(now, {"spool.maximum_flow": "4 mm3/s"})), "flow-spool")
    assert found.verdict == "note"
    assert "slicing software" in found.text


@pytest.mark.parametrize(("speed", "verdict"), [("25 mm/s", "passed"), ("45 mm/s", "note"), ("80 mm/s", "caution")])
def test_a_material_alone_gives_a_range(speed: str, verdict: str) -> None:
    """TPU 95A: 2.5 to 5 mm3/s. Common practice, no source."""
    now: dict[str, str | None] = dict.fromkeys(SLOW, speed)
    found = only(check(case({**now, "bridge.speed": "20 mm/s"}, {"spool.material": "TPU 95A"})), "flow-spool")
    assert found.verdict == verdict
    assert found.ask.endswith("?")
    assert found.limit == "2.5 to 5 mm³/s"


NOZZLES = [
    ("0.4 mm", {}, "passed"),
    ("0.8 mm", {}, "not judged"),
    ("0.8 mm", {"spool.maximum_flow_nozzle": "0.8 mm"}, "passed"),
    ("0.4 mm", {"spool.maximum_flow_nozzle": "0.8 mm"}, "not judged"),
    (None, {}, "passed"),
]


@pytest.mark.parametrize(("bore", "more", "verdict"), NOZZLES)
def test_a_largest_flow_belongs_to_a_nozzle(bore: str | None, more: dict[str, str], verdict: str) -> None:
    """9 mm/s were once asked of 0.9 x 0.32 mm beads, from a limit of a nozzle half as wide."""
    now: dict[str, str | None] = {**SLOW, "nozzle.diameter": bore}
    found = only(check(case(now, {"spool.maximum_flow": "4 mm3/s", **more})), "flow-spool")
    assert found.verdict == verdict
    assert ("nobody said how wide" in found.text) == (bore is None)
    assert bool(found.ask) == (verdict == "not judged")


def test_at_one_flow_a_wider_nozzle_needs_less_pressure() -> None:
    """Power-law tube: 2^(3n + 1) is 3.66 at n = 0.29 and 5.54 at n = 0.49 (Acierno and Patti 2023 for the powers)."""
    told = {"spool.maximum_flow": "4 mm3/s"}
    wide = only(check(case({**SLOW, "nozzle.diameter": "0.8 mm"}, told)), "flow-spool")
    assert "3.6 to 5.6 times less pressure" in wide.text


def test_a_limit_that_is_just_met_has_no_headroom() -> None:
    """80 mm/s of a bead of 0.0814 mm2 need 6.513 mm3/s."""
    found = only(check(case(told={"spool.maximum_flow": "6.514 mm3/s"})), "flow-spool")
    assert (found.verdict, found.headroom) == ("passed", "")
    assert "at the limit" in found.text


def test_not_judged_without_spool_or_material() -> None:
    found = only(check(case()), "flow-spool")
    assert found.verdict == "not judged"
    assert found.ask
    assert "6.5 mm³/s" in found.text


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"bead.width": None}, "bead.width"),
        ({"layer.height": None}, "layer.height"),
        ({"bead.width": "0.15 mm"}, "narrower"),
    ],
)
def test_not_judged_without_a_bead(change: dict[str, str | None], word: str) -> None:
    found = only(check(case({**change, "first_layer.height": None}, {"spool.maximum_flow": "4 mm3/s"})), "flow-spool")
    assert found.verdict == "not judged"
    assert word in found.text


def test_the_hot_end_is_judged_too() -> None:
    found = check(case(told={"spool.maximum_flow": "30 mm3/s", "machine.maximum_flow": "5 mm3/s"}))
    assert [item.verdict for item in found] == ["passed", "caution"]


def test_what_is_off_is_not_laid() -> None:
    names = {
        bead.feature
        for bead in beads(
            profile({"support.speed": "60 mm/s", "support.on": "off", "infill.density": "0 %", "wall.count": "1"})
        )
    }
    assert names == {"first_layer", "outer_wall", "bridge"}
    assert "support" in {bead.feature for bead in beads(profile({"support.speed": "60 mm/s", "support.on": "on"}))}


def test_a_share_of_material_counts() -> None:
    usual, less = beads(profile())[1], beads(profile({"bead.flow": "90 %"}))[1]
    assert less.flow_mm3_s == pytest.approx(0.9 * usual.flow_mm3_s)
    assert less.speed_at(4) == pytest.approx(usual.speed_at(4) / 0.9)


def test_numbers_on_both_sides_of_a_limit_do_not_look_alike() -> None:
    now: dict[str, str | None] = {**dict.fromkeys(SLOW, "20 mm/s"), "infill.speed": "49.3 mm/s"}
    found = only(check(case(now, {"spool.maximum_flow": "4 mm3/s"})), "flow-spool")
    assert found.verdict == "caution"
    assert found.after != found.limit


def test_before_is_the_most_that_any_feature_needed() -> None:
    """Infill at 90 mm/s needed most; now the outer wall does. 90 mm/s of 0.0814 mm2 are 7.3 mm3/s."""
    now: dict[str, str | None] = {**SLOW, "outer_wall.speed": "40 mm/s"}
    found = only(check(case(now, {"spool.maximum_flow": "4 mm3/s"}, base={"infill.speed": "90 mm/s"})), "flow-spool")
    assert found.settings == ("outer_wall.speed",)
    assert found.before == "7.3 mm³/s"


def test_one_judgement_works_the_beads_of_a_profile_out_once() -> None:
    laid, one, other = LaidBeads(), profile(), profile({"outer_wall.speed": "17 mm/s"})
    assert (laid.of(one), laid.of(other)) == (beads(one), beads(other))
    assert laid.of(one) is laid.of(one)
    assert laid.of(one) != laid.of(other)
    assert LaidBeads().of(one) is not laid.of(one), "another judgement remembers nothing of this one"


@pytest.mark.parametrize(("flow", "verdict"), [("400 mm3/s", "note"), ("0.3 mm3/s", "caution")])
def test_a_limit_of_another_magnitude_clears_nothing(flow: str, verdict: str) -> None:
    found = only(check(case(SLOW, {"spool.material": "flexible PLA", "spool.maximum_flow": flow})), "flow-spool")
    assert (found.verdict, found.headroom) == (verdict, "")
    assert "far from what is usual for the material, so this clears nothing" in found.text
