"""What a review says of how the texts were read: detected habits, units in values, keys nobody knows.

And whether a derived file is as it was written.
"""

from __future__ import annotations

from collections.abc import Iterable

from profilesmith.foundation.problem import nearest
from profilesmith.ledger import Line
from profilesmith.profile.profile import Departure
from profilesmith.review.wording import LONGEST, visible
from profilesmith.text.document import DEFAULT_COMMENTS
from profilesmith.translation.document_to_profile import Translation

_make = tuple.__new__  # a third of the time of a NamedTuple's own; one for each line that the map leaves out


def unmapped_lines(translation: Translation) -> list[Line]:
    """The lines whose key no binding knows."""
    texts = [(visible(document.name), document.text) for document in translation.documents]
    lines = []
    for number, (line, section, key, start, end) in translation.unmapped:
        name, text = texts[number]
        named, said = f"[{section}] {key}" if section else key, text[start : min(end, start + 80)]
        if not (len(named) < LONGEST and f"{named}{said}".isprintable()):
            named, said = visible(named), visible(said)
        lines.append(_make(Line, (name, line, named, said)))
    return lines


def unread_lines(translation: Translation) -> list[Line]:
    """The lines that are no assignment, comment or heading."""
    return [
        Line(visible(document.name), item.line, "", visible(document.text[item.start : min(item.end, item.start + 80)]))
        for document in translation.documents
        for item in document.unread
    ]


def reading_notes(translation: Translation) -> list[str]:
    """Sentences on what was detected and what departs from the map."""
    key_map, notes = translation.key_map, []
    for document in translation.documents:
        detected = [f"{document.codec} text"]
        if key_map.habits.delimiter is None:
            detected.append(f"delimiter {document.delimiter!r}")
        if key_map.habits.comments is None:
            detected.append(f"comments {' '.join(DEFAULT_COMMENTS)}")
        if not key_map.decimal:
            detected.append(f"decimal mark {translation.decimal!r}")
        notes.append(f"{visible(document.name)}: {', '.join(detected)}.")
    for name, entry in translation.profile.entries.items():
        if entry.departures:
            departs = "; ".join(map(departure_words, entry.departures))
            notes.append(f"{visible(entry.origin.file)}:{entry.origin.line} {name}: {visible(departs)}.")
    for name, spot in translation.spots.items():
        lines = translation_lines(translation, name)
        if len(lines) > 1:
            policy = f"the {key_map.duplicates} counts" if key_map.duplicates else "all say the same and are kept alike"
            notes.append(f"{spot.binding.key!r} stands in lines {', '.join(map(str, lines))}: {policy}.")
    return list(dict.fromkeys(notes))


def departure_words(departure: Departure) -> str:
    """How a text departs from its map, as a clause."""
    text = repr(departure.text)
    match departure.code:
        case "other-unit":
            says = departure.other or "no unit"
            return f"the text writes {departure.text}, the map says {says}: the text holds"
        case "no-choice":
            words = f" (a word of {', '.join(departure.names)})" if departure.names else ""
            from profilesmith.foundation.toml_text import quoted

            entry = f"choices = {{ ... = {quoted(departure.text)} }}"
            return f"{text} has no entry in choices and is kept as it is: to name it, write {entry}{words}"
        case "no-switch":
            none = f"{text} is the text of none of {', '.join(departure.names)}"
            return f"{none}: all of them are off, and it is overwritten when a rule turns one on"
        case "lines-below":
            return _below(*departure.lines)
        case _:
            return _unnamed(departure)


def _below(first: int, last: int) -> str:
    which = f"line {first} below it is" if first == last else f"lines {first} to {last} below it are"
    return f"{which} no part of it, and kept as {'it is' if first == last else 'they are'}"


def _unnamed(departure: Departure) -> str:
    """A switch's text that the map does not name."""
    on, off = departure.names, departure.others
    near = nearest(departure.text, (*on, *off))
    meant = f" (did you mean {near!r}?)" if near else ""
    named = " nor ".join(
        f"{' or '.join(map(repr, texts))} ({word})" for texts, word in ((on, "on"), (off, "off")) if texts
    )
    here, other = ("on", "off") if departure.code == "reads-as-on" else ("off", "on")
    neither = f"{departure.text!r}{meant} is neither {named}"
    return f"{neither}: it reads as {here}, and is written over when this is turned {other}"


def translation_lines(translation: Translation, setting: str) -> list[int]:
    """All lines that hold a setting's key in the document where it was found."""
    spot = translation.spots[setting]
    first = spot.lines[0]
    return (
        [
            item.line
            for item in translation.documents[first.document].assignments
            if item.key == spot.binding.key and item.section == first.assignment.section
        ]
        if len(spot.lines) > 1 or translation.key_map.duplicates
        else [first.assignment.line]
    )


def as_it_was(by_hand: Iterable[str]) -> str:
    """That nobody edited the file. by_hand: the settings that a hand had edited before it was written."""
    names = ", ".join(map(visible, by_hand))
    kept = f", with values by hand that were kept: {names}" if names else ""
    return f"The derived file is as it was written{kept}."


def since(text: str, of_hand: bool) -> str:
    """A sentence on what is not as it was written, with its head; one that is not of an edit has its own."""
    return f"Edited since: {text}" if of_hand else text


def broken_off(left: str, hint: str = "; derive again") -> str:
    """That a run did not end, or "". left: a file that it left. hint: what to do, where nothing else says it."""
    if not left:
        return ""
    return (
        f"Broken off: a run that wrote here did not end ({left} was left): text and ledger may be of two derivations"
        f"{hint}"
    )


def gone(name: str) -> str:
    """That a text is no longer there."""
    return f"{name} is gone"


def somewhere(name: str) -> str:
    """That a text was edited, and nobody can read where."""
    return f"{name}; where is not known, as its key map cannot be read"


def outside_the_map(name: str) -> str:
    """That a text was edited where no map reads."""
    return f"{name}, outside of all that the map knows"


def line_since(line: Line, before: str | None) -> str:
    """That a line that no map knows was put in, or says something else. before: what it said; None for a new one."""
    spot = f"({line.file}:{line.line})"
    if before is None:
        return f"{line.key} = {line.text} was put in {spot}"
    return f"{line.key} {before} → {line.text} {spot}"


def taken_out(key: str, text: str) -> str:
    """That a line was taken out."""
    return f"{key} = {text} was taken out"


def derived_from(name: str, bases: Iterable[str]) -> str:
    """What a stored review is of."""
    return f"{name}, derived from {', '.join(bases)}"


def read_with(names: Iterable[str], key_map: str) -> str:
    """What a review of some texts is of."""
    return f"{', '.join(names)} read with the map {key_map!r}"
