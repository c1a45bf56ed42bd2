"""What became of the edits that hands made, in sentences."""

from collections.abc import Collection, Sequence

from profilesmith.ledger import Decision, Earlier


def decision_sentence(decision: Decision) -> str:
    """The record in one sentence."""
    spot = f" ({decision.file}:{decision.line})" if decision.file and decision.line else ""
    edit = f"{decision.what}{spot}: {decision.was or 'nothing'} → {decision.hand or 'nothing'} by hand"
    if decision.outcome == "conflict":
        chosen = {"base": f"{decision.new or 'nothing'} is taken", "derived": f"{decision.hand or 'nothing'} is taken"}
        outcome = (
            f"Conflict: {edit}, → {decision.new or 'nothing'} with the new base; "
            f"{chosen.get(decision.chosen, 'not decided')}"
        )
    else:
        outcome = {"kept": "Kept", "agreed": "Needless now", "left out": "Not carried over"}[
            decision.outcome
        ] + f": {edit}"
    more = [text for text in (decision.why, f"it overrules {decision.overrules}" if decision.overrules else "") if text]
    return f"{outcome}{'; ' if more else ''}{'; '.join(more)}."


def remembered(history: Sequence[Earlier], elsewhere: Collection[str] = ()) -> tuple[str, ...]:
    """The sentences of the last merge in a ledger's history. told: settings whose kept edit is told elsewhere."""
    decisions = history[-1].decisions if history else ()
    return tuple(
        decision_sentence(item)
        for item in decisions
        if not (item.kind == "setting" and item.outcome == "kept" and item.what in elsewhere)
    )
