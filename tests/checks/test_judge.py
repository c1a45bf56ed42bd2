"""All checks together: whatever the profile and the facts are, each says one of five things, and none breaks."""

from __future__ import annotations

import json
import math
import re
from fractions import Fraction

from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from profilesmith.checks.judge import CHECKS
from profilesmith.facts.facts import Fact, Facts, FactValue, Hardness, fact_kinds
from profilesmith.foundation.place import Place
from profilesmith.ledger.judgement import VERDICTS
from profilesmith.profile.profile import Profile, profile_of
from profilesmith.review.findings.in_words import judge
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Setting, Value
from tests.checks.samples import SOFT_SPOOL, case, facts, only, profile


def values(setting: Setting) -> st.SearchStrategy[Value]:
    if setting.low is None or setting.high is None:
        return st.booleans() if setting.kind == "switch" else st.sampled_from([*setting.values, "made up"])
    ends = st.sampled_from([setting.low, setting.high, Fraction(0), setting.high * 3])
    if setting.kind == "count":
        return st.one_of(st.integers(0, 12).map(Fraction), ends)
    steps = (setting.high - setting.low) / 1000
    return st.one_of(st.integers(0, 1000).map(lambda number: setting.low + number * steps), ends)


@st.composite
def profiles(draw: st.DrawFn) -> Profile:
    """Any settings, several tools, values at and beyond what is plausible."""
    found = {}
    for name, setting in load_vocabulary().settings.items():
        if draw(st.integers(0, 9)) > 1:
            found[name] = tuple(draw(st.lists(values(setting), min_size=1, max_size=2)))
    return profile_of(found)


def fact_values() -> st.SearchStrategy[FactValue]:
    numbers = st.fractions(-10, 6000, max_denominator=100)
    return st.one_of(
        numbers,
        st.tuples(numbers, numbers),
        st.sampled_from(["remote", "direct", "PTFE", "rigid", "elastic", "TPU", "PLA", "\x1b[2J"]),
        st.builds(Hardness, st.integers(0, 100).map(Fraction), st.sampled_from(["A", "D"])),
    )


def any_facts() -> st.SearchStrategy[Facts]:
    return st.dictionaries(
        st.sampled_from(list(fact_kinds())), fact_values().map(lambda value: Fact(value, Place("x")))
    )


# A profile is too large to be shrunk in a bearable time.
@settings(max_examples=40, deadline=None, phases=(Phase.explicit, Phase.reuse, Phase.generate))
@given(profiles(), st.one_of(st.none(), profiles()), any_facts())
def test_nothing_breaks_and_everything_is_said_in_words(base: Profile, derived: Profile | None, told: Facts) -> None:
    found = judge(base, derived, told)
    for finding in found.findings:
        assert finding.verdict in VERDICTS
        assert finding.title
        assert re.fullmatch("[a-z0-9-]+", finding.reason)
        assert all(math.isfinite(item.low) and item.low <= item.high for item in finding.amounts)
        assert finding.text.rstrip().endswith((".", "?"))
        assert "None" not in finding.text
        assert "nan" not in finding.text
        assert "inf " not in finding.text
        shown = f"{finding.text} {finding.before} {finding.after} {finding.limit}"
        # A fact that cannot be used is quoted as it was told.
        assert finding.check == "facts" or not re.search(r"\d{2}\.\d{3,}|e[+-]\d", shown), shown
        assert finding.source or finding.verdict == "not judged"
        assert set(finding.settings) <= set(load_vocabulary().settings)
    json.dumps(found, allow_nan=False)


def test_findings_of_one_check_are_not_repeated() -> None:
    findings = judge(profile(), profile(), facts(SOFT_SPOOL)).findings
    assert len(findings) == len(set(findings))
    assert len({item.check for item in findings}) == len(findings)


def test_each_tool_is_judged() -> None:
    two = profile({"nozzle.temperature": "205 °C | 225 °C", "first_layer.nozzle_temperature": "205 °C | 225 °C"})
    found = [item for item in judge(two, None, facts(SOFT_SPOOL)).findings if item.check == "nozzle-temperature"]
    assert [(item.verdict, item.title) for item in found] == [
        ("caution", "Nozzle temperature (tool 1)"),
        ("passed", "Nozzle temperature (tool 2)"),
    ]


def test_what_all_tools_share_is_said_once() -> None:
    two = profile({"nozzle.temperature": "205 °C | 225 °C"})
    assert only(judge(two, None, facts(SOFT_SPOOL)).findings, "layer-height").title == "Layer height and nozzle"


def test_the_nozzle_of_one_of_several_tools_contradicts_nothing() -> None:
    two = profile({"nozzle.diameter": "0.4 mm | 0.6 mm"})
    for told, contradicts in (("0.4 mm", False), ("0.6 mm", False), ("0.8 mm", True)):
        found = judge(two, None, facts({"machine.nozzle_diameter": told})).findings
        assert any(item.check == "facts-nozzle" for item in found) == contradicts


def test_an_everyday_profile_with_its_own_spool_raises_no_alarm() -> None:
    told = facts(
        {
            "spool.material": "PLA",
            "spool.nozzle_window": "195 °C to 220 °C",
            "spool.bed_window": "50 °C to 65 °C",
            "spool.maximum_flow": "12 mm3/s",
            "machine.maximum_flow": "15 mm3/s",
            "machine.drive": "remote",
            "machine.liner": "PTFE",
            "machine.maximum_nozzle_temperature": "250 °C",
            "machine.maximum_bed_temperature": "100 °C",
            "machine.nozzle_diameter": "0.4 mm",
        }
    )
    assert {item.verdict for item in judge(profile(), None, told).findings} <= {"passed", "not judged"}


def test_no_check_is_forgotten() -> None:
    from pathlib import Path

    from profilesmith import checks

    folder = Path(checks.__file__).parent
    written = {
        f"{path.stem}.{name}"
        for path in folder.glob("*.py")
        for name in re.findall(r"^def (check\w*)\(case: Case\)", path.read_text(encoding="utf-8"), re.MULTILINE)
    }
    assert {f"{check.__module__.rpartition('.')[2]}.{check.__name__}" for check in CHECKS} == written
    assert case().derived is None
