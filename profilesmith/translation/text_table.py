"""What ``[text]`` of a key map says of lines and numbers; wrong entries are complained of.

Blocks of a map that stand behind "# " are proposals that nobody has accepted yet.
"""

import re

from profilesmith.foundation.toml_table import TomlTable
from profilesmith.text.cuts import BEFORE_NUMBER, COLUMNS
from profilesmith.text.document import Habits
from profilesmith.text.heading_forms import read_form
from profilesmith.translation.written_number import THOUSANDS

# Compiled when a map has such blocks.
_HEAD = r"#\s*\[\[binding\]\]\s*"
_SETTING = r'#\s*setting\s*=\s*"([^"]+)"\s*'
_KEY = r'#\s*key\s*=\s*"(.*)"\s*'


def proposed_blocks(raw: bytes) -> dict[str, tuple[str, int]]:
    """The blocks behind "# ": setting -> its key, and the line in which the block begins."""
    blocks: dict[str, tuple[str, int]] = {}
    head, setting = 0, ""
    for number, line in enumerate(raw.decode("utf-8", "replace").splitlines(), 1):
        if not line.startswith("#"):
            head = 0
        elif "[[" in line and re.fullmatch(_HEAD, line):
            head, setting = number, ""
        elif head and (said := re.fullmatch(_SETTING, line)):
            setting = said[1]
        elif head and setting and (key := re.fullmatch(_KEY, line)):
            blocks.setdefault(setting, (key[1].replace('\\"', '"').replace("\\\\", "\\"), head))
            head = 0
    return blocks


LONGEST_FORM = 24  # signs of a heading's form


def read_habits(text: TomlTable) -> Habits:
    """How the lines of a text are to be read; what is not said is to be detected."""
    delimiters = _read_delimiters(text)
    return Habits(
        comments=text.texts("comments"),
        inline=text.flag("inline_comments") if text.has("inline_comments") else None,
        delimiter=delimiters[0] if delimiters else None,
        others=delimiters[1:],
        headings=_read_headings(text),
        next_key=text.text("next_key"),
        value_first=text.flag("value_first"),
        lines=_read_lines(text),
    )


def read_marks(text: TomlTable) -> tuple[str, str]:
    """The decimal mark, "" when it is to be detected, and what groups the digits of large numbers."""
    decimal, thousands = text.text("decimal"), text.text("thousands")
    if decimal not in ("", ".", ","):
        text.complain(
            "decimal", f"The decimal mark {decimal!r} is neither . nor a comma.", "decimal", 'Write "." or ",".'
        )
    if thousands and (thousands not in THOUSANDS or thousands == decimal):
        hint = f"Write one of {' '.join(map(repr, THOUSANDS))}, and another than the decimal mark."
        text.complain("thousands", f"{thousands!r} cannot group the digits of numbers here.", "thousands", hint)
    return decimal or {",": ".", ".": ","}.get(thousands, ""), thousands


def _read_delimiters(text: TomlTable) -> tuple[str, ...]:
    """One or several; () where the map does not say."""
    kept = (COLUMNS, BEFORE_NUMBER)
    signs = [sign if sign in kept else sign.strip() or sign[:1] for sign in text.texts("delimiter") or () if sign]
    for sign in signs:
        if sign in kept:
            continue
        if len(sign) > 3 or any(char.isalnum() or char in "\r\n\"'" for char in sign):
            hint = 'Write "=", ":", " ", up to three signs such as ":=", or a list of them.'
            text.complain("delimiter", f"{sign!r} cannot divide keys from values.", "delimiter", hint)
            return ()
    return tuple(dict.fromkeys(signs))


def _read_headings(text: TomlTable) -> tuple[str, ...]:
    """The forms of lines that head a part of the text."""
    forms = text.texts("headings") or ()
    for form in forms:
        if read_form(form) is None or len(form) > LONGEST_FORM:
            hint = 'Write it as in the text, with the word name in place of the name: "== name ==", ">> name", "name:".'
            text.complain("headings", f"{form!r} is no form of a heading.", "headings", hint)
            return ()
    return forms


def _read_lines(text: TomlTable) -> tuple[str, ...]:
    """The forms of the lines that hold a key and its value."""
    forms = text.texts("lines") or ()
    if not forms:
        return ()
    from profilesmith.text.line_forms import is_line_form

    for form in forms:
        if not is_line_form(form):
            hint = 'Write it as in the text, with {key} and {value} in their places: "{number} {value} TO {key} STOP".'
            text.complain("lines", f"{form!r} is no form of a line.", "lines", hint)
            return ()
    return forms
