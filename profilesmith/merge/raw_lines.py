"""Three-way merge of what the map does not know: keys by their raw texts, comments and other lines as they stand.

Comes in: a text as derived then, as edited since, as derived from the new base. Goes out: edits of the last one and a
decision for every edit of a hand. Of a key that the map knows only what is around its value is looked at here.
"""

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger import Decision
from profilesmith.ledger.history import Chosen, Outcome, line_named
from profilesmith.merge.decision import AGREED, CONFLICT, DERIVED, KEPT, LEFT_OUT, Choose, settle
from profilesmith.merge.raw_kinds import CARRIED, MAPPED, MOVED, RAW, WHY, KindOf
from profilesmith.merge.text_form import form_changes
from profilesmith.merge.text_lines import Alignment, TextLine, align, text_lines
from profilesmith.merge.three_way import meet
from profilesmith.text.document import Document, Edit
from profilesmith.text.edit_document import insertion

LONGEST = 80


class RawMerge(NamedTuple):
    """edits: of the target. decisions: one for each edit of a hand."""

    edits: tuple[Edit, ...]
    decisions: tuple[Decision, ...]


def merge_raw(
    old: Document, mine: Document, theirs: Document, target: Document, kind_of: KindOf, choose: Choose
) -> RawMerge:
    """Merge. target: ``theirs`` once the settings are written into it; it has the same lines."""
    work = _RawMerging(old, mine, theirs, target, kind_of, choose)
    work.run()
    return RawMerge(tuple(work.edits), tuple(work.decisions))


class _RawMerging:
    def __init__(
        self, old: Document, mine: Document, theirs: Document, target: Document, kind_of: KindOf, choose: Choose
    ) -> None:
        self.texts = (old.text, mine.text, theirs.text)
        self.old, self.mine, self.theirs = text_lines(old), text_lines(mine), text_lines(theirs)
        self.target, self.lines = target, text_lines(target)
        self.documents = old, mine
        self.file, self.kind_of, self.choose = mine.name, kind_of, choose
        self.to_mine, self.to_theirs = align(self.old, self.mine), align(self.old, self.theirs)
        self.from_mine = {at: number for number, at in self.to_mine.pairs.items()}
        self.edits: list[Edit] = []
        self.decisions: list[Decision] = []
        self.begun: set[str] = set()

    def run(self) -> None:
        """Old lines first: changed and taken out; then what was put in."""
        self.decisions += form_changes(*self.documents)
        for number, line in enumerate(self.old):
            mine = self.other(self.to_mine, number, self.mine)
            theirs = self.other(self.to_theirs, number, self.theirs)
            at = self.to_theirs.pairs.get(number)
            if number in self.to_mine.moved and mine is not None:
                self.tell(line, LEFT_OUT, line, mine, theirs, why="moved-by-hand")
            if mine is None:
                self.taken_out(line, theirs, at)
            elif line.kind == "key":
                self.value(line, mine, theirs, at)
            self.around(line, mine, theirs, at)
        new = set(range(len(self.theirs))) - set(self.to_theirs.pairs.values())
        for number, mine in enumerate(self.mine):
            if number not in self.from_mine:
                self.put_in(number, mine, new)

    def other(self, alignment: Alignment, number: int, lines: list[TextLine]) -> TextLine | None:
        at = alignment.pairs.get(number)
        return None if at is None else lines[at]

    # What a line says.

    def value_of(self, side: int, line: TextLine | None) -> str | None:
        return None if line is None else self.texts[side][line.value_start : line.value_end]

    def content(self, side: int, line: TextLine | None) -> str | None:
        return None if line is None else self.texts[side][line.start : line.end]

    def frame(self, side: int, line: TextLine) -> tuple[str, str]:
        """What stands before and behind the value."""
        text = self.texts[side]
        return text[line.start : line.value_start], text[line.value_end : line.end]

    # Decisions.

    def tell(
        self,
        line: TextLine,
        outcome: Outcome,
        was: TextLine | None,
        hand: TextLine | None,
        new: TextLine | None,
        chosen: Chosen = "",
        why: str = "",
        whole: bool = False,
    ) -> Decision:
        """Record a decision; a conflict is settled. whole: show the lines and not the values."""
        show = self.content if whole or line.kind != "key" else self.value_of
        texts = tuple((show(side, item) or "")[:LONGEST] for side, item in enumerate((was, hand, new)))
        named = f"[{line.section}] {line.name}" if line.section and line.kind == "key" else line.name
        what = named if line.kind == "key" else line_named("" if line.kind == "blank" else named[:LONGEST])
        decision = Decision(
            what,
            "key" if line.kind == "key" else "line",
            outcome,
            was=texts[0],
            hand=texts[1],
            new=texts[2],
            chosen=chosen,
            why=why,
            file=self.file,
            line=hand.number if hand else 0,
        )
        if outcome == CONFLICT:
            decision = settle(decision, self.choose)
        self.decisions.append(decision)
        return decision

    # The old lines.

    def value(self, old: TextLine, mine: TextLine, theirs: TextLine | None, at: int | None) -> None:
        """A key that both the old and the edited text have."""
        kind = self.kind_of(old.section, old.name)
        if kind == MAPPED:
            return
        three = self.value_of(0, old), self.value_of(1, mine), self.value_of(2, theirs)
        if kind in WHY and three[0] == three[1]:
            return
        if kind == CARRIED:
            if three[1] != three[2]:
                self.replace_value(mine, at)
            return
        verdict = meet(*three, lambda one, other: one == other)
        if verdict == "agreed":
            self.tell(old, AGREED, old, mine, theirs, why="base-says-the-same")
        elif kind == MOVED or (kind in WHY and verdict == "conflict"):
            self.tell(old, LEFT_OUT, old, mine, theirs, why=WHY[kind])
        elif verdict == "mine":
            self.tell(old, KEPT, old, mine, theirs, DERIVED)
            self.replace_value(mine, at)
        elif verdict == "conflict" and self.tell(old, CONFLICT, old, mine, theirs).chosen == DERIVED:
            self.replace_value(mine, at)

    def replace_value(self, mine: TextLine, at: int | None) -> None:
        if at is None:
            self.insert(mine, self.mine.index(mine))
            return
        line = self.lines[at]
        self.edits.append(Edit(line.value_start, line.value_end, self.value_of(1, mine) or ""))

    def taken_out(self, old: TextLine, theirs: TextLine | None, at: int | None) -> None:
        """A line that a hand took out."""
        kind = self.kind_of(old.section, old.name) if old.kind == "key" else RAW
        if kind not in (CARRIED, RAW):
            return
        if theirs is None or at is None:
            if kind == RAW:
                self.tell(old, AGREED, old, None, None, why="base-lacks-it-too")
            return
        if kind == RAW:
            moved = self.content(0, old) != self.content(2, theirs)
            decision = self.tell(old, CONFLICT if moved else KEPT, old, None, theirs, "" if moved else DERIVED)
            if decision.chosen != DERIVED:
                return
        self.edits.append(Edit(self.lines[at].start, self.lines[at].stop, ""))

    def around(self, old: TextLine, mine: TextLine | None, theirs: TextLine | None, at: int | None) -> None:
        """Blanks and remarks around a value, the blanks of a comment."""
        if mine is None or self.frame(0, old) == self.frame(1, mine):
            return
        if theirs is None or at is None:
            self.tell(old, LEFT_OUT, old, mine, None, why="base-lacks-this-line", whole=True)
        elif self.frame(1, mine) == self.frame(2, theirs):
            self.tell(old, AGREED, old, mine, theirs, why="base-says-the-same", whole=True)
        elif self.frame(0, old) != self.frame(2, theirs):
            self.tell(old, LEFT_OUT, old, mine, theirs, why="base-changed-it-too", whole=True)
        else:
            self.tell(old, KEPT, old, mine, theirs, DERIVED, whole=True)
            line, (before, behind) = self.lines[at], self.frame(1, mine)
            self.edits += [Edit(line.start, line.value_start, before), Edit(line.value_end, line.end, behind)]

    # What was put in.

    def put_in(self, number: int, mine: TextLine, new: set[int]) -> None:
        """A line that the old text does not have."""
        kind = self.kind_of(mine.section, mine.name) if mine.kind == "key" else RAW
        if kind not in (CARRIED, RAW):
            return
        at = next(
            (at for at in sorted(new) if self.theirs[at].token == mine.token and self.near(number, at, mine)), None
        )
        if at is None:
            if kind == RAW:
                self.tell(mine, KEPT, None, mine, None, DERIVED)
            self.insert(mine, number)
            return
        new.discard(at)
        theirs = self.theirs[at]
        if kind == CARRIED:
            self.replace_value(mine, at)
        elif self.content(1, mine) == self.content(2, theirs):
            self.tell(mine, AGREED, None, mine, theirs, why="base-has-it-too")
        elif self.value_of(1, mine) == self.value_of(2, theirs):
            self.tell(mine, LEFT_OUT, None, mine, theirs, why="base-has-it-its-own-way", whole=True)
        elif self.tell(mine, CONFLICT, None, mine, theirs).chosen == DERIVED:
            self.replace_value(mine, at)

    def near(self, number: int, at: int, mine: TextLine) -> bool:
        """An empty line is the same one only where the same line stands before it."""
        if mine.kind != "blank":
            return True
        return number > 0 and at > 0 and self.mine[number - 1].token == self.theirs[at - 1].token

    def insert(self, mine: TextLine, number: int) -> None:
        """The line below the line that it stands below in the edited text."""
        content, newline = self.content(1, mine) or "", self.target.newline
        anchor = self.anchor(number)
        placed = anchor.section if anchor else ""
        if mine.kind == "key" and placed != mine.section and not self.headed(number, anchor):
            headed = mine.section in self.begun
            self.begun.add(mine.section)
            self.edits.append(insertion(self.target, mine.section, mine.name, self.value_of(1, mine) or "", headed))
        elif anchor is None:
            self.edits.append(Edit(0, 0, content + newline))
        elif anchor.stop > anchor.end:
            self.edits.append(Edit(anchor.stop, anchor.stop, content + newline))
        else:
            self.edits.append(Edit(anchor.end, anchor.end, newline + content))

    def anchor(self, number: int) -> TextLine | None:
        """The nearest line above that the target has too."""
        for above in reversed(range(number)):
            at = self.to_theirs.pairs.get(self.from_mine.get(above, -1))
            if at is not None:
                return self.lines[at]
        return None

    def headed(self, number: int, anchor: TextLine | None) -> bool:
        """Whether a heading that a hand put in stands between the anchor and the line."""
        for above in reversed(range(number)):
            at = self.to_theirs.pairs.get(self.from_mine.get(above, -1))
            if at is not None and self.lines[at] is anchor:
                return False
            if self.mine[above].kind == "heading":
                return above not in self.from_mine and self.mine[above].section == self.mine[number].section
        return False
