"""Settings that contradict each other, and facts that contradict the profile."""

from __future__ import annotations

import pytest

from profilesmith.checks import contradictions, facts_agree
from profilesmith.review.findings.in_words import WORDS, in_words
from tests.checks.samples import case, only

TOGETHER = [
    ("fan", {"fan.minimum_power": "80 %", "fan.power": "50 %"}, "caution"),
    ("raft-brim", {"raft.on": "on", "brim.on": "on"}, "note"),
    ("raft-gap", {"raft.on": "on", "raft.gap": "0 mm"}, "caution"),
    ("raft-layers", {"raft.on": "on", "raft.layers": "0"}, "caution"),
    ("support-gap", {"support.on": "on", "support.gap": "0 mm"}, "note"),
    ("support-density", {"support.on": "on", "support.density": "0 %"}, "caution"),
    ("support-contact", {"support.on": "on", "support.density": "40 %", "support.contact_density": "30 %"}, "note"),
    ("brim-width", {"brim.on": "on", "brim.width": "0 mm"}, "note"),
    ("retraction", {"retraction.distance": "0 mm"}, "note"),
    ("hollow", {"wall.count": "0", "infill.density": "0 %"}, "caution"),
    ("support-layer", {"support.on": "on", "support.gap": "0.05 mm"}, "note"),
]


@pytest.mark.parametrize(("name", "now", "verdict"), TOGETHER)
def test_each_contradiction(name: str, now: dict[str, str | None], verdict: str) -> None:
    found = contradictions.check(case(now))
    assert [(item.check, item.verdict) for item in found] == [(f"together-{name}", verdict)]
    assert set(found[0].settings) & set(now)


def test_every_rule_is_tested() -> None:
    assert {name for name, _, _ in TOGETHER} == set(contradictions.RULES)


def test_an_everyday_profile_contradicts_nothing() -> None:
    assert [item.verdict for item in contradictions.check(case())] == ["passed"]


AGREE = [
    ("facts-nozzle", {"machine.nozzle_diameter": "0.6 mm"}, {}, "caution"),
    ("facts-wall", {"part.thickness": "2 mm", "part.minimum_wall": "3 mm"}, {}, "caution"),
    (
        "facts-heat",
        {"spool.nozzle_window": "260 °C to 280 °C", "machine.maximum_nozzle_temperature": "240 °C"},
        {},
        "caution",
    ),
    ("facts-spool", {"spool.nozzle_window": "260 °C to 280 °C", "spool.material": "PLA"}, {}, "caution"),
    ("facts-spool-flow", {"spool.maximum_flow": "400 mm3/s", "spool.material": "flexible PLA"}, {}, "caution"),
    ("facts-spool-flow", {"spool.maximum_flow": "0.12 mm3/s", "spool.material": "PLA"}, {}, "caution"),
    ("facts-flow", {"spool.maximum_flow": "3 mm3/s"}, {"filament.maximum_flow": "11 mm3/s"}, "note"),
]


@pytest.mark.parametrize(("name", "told", "now", "verdict"), AGREE)
def test_facts_that_contradict(name: str, told: dict[str, str], now: dict[str, str | None], verdict: str) -> None:
    assert only(facts_agree.check(case(now, told)), name).verdict == verdict


def test_facts_that_agree() -> None:
    told = {
        "machine.nozzle_diameter": "0.4 mm",
        "spool.material": "PLA",
        "spool.nozzle_window": "195 °C to 215 °C",
        "machine.maximum_nozzle_temperature": "240 °C",
        "part.thickness": "2 mm",
        "part.minimum_wall": "1 mm",
    }
    assert facts_agree.check(case(told=told)) == ()


@pytest.mark.parametrize(("name", "now", "verdict"), TOGETHER)
def test_a_contradiction_is_told_by_its_title_alone(name: str, now: dict[str, str | None], verdict: str) -> None:
    """Headlines name findings by their titles."""
    found = in_words(contradictions.check(case(now))[0])
    assert found.title not in (WORDS["together", "together"].title, "")
    assert not found.title.endswith(".")
    assert found.text.endswith(".")
    assert found.title not in found.text


def test_no_two_contradictions_have_one_title() -> None:
    titles = {in_words(contradictions.check(case(now))[0]).title for _, now, _ in TOGETHER}
    assert len(titles) == len(TOGETHER)


FLOWS = [
    ("400 mm3/s", {}, "did you mean 4 mm³/s?"),
    ("0.06 mm3/s", {}, "did you mean 6 mm³/s?"),
    ("300 mm3/s", {}, ""),  # neither 30 nor 3 is usual: nothing is proposed
    ("12 mm3/s", {}, None),  # a fast spool
    ("2 mm3/s", {}, None),
    ("60 mm3/s", {"spool.maximum_flow_nozzle": "0.8 mm"}, None),  # eight times the flow at one shear rate
    ("400 mm3/s", {"spool.maximum_flow_nozzle": "0.8 mm"}, "did you mean 4 mm³/s?"),
]


@pytest.mark.parametrize(("flow", "more", "meant"), FLOWS)
def test_a_flow_of_another_magnitude_is_looked_at_first(flow: str, more: dict[str, str], meant: str | None) -> None:
    """400 mm³/s, a slip for 4.00, once passed with "headroom 99 %"."""
    told = {"spool.material": "flexible PLA", "spool.maximum_flow": flow, **more}
    found = [item for item in facts_agree.check(case(told=told)) if item.check == "facts-spool-flow"]
    assert [item.verdict for item in found] == ([] if meant is None else ["caution"])
    for item in found:
        text = in_words(item).text
        assert "usually gives (4 to 8 mm³/s)" in text
        assert (meant or "derive again") in text
        assert ("did you mean" in text) == bool(meant)
