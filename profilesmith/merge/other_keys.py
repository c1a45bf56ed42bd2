"""What differs between two texts in keys that their map does not know."""

from __future__ import annotations

from collections.abc import Iterator

from profilesmith.ledger.line_edit import ValueEdited
from profilesmith.text.changed_lines import changed_lines
from profilesmith.translation.document_to_profile import Translation

MOST = 6  # lines of one value that are told one by one; of more the value is told as a whole


def other_keys_edited(before: Translation, after: Translation) -> list[ValueEdited]:
    """By key, each differing line of a value of its own; what is in the new text first, then what is gone.

    Of equal keys in one text the last is compared.
    """
    old, new = _last_of_each_key(before), _last_of_each_key(after)
    edits = []
    for key, value in new.items():
        if key not in old:
            edits.append(value._replace(was=None))
        elif old[key].now != value.now:
            edits += value_edits(value._replace(was=old[key].now))
    return edits + [value._replace(was=value.now, now=None) for key, value in old.items() if key not in new]


def value_edits(edit: ValueEdited) -> Iterator[ValueEdited]:
    """One for each line that differs of a value that goes on below; itself where it has one line, or where many do."""
    lines = changed_lines(edit.was or "", edit.now or "")
    if len(lines) > MOST:
        yield edit
        return
    for line in lines:
        yield edit._replace(was=line.was, now=line.now, line=edit.line + line.below)


def _last_of_each_key(side: Translation) -> dict[str, ValueEdited]:
    values = {}
    for number, (line, section, key, start, end) in side.unmapped:
        document = side.documents[number]
        named, text = f"[{section}] {key}" if section else key, document.text[start:end]
        values[named] = ValueEdited(named, text, text, document.name, line, means_the_same=False)
    return values
