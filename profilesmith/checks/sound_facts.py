"""Which facts can be judged with: those of the right kind and in a plausible range. The others are named."""

from fractions import Fraction

from profilesmith.facts.facts import Fact, FactKind, Facts, FactValue, Hardness, fact_kinds, is_out_of_range
from profilesmith.ledger.judgement import Finding

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
