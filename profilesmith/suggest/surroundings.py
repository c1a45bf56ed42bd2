"""What stands around an assignment: the remark behind it on its line, the remark that heads its block, the text's
head.
"""

import re
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from profilesmith.foundation.quantity import find_unit
from profilesmith.suggest.block_units import block_units
from profilesmith.suggest.explanations import Explained, KeyPlace, explanations
from profilesmith.suggest.key_tables import is_code, tabled_names
from profilesmith.suggest.key_words import split_words
from profilesmith.suggest.legends import Legends
from profilesmith.suggest.lexicon import Lexicon, Term
from profilesmith.suggest.remark_names import opened
from profilesmith.suggest.unit_signs import ending_sign, leading_sign, sign_behind, unit_signs
from profilesmith.text.document import Assignment, Document, Habits

LONGEST_REMARK = 160
LONGEST_HEADING = 80
PROSE = 6  # words at least of a sentence
MOST_HEADED = 20  # keys below a heading; a remark above more of them is about the text
MOST_CODES = 1000  # keys; a text with more explains none of them
MOST_WORDS = 5  # of a heading; longer remarks are sentences, of which only words that warn are heeded


_LETTERS = re.compile(r"[^\W\d_]{2,}")
_PER_CENT_OF = re.compile(r"%\s+(?:of|vom|von|der|de|du|des)\b")
_PART = re.compile(r"(?:%|part|share|fraction) of |%\s+(?:vom|von|der|de|du|des)\s|of 1\Z|times ")


def _columns_of(habits: Habits) -> re.Pattern[str] | None:
    """What parts the columns of a table whose rows have a form."""
    border = next((sign for form in habits.lines for sign in (";", "|", "\t", ",") if form.count(sign) > 1), "")
    wide = any(form.count("  ") > 1 for form in habits.lines)
    return re.compile(re.escape(border)) if border else re.compile(r"\s{2,}|\t") if wide else None


class Surroundings:
    """One document's lines, looked at from its assignments."""

    def __init__(self, document: Document, habits: Habits, lexicon: Lexicon, first: bool = False) -> None:
        """first: of a key's lines the first counts."""
        self.document, self.lexicon = document, lexicon
        self.marks = habits.comments or ()
        self.lines = document.lines()
        self.headings: list[tuple[int, tuple[Term, ...]]] = []
        self.remark_lines: dict[int, str] = {}
        lines_of = defaultdict[str, list[int]](list)
        for item in document.assignments:
            lines_of[item.key].append(item.line)
        prose = self._words_alone(lines_of)
        # A line whose key is assigned elsewhere, too, may be one of a table that says what the keys mean.
        again = {line for lines in lines_of.values() for line in (lines[1:] if first else lines[:-1])}
        self.lines_assigned = sorted({item.line for item in document.assignments} - prose)
        self.assigned = set(self.lines_assigned)
        self._walk()
        for line in prose:
            self.remark_lines.setdefault(line, self.lines[line - 1].strip("*-=_~ \t"))
        self.names = tabled_names(self._free_lines(again, lines_of), lines_of)
        headed = {heading.line for heading in document.headings}
        self.free = set(range(1, len(self.lines) + 1)) - self.assigned - headed
        self.forms = habits.lines
        self.behind = {item.line: self._behind(item) for item in document.assignments}
        self.unit_signs = self._unit_signs()
        self.explained = self._explained()
        self.cells = _columns_of(habits)
        self.block_units = block_units(self.lines, self.remark_lines, headed, min(self.assigned, default=0), lexicon)
        self.legends = Legends(self._said(), self.remark_lines.values(), lexicon)

    def _behind(self, item: Assignment) -> str:
        """All that stands behind a value, and behind its key where that stands behind the value."""
        rest = self.document.text[item.end : item.end + LONGEST_REMARK * 2].split("\n", 1)[0].split("\r", 1)[0]
        before = self.lines[item.line - 1].partition(item.key)[0]
        if self.forms and len(_LETTERS.findall(before)) > 1 and not _LETTERS.search(rest.partition("(")[0]):
            return before  # the words stand before the key
        first = bool(before) and self.document.text[item.start : item.end] in before
        return rest.partition(item.key)[2] if first and item.key in rest else rest

    def _explained(self) -> Mapping[str, Explained]:
        """What is said of keys that are no words, where most are none."""
        items = self.document.assignments
        keys = {item.key for item in items}
        opaque = {key for key in keys if is_code(key) or not self._speaks(key)}
        if len(opaque) * 2 < len(keys) or len(items) > MOST_CODES:
            return {}
        places = [KeyPlace(item.line, item.key, self._unsigned(item)) for item in items if item.key in opaque]
        return explanations(self.lines, places, self.free, self.names)

    def _said(self) -> dict[str, str]:
        """Key -> all that is said of it."""
        said = {}
        for item in self.document.assignments:
            explained = self.explained.get(item.key)
            texts = (self.names.get(item.key, ""), explained.text if explained else "", self.remark(item))
            said[item.key] = " ; ".join(filter(None, dict.fromkeys((*texts, self.above(item)))))
        return said

    def _speaks(self, key: str) -> bool:
        return any(term.ideas or term.decoy for term in self.lexicon.read(split_words(key)) if not term.small)

    def _unit_signs(self) -> Mapping[str, str]:
        items = self.document.assignments
        if len(items) > MOST_CODES:
            return {}
        signs = {sign for item in items for sign in self._signs(item)}
        lines = [self.lines[line - 1].replace('"', " ").replace(";", " ; ") for line in sorted(self.free)]
        return unit_signs(lines, signs, self.lexicon)

    def _unsigned(self, item: Assignment) -> str:
        """What stands behind a value and the sign for its unit."""
        behind = self.behind[item.line].strip()
        sign = sign_behind(behind)
        return behind[len(sign) :].strip() if sign and sign in self.unit_signs else behind

    def unit_cell(self, item: Assignment) -> str:
        """The unit, or what a share is of, in the first column behind a value; "" where there is none."""
        between = self._between(item)
        if between and (find_unit(between) or _PART.match(between)):
            return between
        behind = self.behind[item.line].strip(" _")
        share = behind.lstrip(" ;|\t")
        if _PER_CENT_OF.match(share):
            return f"% ; {share}"
        word = next(iter(behind.split(None, 1)), "") if self.forms else ""
        if word and find_unit(word):
            return word
        if not self.cells:
            return ""
        cell = next((cell.strip() for cell in self.cells.split(self.behind[item.line]) if cell.strip()), "")
        return (
            f"% ; {cell}" if cell[:1] == "%" and len(cell) > 1 else cell if find_unit(cell) or _PART.match(cell) else ""
        )

    def sign_of(self, item: Assignment) -> str:
        """The sign for a unit behind a key or its value that the text explains."""
        return next((sign for sign in self._signs(item) if sign in self.unit_signs), "")

    def _signs(self, item: Assignment) -> tuple[str, ...]:
        """What may stand for a unit: the end of a key, what stands behind or before a value, the letter of a code."""
        between = self._between(item).split()
        begun = leading_sign(item.key) if self.forms else ""
        return (ending_sign(item.key), sign_behind(self.behind[item.line]), *between[:1], begun)

    def _between(self, item: Assignment) -> str:
        """What stands between a key and its value, without signs."""
        if not self.forms:
            return ""
        line = self.document.text[: item.start].rpartition("\n")[2]
        return line.partition(item.key)[2].strip(" :=|/()[]{}<>\t") if item.key in line else ""

    def _free_lines(self, again: set[int], lines_of: Mapping[str, Sequence[int]]) -> Iterator[str]:
        """The lines that may name keys, set in as they stand, without the signs before them; "" for all others."""
        signs = "".join(self.marks) + "-*_ \t|"
        keys = {line: key for key, lines in lines_of.items() for line in lines}
        for number, line in enumerate(self.lines, 1):
            first = line.split(None, 1)[0].strip("().:") if line.strip() else ""
            explains = first != keys.get(number) and first in lines_of and is_code(first)
            body = line.lstrip(signs)
            free = number not in self.assigned or number in again or explains
            yield " " * (len(line) - len(body)) + body.rstrip() if free else ""

    def _words_alone(self, lines_of: Mapping[str, Sequence[int]]) -> set[int]:
        """The lines at a text's head that nothing marks as remarks and that are sentences, read as a setting or not.

        A table of keys and their names is none. lines_of: where each key stands.
        """
        text, items = self.document.text, self.document.assignments
        first = next((item.line for item in items if text[item.start : item.start + 1].isdigit()), len(self.lines) + 1)
        unread = {
            item.line
            for item in self.document.unread
            if item.line < first and self.lines[item.line - 1].split()[0] not in lines_of
        }
        said = {
            item.line
            for item in items
            if item.line < first and len(lines_of[item.key]) == 1 and len(self.lines[item.line - 1].split()) >= PROSE
        }
        fits = {line for line in unread | said if len(self.lines[line - 1]) <= LONGEST_REMARK}
        return {line for line in fits if any(char.isalpha() for char in self.lines[line - 1])}

    def _walk(self) -> None:
        """Remark lines, and from which line on each heads a block. A ``[section]`` or a blank line ends a block."""
        taken = [heading.line for heading in self.document.headings]
        for number, line in enumerate(self.lines, 1):
            body = line.strip()
            mark = next((mark for mark in self.marks if body.startswith(mark)), None)
            if mark is None:
                continue
            text = opened(body, mark).lstrip("".join(self.marks) + "-=*_ \t").rstrip("-=*_ \t")
            self.remark_lines[number] = text
            words = split_words(text) if text and len(text) <= LONGEST_HEADING else []
            terms = self.lexicon.read(words)
            self.headings.append(
                (number, tuple(terms if len(words) <= MOST_WORDS else [term for term in terms if term.decoy == 1]))
            )
        self.headings += [(line, ()) for line in taken if (line + 1) not in self.remark_lines]
        self.headings.sort(key=lambda item: item[0])
        self.starts = [line for line, _ in self.headings]

    def heading(self, item: Assignment) -> tuple[Term, ...]:
        """The terms of the remark that heads the block of an assignment."""
        at = bisect_left(self.starts, item.line)
        if not at:
            return ()
        end = self.starts[at] if at < len(self.starts) else len(self.lines) + 1
        headed = bisect_left(self.lines_assigned, end) - bisect_left(self.lines_assigned, self.starts[at - 1])
        return self.headings[at - 1][1] if headed <= MOST_HEADED else ()

    def remark(self, item: Assignment) -> str:
        """The remark behind a value, without its mark; or else the one right above a key that stands alone below it."""
        text = self.document.text
        behind = text[item.end : item.end + LONGEST_REMARK].split("\n", 1)[0].split("\r", 1)[0]
        rest = behind.strip()
        sign = sign_behind(rest)
        if sign and sign in self.unit_signs:
            behind = rest = rest[len(sign) :].strip()
        mark = next((mark for mark in self.marks if (rest if mark.strip() else behind).startswith(mark)), None)
        if mark and rest:
            return opened(rest, mark) if mark.strip() else rest
        return self.remark_lines.get(item.line - 1, "") if self._stands_alone(item) else ""

    def _stands_alone(self, item: Assignment) -> bool:
        return item.line + 1 not in self.assigned and item.line - 2 not in self.remark_lines

    def above(self, item: Assignment) -> str:
        """The remark lines right above a key, as one."""
        first = item.line
        while first - 1 in self.remark_lines:
            first -= 1
        return " ".join(self.remark_lines[line] for line in range(first, item.line))[: 2 * LONGEST_REMARK]

    def head_remarks(self) -> list[str]:
        """The remarks above the first assignment, and remarks of the whole text that are long enough to explain.

        Where most keys have a remark of their own right above them, those speak of that key.
        """
        first = self.document.assignments[0].line if self.document.assignments else len(self.lines)
        items = self.document.assignments
        alone = {item.line - 1 for item in items if item.line - 1 in self.remark_lines and self._stands_alone(item)}
        if len(alone) * 2 < len(items):
            alone = set()
        return [
            text
            for line, text in self.remark_lines.items()
            if (line < first or len(text.split()) >= 5) and line not in alone
        ]
