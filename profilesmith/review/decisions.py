"""What became of the edits that hands made, in sentences."""

from collections.abc import Collection, Mapping, Sequence

from profilesmith.ledger import Decision, Earlier

WHY: Mapping[str, str] = {
    "another-value-now": "its value is another one now",
    "base-changed-it-too": "the new base changed this line too",
    "base-has-it-its-own-way": "the new base has it too, written in its own way",
    "base-has-it-too": "the new base has it too",
    "base-lacks-it-too": "the new base does not have it either",
    "base-lacks-this-line": "the new base does not have this line",
    "base-preferred": "the new base is preferred",
    "base-says-the-same": "the new base says the same",
    "beside-its-values": "what stands beside its values is the new base's",
    "changes-other-lines": "carried over it would change what other lines say",
    "comes-to-the-same": "the new base and its recipes come to the same",
    "encoding-of-base": "the encoding is the new base's",
    "end-of-base": "it is as in the new base",
    "hand-preferred": "the hand edit is preferred",
    "line-ends-of-base": "the line ends are the new base's",
    "moved-by-hand": "moved by hand; the order is the new base's",
    "no-copy-of-the-text": (
        "the ledger holds no copy of the text as it was made: whether a hand put this in or the base took it out "
        "cannot be told"
    ),
    "several-settings-in-one-value": "its key holds several settings in one value; set it by hand",
    "spelled-its-own-way": "it means the same; the new base's spelling stands",
}
"""Why an edit became what it did; what is not here, older ledgers say in words."""


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
    why = WHY.get(decision.why, decision.why)
    more = [text for text in (why, f"it overrules {decision.overrules}" if decision.overrules else "") if text]
    return f"{outcome}{'; ' if more else ''}{'; '.join(more)}."


def remembered(history: Sequence[Earlier], elsewhere: Collection[str] = ()) -> tuple[str, ...]:
    """The sentences of the last merge in a ledger's history. told: settings whose kept edit is told elsewhere."""
    decisions = history[-1].decisions if history else ()
    return tuple(
        decision_sentence(item)
        for item in decisions
        if not (item.kind == "setting" and item.outcome == "kept" and item.what in elsewhere)
    )
