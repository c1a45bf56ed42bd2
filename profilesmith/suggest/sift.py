"""Of a very long text only the keys whose words could mean something are looked at closely."""

from profilesmith.suggest.ideas import Schemas
from profilesmith.suggest.learn import Learnt
from profilesmith.suggest.score import strengths_of
from profilesmith.suggest.slot import Slot

MOST = 900  # slots that are looked at closely; real texts have some hundreds of keys


def likeliest(slots: list[Slot], schemas: Schemas) -> list[Slot]:
    """At most MOST slots, in reading order: those whose words alone say most of some setting."""
    if len(slots) <= MOST:
        return slots
    nothing = Learnt()
    members = {
        number: [schema for schema in schemas.named.values() if schema.setting.is_number == number]
        for number in (True, False)
    }
    switches = [schema for schema in members[False] if schema.setting.kind == "switch"]
    ranked = []
    for index, slot in enumerate(slots):
        strengths = strengths_of(slot, nothing, index, schemas)
        if not any(known for known, _ in strengths.strays) or strengths.decoy >= 1:
            continue
        pool = members[False] if slot.number is None else [*members[True], *switches]
        best = max(
            sum([strengths.parts[part.number] for part in schema.parts])
            + sum([cost for known, cost in strengths.strays if known.isdisjoint(schema.ideas)])
            for schema in pool
        )
        ranked.append((-best, index))
    kept = sorted(index for _, index in sorted(ranked)[:MOST])
    return [slots[index] for index in kept]
