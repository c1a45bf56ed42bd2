"""Edits of lines and of a whole text's form, in sentences."""

from __future__ import annotations

from profilesmith.ledger.line_edit import EditedLine, FormEdited, LineEdit, LinesEdited

MOST, LONGEST = 3, 80  # lines of a kind that are shown, characters of a text


def line_edit_sentence(edit: LineEdit) -> str:
    """``2 lines were put in (soft.txt): 1 "# remark", 9 "lamp = 3"``."""
    if isinstance(edit, FormEdited):
        return f"{edit.what}: {edit.was} → {edit.now} ({edit.file})"
    if isinstance(edit, LinesEdited):
        return _lines(edit)
    same = "; to the map it means the same" if edit.means_the_same else ""
    return f"{edit.key} {_cut(edit.was)} → {_cut(edit.now)} ({edit.file}:{edit.line}){same}"


def _lines(edit: LinesEdited) -> str:
    count = len(edit.lines)
    more = f" and {count - MOST} more" if count > MOST else ""
    were = "line was" if count == 1 else "lines were"
    how = "changed around their values" if edit.how == "around values" else edit.how
    return f"{count} {were} {how} ({edit.file}): {', '.join(map(_shown, edit.lines[:MOST]))}{more}"


def _shown(line: EditedLine) -> str:
    return f'{line.number} "{_cut(line.text)}"' if line.text else f"{line.number} (empty)"


def _cut(text: str) -> str:
    return f"{text[:LONGEST]}…" if len(text) > LONGEST else text or "nothing"
