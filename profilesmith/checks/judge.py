"""All checks of a change, or of one profile: findings, cautions and figures."""

from collections.abc import Callable

from profilesmith.checks import (
    air,
    bending,
    contradictions,
    face,
    facts_agree,
    flow,
    print_time,
    sanding,
    sizes,
    skins,
    softness,
    spending,
    stiffness,
    supports,
    temperatures,
    transport,
    wanted,
)
from profilesmith.checks.beads import LaidBeads
from profilesmith.checks.case import UNKNOWN, Case, CaseAnswers, Measured
from profilesmith.checks.cautions import cautions_of
from profilesmith.checks.facts_agree import sound_facts
from profilesmith.checks.figures import figures_of
from profilesmith.facts.facts import Facts
from profilesmith.ledger.judgement import Caution, Finding, Judgement
from profilesmith.ledger.ledger import TOOL
from profilesmith.profile.profile import Profile

# In the order in which they are told: what may harm first, then what fails, then what it is like.
CHECKS: tuple[Callable[[Case], tuple[Finding, ...]], ...] = (
    temperatures.check_machine,
    temperatures.check_liner,
    facts_agree.check,
    flow.check,
    flow.check_label_speed,
    temperatures.check_nozzle,
    temperatures.check_bed,
    sizes.check_first_layer,
    supports.check_release,
    sizes.check_sizes,
    skins.check,
    supports.check_spacing,
    supports.check_overhang,
    transport.check_pull,
    transport.check_push,
    air.check_cooling,
    contradictions.check,
    print_time.check,
    spending.check,
    stiffness.check,
    softness.check_felt,
    softness.check,
    wanted.check,
    face.check,
    bending.check_part,
    sanding.check,
    bending.check_paint,
    air.check_drying,
    air.check_moisture,
    bending.check_in_use,
    contradictions.check_shares,
    contradictions.check_usual,
)


def judge(base: Profile, derived: Profile | None, facts: Facts, measured: Measured = UNKNOWN) -> Judgement:
    """Judge a change, or the base alone. A fact that cannot be used is named, what hangs on it is not judged.

    measured: what a print or its motion file tells; it takes the place of brackets.
    """
    sound, findings = sound_facts(facts)
    cases = _cases(Case(base, derived, sound, LaidBeads(), measured))
    by_tool = _told(cases)
    figures = figures_of(next(iter(cases.values())))
    return Judgement((*findings, *by_tool), _cautions(list(cases.values())), (*figures, *measured.figures))


def findings_of(base: Profile, derived: Profile, facts: Facts, laid: LaidBeads) -> tuple[Finding, ...]:
    """What the checks find alone: without cautions and figures, for who compares several results."""
    return _told(_cases(Case(base, derived, sound_facts(facts)[0], laid)))


def _cases(case: Case) -> dict[int, Case]:
    """The case as each tool sees it that carries the spool."""
    tools = case._replace(facts=_of_one_tool(case.base, case.facts), known=CaseAnswers()).tools()
    return _carrying(dict(tools), case.facts)


def _told(cases: dict[int, Case]) -> tuple[Finding, ...]:
    """The findings of all tools, each once."""
    tools_of: dict[Finding, list[int]] = {}
    for tool, case in cases.items():
        for check in CHECKS:
            for finding in check(case):
                tools_of.setdefault(finding, []).append(tool)
    return tuple(
        finding if len(tools) == len(cases) else finding._replace(tools=tuple(tools))
        for finding, tools in tools_of.items()
    )


def _carrying(cases: dict[int, Case], facts: Facts) -> dict[int, Case]:
    """The tool that carries the spool, where that is known; else all of them."""
    fact = facts.get(TOOL)
    return {tool: case for tool, case in cases.items() if fact and tool == fact.value} or cases


def _cautions(cases: list[Case]) -> tuple[Caution, ...]:
    return tuple(Caution(item.id, item.text, item.source) for item in cautions_of(cases))


def _of_one_tool(base: Profile, facts: Facts) -> Facts:
    """The facts without the nozzle's diameter, where it is that of one of several tools: the text knows them all."""
    bore, bores = facts.get("machine.nozzle_diameter"), base.values("nozzle.diameter")
    if bore is None or len(set(bores)) < 2 or bore.value not in bores:
        return facts
    return {name: fact for name, fact in facts.items() if fact is not bore}
