"""Which facts can be judged with: those of the right kind and in a plausible range. The others are named."""

from fractions import Fraction

from profilesmith.facts.facts import Fact, FactKind, Facts, Hardness, fact_kinds, out_of_range
from profilesmith.ledger.judgement import Finding

CHECK, TITLE = "facts", "A fact that cannot be used"


def sound_facts(facts: Facts) -> tuple[Facts, tuple[Finding, ...]]:
    """The usable facts, and a finding for each that is left out."""
    kinds = fact_kinds()
    sound: dict[str, Fact] = {}
    findings = []
    for name, fact in facts.items():
        kind = kinds.get(name)
        fault = "is not a fact that this version knows" if kind is None else _fault(kind, fact)
        if fault:
            findings.append(unusable(f"{name} {fault}", kind.ask if kind else ""))
        else:
            sound[name] = fact
    return sound, tuple(findings)


def unusable(what: str, ask: str) -> Finding:
    """A fact that is left out. what: the start of a sentence, with the fact's name."""
    return Finding(CHECK, "not judged", TITLE, f"{what}: it was left out.", ask=ask, reason="fact-left-out")


def _fault(kind: FactKind, fact: Fact) -> str:
    value = fact.value
    fits = {
        "quantity": isinstance(value, Fraction),
        "text": isinstance(value, str),
        "hardness": isinstance(value, Hardness),
        "choice": isinstance(value, str) and value in kind.values,
        "window": isinstance(value, tuple) and not isinstance(value, Hardness) and len(value) == 2,
    }[kind.kind]
    if not fits:
        return f"is {value!r}, which is no {kind.unit_kind or kind.kind}"
    if isinstance(value, tuple) and not isinstance(value, Hardness) and value[0] > value[1]:
        return f"is wrong: {kind.show(value)} begins above its end"
    odd = out_of_range(kind, value)
    return f"is wrong: {odd}" if odd else ""
