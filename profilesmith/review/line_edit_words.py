"""Edits of lines and of a whole text's form, in sentences."""

from __future__ import annotations

from profilesmith.ledger.line_edit import EditedLine, FormEdited, LineEdit, LinesEdited

MOST, LONGEST, BEFORE = 3, 80, 20  # lines of a kind that are shown; characters of a text, and before a difference


def line_edit_sentence(edit: LineEdit) -> str:
    """``2 lines were put in (soft.txt): 1 "# remark", 9 "lamp = 3"``."""
    if isinstance(edit, FormEdited):
        return f"{edit.what}: {edit.was} → {edit.now} ({edit.file})"
    if isinstance(edit, LinesEdited):
        return _lines(edit)
    same = "; to the map it means the same" if edit.means_the_same else ""
    was, now = where_they_differ(edit.was or "", edit.now or "")
    return f"{edit.key} {was} → {now} ({edit.file}:{edit.line}){same}"


def where_they_differ(was: str, now: str) -> tuple[str, str]:
    """Both cut to a bearable length; where that leaves out what differs, from shortly before it on."""
    shorter = min(len(was), len(now))
    alike = next((at for at in range(shorter) if was[at] != now[at]), shorter)
    start = alike - BEFORE if alike >= LONGEST and was != now else 0
    ahead = "…" if start else ""
    return f"{ahead}{cut(was[start:])}", f"{ahead}{cut(now[start:])}"


def _lines(edit: LinesEdited) -> str:
    count = len(edit.lines)
    more = f" and {count - MOST} more" if count > MOST else ""
    were = "line was" if count == 1 else "lines were"
    how = "changed around their values" if edit.how == "around values" else edit.how
    return f"{count} {were} {how} ({edit.file}): {', '.join(map(_shown, edit.lines[:MOST]))}{more}"


def _shown(line: EditedLine) -> str:
    return f'{line.number} "{cut(line.text)}"' if line.text else f"{line.number} (empty)"


def cut(text: str) -> str:
    return f"{text[:LONGEST]}…" if len(text) > LONGEST else text or "nothing"
