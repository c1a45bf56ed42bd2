"""A derivation to a Review: rows are gathered by setting and arranged by what the person cares about."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from functools import partial
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from profilesmith import ledger
from profilesmith.ledger import MOVING, Ledger, Line, Row
from profilesmith.ledger.file import LedgerFile
from profilesmith.ledger.judgement import Judgement
from profilesmith.ledger.ledger import tools_changed
from profilesmith.profile.profile import Profile
from profilesmith.recipe.cause_words import cause_name, demand_words
from profilesmith.review.cause_reasons import (
    is_slip,
    notes_words,
    question_words,
    source_words,
    why_words,
)
from profilesmith.review.consequences import caution_sources, cautions, consequences
from profilesmith.review.review import AreaChanges, OpenQuestion, Reason, Review, StandingValues, ValueChange
from profilesmith.review.review_parts import (
    assumed,
    left_command,
    recipe_cautions,
    switched_off,
    visible_line,
    visible_problem,
)
from profilesmith.review.sentences import COMMANDS
from profilesmith.review.wording import key_words, relative_change, show_values, visible
from profilesmith.vocabulary.setting import Vocabulary

if TYPE_CHECKING:
    from profilesmith.review.edited_now import EditedNow

NO_EDITS: Mapping[str, EditedNow] = MappingProxyType({})


def ledger_review(
    ledger: Ledger,
    vocabulary: Vocabulary,
    subject: str,
    file: LedgerFile | None = None,
    unread: Sequence[Line] = (),
    notes: Sequence[str] = (),
    edits: Mapping[str, EditedNow] = NO_EDITS,
    now: Profile | None = None,
) -> Review:
    """Arrange a ledger. file: the whole. notes: how the text was read. edits: of a hand; now: the file read again."""
    literals, unmapped, judgement = (file.literals, file.unmapped, file.judgement) if file else ((), (), Judgement())
    builder = _Builder(ledger, vocabulary, edits)
    return Review(
        title=visible(" + ".join(use.title or use.name for use in ledger.recipes)) or "No recipe",
        subject=visible(subject),
        recipes=tuple(visible(f"{use.name} {use.version}") for use in ledger.recipes),
        groups=builder.groups(),
        by_hand=builder.by_hand(),
        questions=builder.questions(),
        kept=builder.only(("kept",)),
        held=builder.held(),
        idle=builder.idle(),
        overruled=builder.only(("overruled", "kept"), needs="overruled"),
        conflicts=tuple(visible_problem(problem) for problem in ledger.problems),
        literals=tuple(left_command(item, vocabulary) for item in literals),
        unmapped=tuple(visible_line(line) for line in unmapped),
        unread=tuple(visible_line(line) for line in unread),
        notes=tuple(notes),
        assumed=assumed(ledger.recipes),
        once=tuple(visible(use.name) for use in ledger.recipes if use.once),
        off=switched_off(ledger, edits),
        tools=tools_changed(ledger),
        file=file,
        rows=ledger.rows,
        values=partial(_values, ledger, vocabulary, edits, now),
        **_judged(judgement, ledger),
    )


def _values(
    ledger: Ledger, vocabulary: Vocabulary, edits: Mapping[str, EditedNow], now: Profile | None
) -> StandingValues:
    """The values of a derived file: a whole sheet alone works them out."""
    from profilesmith.review.standing import derived_values

    return derived_values(ledger, vocabulary, edits, now)


def _judged(judgement: Judgement, ledger: Ledger) -> dict[str, Any]:
    """What the checks found, and what to take care of."""
    return {
        "cautions": cautions(judgement, recipe_cautions(ledger.recipes)),
        "figures": judgement.figures,
        "consequences": consequences(judgement),
        "caution_sources": caution_sources(judgement),
    }


class _Builder:
    def __init__(self, ledger: Ledger, vocabulary: Vocabulary, edits: Mapping[str, EditedNow]) -> None:
        self.ledger, self.vocabulary, self.edits = ledger, vocabulary, edits
        self.rows: dict[str, list[Row]] = defaultdict(list)
        for number, row in enumerate(ledger.rows):
            # A row of the follow-literals option is a change of its own, not another reason of the setting.
            self.rows[f"{row.setting}\n{number}" if row.cause.kind == "start block" else row.setting].append(row)

    def groups(self) -> tuple[AreaChanges, ...]:
        by_area: dict[str, list[ValueChange]] = {area: [] for area in self.vocabulary.areas}
        for name in self.vocabulary.settings:
            rows = self.rows.get(name, [])
            moved = [row for row in rows if row.status in MOVING]
            change = self.change(moved[0], rows) if moved else None
            if name in self.edits:
                change = self.edited(name, change or (self.change(rows[0], rows) if rows else None))
            if change:
                by_area[self.vocabulary.settings[name].area].append(change)
        by_title = {self.vocabulary.areas[area]: changes for area, changes in by_area.items()}
        followed = [row for row in self.ledger.rows if row.cause.kind == "start block" and row.status in MOVING]
        by_title[COMMANDS] = [self.command(row) for row in followed]
        return tuple(AreaChanges(title, tuple(changes)) for title, changes in by_title.items() if changes)

    def edited(self, name: str, change: ValueChange | None) -> ValueChange:
        """What the file holds now, in the row that the recipes' own value would have."""
        edit, setting = self.edits[name], self.vocabulary.settings[name]
        shown = change or ValueChange(name, setting.meaning, "edited", "", "")
        return shown._replace(
            status="edited",
            base=show_values(setting, edit.base),
            derived=show_values(setting, edit.now),
            relative=relative_change(edit.base, edit.now, setting),
            recipe_value=show_values(setting, edit.made),
            follows=edit.follows,
            breaks=tuple(self.broken(name, rule) for rule in edit.breaks),
            file=visible(edit.file) or shown.file,
            line=edit.line,
            key=key_words(edit) or shown.key,
            new_text=visible(edit.text),
            note="",
        )

    def broken(self, name: str, rule: tuple[str, int]) -> str:
        """``part-soft 1.0.0, rule 2: at most 2``."""
        row = next((row for row in self.rows.get(name, ()) if (row.cause.recipe, row.cause.rule) == rule), None)
        if row is None:
            return visible(f"{rule[0]}, rule {rule[1]}")
        return visible(f"{cause_name(row.cause)}: {demand_words(row.cause, self.vocabulary.settings[name])}")

    def command(self, row: Row) -> ValueChange:
        """A machine command that followed a setting: its own texts, not the setting's value."""
        change = self.change(row, [row])
        return change._replace(base=change.old_text, derived=change.new_text, command=True)

    def only(self, statuses: tuple[str, ...], needs: str = "") -> tuple[ValueChange, ...]:
        """The settings that nothing moved and whose rows have a status."""
        changes = []
        for rows in self.rows.values():
            if rows[0].setting in self.edits or any(row.status in (*MOVING, "held") for row in rows):
                continue
            first = next((row for row in rows if row.status == (needs or statuses[0])), None)
            if first is not None and (needs or not any(row.status in ("overruled", "refused") for row in rows)):
                changes.append(self.change(first, rows))
        return tuple(changes)

    def held(self) -> tuple[ValueChange, ...]:
        """The settings of which only the share was rewritten."""
        rows = (
            row
            for row in self.ledger.of_status("held")
            if not row.has("further line") and row.setting not in self.edits
        )
        return tuple(self.change(row, [row]) for row in rows)

    def by_hand(self) -> tuple[ValueChange, ...]:
        """What the text has no key for; of several bounds that are known only the strictest count."""
        changes = (*self.only(("by hand",)), *self.stuck())
        if all(len(change.reasons) == 1 for change in changes):
            return changes
        from profilesmith.review.strictest import strictest

        return tuple(change._replace(reasons=strictest(change.reasons)) for change in changes)

    def stuck(self) -> tuple[ValueChange, ...]:
        """What followed its reference, since its share could not be rewritten."""
        followed = {row.setting for row in self.ledger.of_status("follows")}
        rows = (row for row in self.ledger.of_status("by hand") if row.setting in followed)
        return tuple(self.change(row, [row]) for row in rows)

    def change(self, first: Row, rows: list[Row]) -> ValueChange:
        setting = self.vocabulary.settings[first.setting]
        speaking = (row for row in rows if row.status != "does not apply" and not row.has("further line"))
        ordered = sorted(speaking, key=lambda row: row is not first)
        return ValueChange(
            setting=setting.id,
            words=setting.meaning,
            status=first.status,
            base=show_values(setting, first.base),
            derived=show_values(setting, first.derived),
            relative=relative_change(first.base, first.derived, setting),
            reasons=tuple(self.reason(row) for row in ordered),
            file=visible(first.file),
            line=first.line,
            key=key_words(first),
            old_text=visible(first.old_text),
            new_text=visible(first.new_text),
            note=visible(notes_words(first, setting)),
            is_slip=is_slip(first),
            proposed=next((visible(note.names[1]) for note in first.notes if note.code == "only proposed"), ""),
        )

    def reason(self, row: Row) -> Reason:
        setting = self.vocabulary.settings[row.setting]
        return Reason(
            visible(cause_name(row.cause)),
            visible(demand_words(row.cause, setting)),
            visible(why_words(row.cause, setting)),
            visible(source_words(row.cause)),
            row.status,
            visible(notes_words(row, setting)),
            row.cause.asked,
            is_slip(row),
            visible(row.cause.recipe),
            row.cause.rule,
        )

    def questions(self) -> tuple[OpenQuestion, ...]:
        by_ask: dict[ledger.Question | None, list[Row]] = defaultdict(list)
        for row in self.ledger.of_status("unanswered"):
            by_ask[row.question].append(row)
        return tuple(self.question(about, rows) for about, rows in by_ask.items())

    def question(self, about: ledger.Question | None, rows: list[Row]) -> OpenQuestion:
        words = question_words(about) if about else notes_words(rows[0], self.vocabulary.settings[rows[0].setting])
        return OpenQuestion(
            visible(words),
            tuple(dict.fromkeys(row.setting for row in rows)),
            tuple(dict.fromkeys(visible(cause_name(row.cause)) for row in rows)),
            about,
        )

    def idle(self) -> tuple[Reason, ...]:
        return tuple(dict.fromkeys(self.reason(row) for row in self.ledger.of_status("does not apply")))
