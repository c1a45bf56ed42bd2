"""How values are written: what a map reads as the same may still be two texts."""

from collections.abc import Mapping, Sequence

from profilesmith.text.document import Edit
from profilesmith.translation.document_to_profile import Translation
from profilesmith.translation.find_keys import value_text


def respell(target: Translation, texts: Mapping[str, Sequence[str]]) -> list[list[Edit]]:
    """Edits of each document that write settings as given. texts: setting -> one for each tool, "" to leave it."""
    edits: list[list[Edit]] = [[] for _ in target.documents]
    for name, wanted in texts.items():
        spot = target.spots.get(name)
        if spot is None or len(spot.spans) != len(wanted):
            continue
        first = spot.raw
        for line in spot.lines:
            document = target.documents[line.document]
            if value_text(document, line.assignment, spot.binding) != first:
                continue
            for span, text in zip(spot.spans, wanted, strict=True):
                if text and span.of(first) != text:
                    start = line.assignment.start
                    edit = Edit(start + span.start, start + span.end, text)
                    if edit not in edits[line.document]:  # switches that share a key say the same of it
                        edits[line.document].append(edit)
    return edits


def beside_changed(old: Translation, mine: Translation, name: str) -> bool:
    """Whether a hand changed what stands beside the values in a setting's key."""
    if name not in old.spots or name not in mine.spots or len(old.spots[name].spans) != len(mine.spots[name].spans):
        return False
    return _beside(old, name) != _beside(mine, name)


def _beside(side: Translation, name: str) -> list[str]:
    """What is left of a raw text without the values in it."""
    line = side.spots[name].lines[0]
    raw = side.documents[line.document].value(line.assignment)
    spans = sorted({span for spot in side.spots.values() if spot.lines[0] == line for span in spot.spans})
    rest, at = [], 0
    for span in spans:
        rest.append(raw[at : span.start])
        at = max(at, span.end)
    return [*rest, raw[at:]]
