"""Edits of a hand on keys that the map knows which change no setting: another spelling, something beside the values."""

from collections.abc import Iterator

from profilesmith.merge.decision import LEFT_OUT, Decision
from profilesmith.translation.document_to_profile import Translation


def respelled(old: Translation, mine: Translation, merged: set[str]) -> Iterator[Decision]:
    """A decision for each. merged: the settings whose value was edited; they have a decision of their own."""
    seen: set[tuple[int, int]] = set()
    for name, spot in mine.spots.items():
        before = old.spots.get(name)
        if before is None:
            continue
        line, was = spot.lines[0], before.lines[0]
        hand_text, old_text = mine.documents[line.document].value(line.assignment), old.documents[was.document].value(was.assignment)
        place = (line.document, line.assignment.line)
        if hand_text == old_text or place in seen:
            continue
        seen.add(place)
        here = {other for other, at in mine.spots.items() if at.lines[0] == line}
        if here & merged and (len(spot.spans) != len(before.spans) or _rest(mine, name) == _rest(old, name)):
            continue
        same = not here & merged
        why = "it means the same; the new base's spelling stands" if same else "what stands beside its values is the new base's"
        yield Decision(
            spot.binding.name, "key", LEFT_OUT, old_text, hand_text, why=why, file=mine.documents[line.document].name, line=line.assignment.line
        )


def _rest(side: Translation, name: str) -> list[str]:
    """What is left of a raw text without the values in it."""
    line = side.spots[name].lines[0]
    raw = side.documents[line.document].value(line.assignment)
    spans = sorted({span for spot in side.spots.values() if spot.lines[0] == line for span in spot.spans})
    rest, at = [], 0
    for span in spans:
        rest.append(raw[at : span.start])
        at = max(at, span.end)
    return [*rest, raw[at:]]
