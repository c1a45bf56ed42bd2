"""Strategies for whole texts: lines, sections, comments, line ends, encodings, and everything that may stand
between.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from hypothesis import strategies as st

from tests.laws.settings_in_text import REFERENCE_KEY, Written
from tests.laws.spellings import Slot

# Invented, and odd on purpose: blanks, dots, brackets, slashes, umlauts, a key that looks like a number.
KEYS = (
    "Rim Pace",
    "ply.h",
    "core[0]",
    "größe",
    "heat-tip",
    "Loom/Pace",
    "x",
    "42nd",
    "_under_",
    "A.B.C",
    "prop@lean",
    "(draw)",
    "thread w",
    "Äußere Bahn",
    "sole+cap",
    "hem?",
    "Pull!",
    "air{run}",
    "k|k",
    "tick~tock",
    "lean<45>",
    "ring*",
)
UNKNOWN = ("zz_note", "zz start", "zz.path", "zz[1]", "zzü", "zz-empty")
VALUES = (
    "",
    "0",
    "true",
    '"quoted; # text"',
    "'it\"s'",
    "C:/a b/c=d",
    "G28 ; home",
    "G28\\nM104 S0\\nG1 X1",
    "[1, 2]",
    "a = b : c",
    "#ff0000",
    "x" * 3000,
    "1,2;3|4",
    "\x00\x07",
    "-",
    "{first} [second]",
    "\\",
    "100%",
    "tab\there",
)
PROSE = ("", " plain words", "key = 5", " [x]", "====", " ünïcode", "\x0c", " trailing  ", "\t", "M104 S200", '"')
WIDE = (" 漢字", " \U0001f9f5 thread", "\u2028 = 3", "\x85")
ENCODINGS = (
    ("utf-8", b""),
    ("utf-8", b""),
    ("utf-8", b"\xef\xbb\xbf"),
    ("utf-16-le", b"\xff\xfe"),
    ("utf-16-be", b"\xfe\xff"),
    ("cp1252", b""),
)
ENDS = ("\n", "\r\n", "\r")


@dataclass(frozen=True)
class Line:
    """before + raw + after + end is the line's text. role: setting, unknown (key), twin (losing duplicate) or other."""

    before: str
    raw: str = ""
    after: str = ""
    end: str = "\n"
    role: str = "other"
    key: str = ""
    section: str = ""
    slots: tuple[Slot, ...] = ()

    @property
    def text(self) -> str:
        return self.before + self.raw + self.after + self.end


@dataclass(frozen=True)
class Page:
    """A text and what the map says of it. bindings: those whose key is not in the text come last."""

    lines: tuple[Line, ...]
    encoding: str
    bom: bytes
    habits: Mapping[str, Any]
    bindings: tuple[Mapping[str, Any], ...]

    @property
    def text(self) -> str:
        return "".join(line.text for line in self.lines)

    @property
    def raw(self) -> bytes:
        return self.bom + self.text.encode(self.encoding, "surrogateescape" if self.encoding == "utf-8" else "strict")

    def decode(self, raw: bytes) -> str:
        assert raw.startswith(self.bom)
        return raw[len(self.bom) :].decode(self.encoding, "surrogateescape" if self.encoding == "utf-8" else "strict")

    def number(self, line: Line) -> int:
        """A line's number, from 1; line ends inside a value count."""
        before = "".join(
            item.text for item in self.lines[: next(i for i, item in enumerate(self.lines) if item is line)]
        )
        return before.count("\n") + before.count("\r") - before.count("\r\n") + 1

    def slots(self) -> dict[str, tuple[Line, Slot]]:
        """Each setting with the first line that counts for it."""
        found: dict[str, tuple[Line, Slot]] = {}
        for line in self.lines:
            for slot in line.slots:
                found.setdefault(slot.setting, (line, slot))
        return found


class _Writer:
    """The choices that hold for a whole text, and the lines made so far."""

    def __init__(self, draw: st.DrawFn) -> None:
        self.draw = draw
        self.delimiter = self.pick(("=", "=", ":", " ", "->", "  ", "|"))
        self.encoding, self.bom = self.pick(ENCODINGS)
        self.comments = self.pick((None, (";", "#"), ("//",), ("%%", "!")))
        self.inline = self.pick((None, True, False))
        self.told = self.delimiter not in ("=", ":") or draw(st.booleans())
        self.ends = self.pick((("\n",), ("\r\n",), ("\r",), ENDS))
        self.around = (
            self.pick(((" ", " "), ("", ""), ("", " "), ("\t", "  ")))
            if self.delimiter != " "
            else ("", self.pick(("", "  ")))
        )
        self.lines: list[Line] = []
        self.section = ""

    def pick(self, items: Iterable[Any]) -> Any:
        return self.draw(st.sampled_from(list(items)))

    def add(self, **parts: Any) -> None:
        self.lines.append(Line(end=self.pick(self.ends), section=self.section, **parts))

    def key(self, key: str) -> str:
        key = key.replace(" ", "_") if self.delimiter == " " else key
        return key.replace("|", "/") if self.delimiter == "|" else key

    def assign(self, key: str, raw: str, after: str = "", indent: str = "", **parts: Any) -> None:
        before = f"{indent}{self.key(key)}{self.around[0]}{self.delimiter}{self.around[1]}"
        self.add(before=before, raw=raw, after=after, key=self.key(key), **parts)

    def comment(self) -> None:
        prose = self.pick(
            PROSE
            if self.encoding == "cp1252"
            else (*PROSE, *WIDE, *(("caf\udce9 ñ",) if self.encoding == "utf-8" else ()))
        )
        self.add(before=self.pick(("", "  ")) + self.pick(self.comments or ("#", ";", "//")) + prose)

    def filler(self) -> None:
        """Something that is no setting: a comment, blanks, an unknown key, a line that nobody can read."""
        kind = self.draw(st.integers(0, 9))
        if kind <= 2:
            self.comment()
        elif kind <= 4:
            self.add(before=self.pick(("", "   ", "\t")))
        elif kind <= 6:
            value = self.pick(VALUES)
            value = value.rstrip("\\") if self.delimiter == " " else value
            self.assign(self.pick(UNKNOWN), value, role="unknown")
            if value.endswith("\\"):
                self.add(before="  below it")
        elif kind == 7:
            self.assign(
                "zz_block",
                "G28 \\" + self.pick(self.ends) + "  G1 X5 \\" + self.pick(self.ends) + "M117",
                role="unknown",
            )
        else:
            self.add(before=self.pick(("lonely", "two words" if self.delimiter != " " else "lonelier", "---")))

    def setting(self, written: Written, key: str) -> None:
        tail = self.pick(("", "", " ", "\t "))
        if self.inline is True or (self.inline is None and written.plain):
            tail += self.pick(("", "", f" {self.pick(self.comments or ('#', ';', '//'))} was 5 = x"))
        indent = "" if self.delimiter == " " else self.pick(("", "", "", "  "))
        self.assign(key, written.raw, tail, indent, role="setting", slots=written.slots)


@st.composite
def pages(
    draw: st.DrawFn, writtens: list[Written], addable: tuple[str, ...] = (), absent: tuple[str, ...] = ()
) -> Page:
    """A text with these settings. addable, absent: settings that the map binds to keys that are not there."""
    pen = _Writer(draw)
    first, stride = draw(st.integers(0, len(KEYS) - 1)), draw(st.sampled_from((1, 3, 5)))
    keys = [KEYS[(first + at * stride) % len(KEYS)] for at in range(len(KEYS))]
    headings = draw(st.sampled_from(((), (), ("quality",), ("quality", "Heat & größe"))))
    starts = {1 + at * max(1, len(writtens) // (len(headings) + 1)): name for at, name in enumerate(headings)}
    decoy = draw(st.booleans()) and bool(headings)
    policy = draw(st.sampled_from(("", "", "first", "last")))
    bindings: list[Mapping[str, Any]] = []
    if pen.encoding == "cp1252":  # without such a letter nobody could tell it from UTF-8
        pen.add(before=(pen.comments or ("#",))[0] + " déjà")
    pen.assign(REFERENCE_KEY, "80", role="reference")
    for at, written in enumerate(writtens):
        if at in starts:
            pen.section = starts[at]
            pen.add(before=f"[{pen.section}]" + draw(st.sampled_from(("", " "))))
        for _ in range(draw(st.integers(0, 2))):
            pen.filler()
        key = keys[at]
        home = {"section": pen.section} if decoy or (pen.section and draw(st.booleans())) else {}
        bindings += [_binding(slot, pen, key, home) for slot in written.slots]
        _setting_lines(pen, written, key, policy)
    if decoy:
        pen.section = "decoys"
        pen.add(before="[decoys]")
        pen.assign(keys[0], "1", role="unknown")
    for at, setting in enumerate((*addable, *absent), len(writtens)):
        home = {"section": draw(st.sampled_from((*headings, "new part")))} if draw(st.booleans()) and headings else {}
        bindings.append({"setting": setting, "key": pen.key(keys[at]), "add": setting in addable, **home})
    for _ in range(draw(st.integers(0, 2))):
        pen.filler()
    return _page(pen, policy, bindings)


def _setting_lines(pen: _Writer, written: Written, key: str, policy: str) -> None:
    """The line, and at times a second one that claims the same key."""
    twin = pen.draw(st.integers(0, 5)) == 5
    if twin and policy == "last":
        pen.assign(key, "1", role="twin")
    pen.setting(written, key)
    if twin and policy == "first":
        pen.assign(key, "1", role="twin")
    elif twin and not policy:
        pen.setting(written, key)


def _binding(slot: Slot, pen: _Writer, key: str, home: Mapping[str, str]) -> Mapping[str, Any]:
    other = {"relative_key": pen.key(slot.binding["relative_key"])} if "relative_key" in slot.binding else {}
    return {"setting": slot.setting, "key": pen.key(key), **slot.binding, **other, **home}


def _page(pen: _Writer, policy: str, bindings: list[Mapping[str, Any]]) -> Page:
    if pen.draw(st.booleans()):
        pen.lines[-1] = Line(**{**vars(pen.lines[-1]), "end": ""})
    habits: dict[str, Any] = {"delimiter": pen.delimiter} if pen.told else {}
    habits |= {"comments": list(pen.comments)} if pen.comments else {}
    habits |= {"inline_comments": pen.inline} if pen.inline is not None else {}
    habits |= {"duplicates": policy} if policy else {}
    return Page(tuple(pen.lines), pen.encoding, pen.bom, habits, tuple(bindings))
