"""Facts: those that cannot be used, and those that contradict each other or the text."""

import math
from fractions import Fraction

from profilesmith.checks.amounts import amount, between
from profilesmith.checks.case import Case, ask
from profilesmith.checks.flow import usual_beside_flow
from profilesmith.checks.materials import hardness_modulus, material_modulus, spool_name
from profilesmith.checks.temperatures import NOZZLE, usual_beside_label
from profilesmith.facts.facts import Fact, FactKind, Facts, FactValue, Hardness, fact_kinds, is_out_of_range
from profilesmith.ledger.judgement import Amount, Finding
from profilesmith.physics.answer import Bracket

CHECK = "facts"


def sound_facts(facts: Facts) -> tuple[Facts, tuple[Finding, ...]]:
    """The usable facts, and a finding for each that is left out."""
    kinds = fact_kinds()
    sound: dict[str, Fact] = {}
    findings = []
    for name, fact in facts.items():
        kind = kinds.get(name)
        fault = "fact-not-known" if kind is None else _fault(kind, fact)
        if fault:
            findings.append(_left_out(name, kind, fact, fault))
        else:
            sound[name] = fact
    return sound, tuple(findings)


def _left_out(name: str, kind: FactKind | None, fact: Fact, reason: str) -> Finding:
    """The fact's name, its value, and what it is to be."""
    if kind is None:
        return Finding(CHECK, "not judged", reason=reason, names=(name,))
    shown = _shown(kind, fact.value)
    wanted = kind.unit_kind or kind.kind
    bounds = () if kind.low is None or kind.high is None else (kind.show(kind.low), kind.show(kind.high))
    return Finding(CHECK, "not judged", reason=reason, names=(name, shown, wanted, *bounds), ask=kind.ask)


def _shown(kind: FactKind, value: FactValue) -> str:
    """As its kind shows it; a value of another kind as it stands."""
    return kind.show(value) if _fits(kind, value) else str(value)


def _fits(kind: FactKind, value: FactValue) -> bool:
    return {
        "quantity": isinstance(value, Fraction),
        "text": isinstance(value, str),
        "hardness": isinstance(value, Hardness),
        "choice": isinstance(value, str) and value in kind.values,
        "window": isinstance(value, tuple) and not isinstance(value, Hardness) and len(value) == 2,
    }[kind.kind]


def _fault(kind: FactKind, fact: Fact) -> str:
    value = fact.value
    if not _fits(kind, value):
        return "fact-of-another-kind"
    if isinstance(value, tuple) and not isinstance(value, Hardness) and value[0] > value[1]:
        return "window-upside-down"
    return "fact-out-of-range" if is_out_of_range(kind, value) else ""


FACTS_SOURCE = "the facts files and the settings text"
APART = 3.0  # middles that differ by more are told (own threshold: twice the error of a law from hardness)


def check(case: Case) -> tuple[Finding, ...]:
    """Nothing where all agree."""
    findings = (
        _nozzle(case),
        _part(case),
        _window(case),
        _material(case),
        _hardness(case),
        _magnitude(case),
        _flow(case),
    )
    return tuple(finding for finding in findings if finding is not None)


def _nozzle(case: Case) -> Finding | None:
    named, fitted = case.size("nozzle.diameter"), case.quantity("machine.nozzle_diameter")
    if named is None or fitted is None or named == fitted:
        return None
    return Finding(
        "facts-nozzle",
        "caution",
        reason="two-nozzles",
        amounts=(*amount("after", named, "mm"), *amount("fitted", fitted, "mm")),
        source=FACTS_SOURCE,
        ask=ask("machine.nozzle_diameter"),
        settings=("nozzle.diameter",),
    )


def _part(case: Case) -> Finding | None:
    thickness, least = case.quantity("part.thickness"), case.quantity("part.minimum_wall")
    if thickness is None or least is None or least <= thickness:
        return None
    return Finding(
        "facts-wall",
        "caution",
        reason="part-thinner-than-wall",
        amounts=(*amount("part", thickness, "mm"), *amount("wall", least, "mm")),
        source=FACTS_SOURCE,
        ask=ask("part.minimum_wall"),
    )


def _window(case: Case) -> Finding | None:
    """A spool that wants more heat than the machine gives."""
    window, most = case.window("spool.nozzle_window"), case.quantity("machine.maximum_nozzle_temperature")
    if window is None or most is None or window[0] <= most:
        return None
    return Finding(
        "facts-heat",
        "caution",
        reason="spool-too-hot-for-machine",
        amounts=(*amount("wanted", window[0], "°C"), *amount("given", most, "°C")),
        source=FACTS_SOURCE,
        ask=ask("spool.nozzle_window"),
        settings=("nozzle.temperature",),
    )


def _material(case: Case) -> Finding | None:
    """A label's window that the named material does not have at all: mostly another spool's, and dangerous."""
    window, usual = case.window(NOZZLE.fact), usual_beside_label(case, NOZZLE)
    if window is None or usual is None:
        return None
    return Finding(
        "facts-spool",
        "caution",
        reason="another-spools-label",
        names=(case.word("spool.material"),),
        amounts=(Amount("label", *window, "°C"), Amount("usual", usual.low, usual.high, usual.unit)),
        source=usual.source,
        ask=ask("spool.material"),
    )


def _hardness(case: Case) -> Finding | None:
    """A label's hardness that means another modulus than the material's name does."""
    named, labelled = material_modulus(case), hardness_modulus(case)
    if named is None or labelled is None or case.quantity("spool.modulus") is not None:
        return None
    apart = middle(labelled.mpa) / middle(named.mpa)
    if 1 / APART <= apart <= APART:
        return None
    return Finding(
        "facts-hardness",
        "note",
        reason="hardness-and-name-differ",
        names=(spool_name(case),),
        amounts=(*between("by-hardness", labelled.mpa, "MPa"), *between("by-name", named.mpa, "MPa")),
        source=f"{labelled.source}; {named.source}",
        ask=ask("spool.modulus"),
    )


def middle(held: Bracket) -> float:
    """The geometric middle of a bracket above zero."""
    return math.sqrt(held.low * held.high)


TENFOLDS = (0.1, 0.01, 0.001, 10.0, 100.0, 1000.0)  # slips of the decimal mark


def _magnitude(case: Case) -> Finding | None:
    """A largest flow that no spool of the material gives: mostly a slip of the decimal mark."""
    flow, usual = case.quantity("spool.maximum_flow"), usual_beside_flow(case)
    if flow is None or usual is None:
        return None
    meant = next((flow * times for times in TENFOLDS if usual.low <= flow * times <= usual.high), None)
    return Finding(
        "facts-spool-flow",
        "caution",
        reason="flow-of-another-magnitude",
        names=(spool_name(case),),
        amounts=(
            *amount("given", flow, "mm³/s"),
            Amount("usual", usual.low, usual.high, "mm³/s"),
            *amount("meant", meant, "mm³/s"),
        ),
        source=usual.source,
        ask=ask("spool.maximum_flow"),
    )


def _flow(case: Case) -> Finding | None:
    """The text's own flow limit, which slicing software slows down by, above what the spool gives."""
    own, spool = case.size("filament.maximum_flow"), case.quantity("spool.maximum_flow")
    if own is None or spool is None or own <= spool:
        return None
    return Finding(
        "facts-flow",
        "note",
        reason="text-allows-more-flow",
        amounts=(
            *amount("before", case.before("filament.maximum_flow") or None, "mm³/s"),
            *amount("after", own, "mm³/s"),
            *amount("given", spool, "mm³/s"),
        ),
        source=FACTS_SOURCE,
        settings=("filament.maximum_flow",),
    )
