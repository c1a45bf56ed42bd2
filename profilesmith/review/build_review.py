"""A derivation to a Review: rows are gathered by setting and arranged by what the person cares about."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from profilesmith.facts.facts import show_fact
from profilesmith.foundation.problem import Problem
from profilesmith.ledger import MOVING, SAID_AGAIN, Ledger, Line, RecipeUse, Row
from profilesmith.profile.compare_profiles import Difference
from profilesmith.review.consequences import caution_sources, cautions, consequences
from profilesmith.review.review import Change, Group, Question, Reason, Review
from profilesmith.review.sentences import COMMANDS
from profilesmith.review.wording import relative_change, show_values, visible
from profilesmith.vocabulary.setting import Setting, Vocabulary

FOLLOWED = "follow-literals"


def ledger_review(
    ledger: Ledger,
    vocabulary: Vocabulary,
    subject: str,
    literals: Sequence[str],
    unmapped: Sequence[Line],
    unread: Sequence[Line],
    notes: Sequence[str],
    data: Mapping[str, object],
) -> Review:
    """Arrange a ledger. literals, unmapped, unread, notes: what the translation has to say, in words.

    data: the whole as data; its findings and cautions become the review's.
    """
    builder = _Builder(ledger, vocabulary)
    names = tuple(f"{use.name} {use.version}" for use in ledger.recipes)
    return Review(
        title=visible(" + ".join(use.title or use.name for use in ledger.recipes)) or "No recipe",
        subject=visible(subject),
        recipes=tuple(visible(name) for name in names),
        groups=builder.groups(),
        by_hand=builder.by_hand(),
        questions=builder.questions(),
        kept=builder.only(("kept",)),
        held=builder.held(),
        idle=builder.idle(),
        overruled=builder.only(("overruled", "kept"), needs="overruled"),
        conflicts=tuple(_visible(problem) for problem in ledger.problems),
        literals=tuple(visible(text) for text in literals),
        unmapped=tuple(map(_line, unmapped)),
        unread=tuple(map(_line, unread)),
        notes=tuple(notes),
        assumed=_assumed(ledger.recipes),
        cautions=cautions(data, (*_once(ledger.recipes), *(text for use in ledger.recipes for text in use.cautions))),
        data=data,
        consequences=consequences(data),
        caution_sources=caution_sources(data),
    )


def _line(line: Line) -> Line:
    """A line of a text, or of a stranger's ledger."""
    return Line(visible(line.file), line.line, visible(line.key), visible(line.text))


def _visible(problem: Problem) -> Problem:
    return problem._replace(message=visible(problem.message), hint=visible(problem.hint))


def _once(recipes: Iterable[RecipeUse]) -> list[str]:
    return [
        f"{use.name} scales or shifts values: apply it once, never to its own result." for use in recipes if use.once
    ]


def _assumed(recipes: Iterable[RecipeUse]) -> tuple[str, ...]:
    """Inputs that nobody answered, with the default that was used."""
    return tuple(
        visible(f'--answer "{use.name}.{name}={show_fact(answer.value, answer.unit_kind)}"')
        for use in recipes
        for name, answer in use.answers.items()
        if answer.origin == "default"
    )


class _Builder:
    def __init__(self, ledger: Ledger, vocabulary: Vocabulary) -> None:
        self.ledger, self.vocabulary = ledger, vocabulary
        self.rows: dict[str, list[Row]] = defaultdict(list)
        for number, row in enumerate(ledger.rows):
            # A row of the follow-literals option is a change of its own, not another reason of the setting.
            self.rows[f"{row.setting}\n{number}" if row.cause.recipe == FOLLOWED else row.setting].append(row)

    def groups(self) -> tuple[Group, ...]:
        by_area: dict[str, list[Change]] = {area: [] for area in self.vocabulary.areas}
        for name in self.vocabulary.settings:
            moved = [row for row in self.rows.get(name, ()) if row.status in MOVING]
            if moved:
                by_area[self.vocabulary.settings[name].area].append(self.change(moved[0], self.rows[name]))
        by_title = {self.vocabulary.areas[area]: found for area, found in by_area.items()}
        followed = [row for row in self.ledger.rows if row.cause.recipe == FOLLOWED and row.status in MOVING]
        by_title[COMMANDS] = [self.command(row) for row in followed]
        return tuple(Group(title, tuple(found)) for title, found in by_title.items() if found)

    def command(self, row: Row) -> Change:
        """A machine command that followed a setting: its own texts, not the setting's value."""
        change = self.change(row, [row])
        return change._replace(base=change.old_text, derived=change.new_text, command=True)

    def only(self, statuses: tuple[str, ...], needs: str = "") -> tuple[Change, ...]:
        """The settings that nothing moved and whose rows have a status."""
        found = []
        for rows in self.rows.values():
            if any(row.status in (*MOVING, "held") for row in rows):
                continue
            first = next((row for row in rows if row.status == (needs or statuses[0])), None)
            if first is not None and (needs or not any(row.status in ("overruled", "refused") for row in rows)):
                found.append(self.change(first, rows))
        return tuple(found)

    def held(self) -> tuple[Change, ...]:
        """The settings of which only the share was rewritten."""
        rows = (row for row in self.ledger.of_status("held") if row.note != SAID_AGAIN)
        return tuple(self.change(row, [row]) for row in rows)

    def by_hand(self) -> tuple[Change, ...]:
        """What the text has no key for; of several bounds that are known only the strictest count."""
        found = (*self.only(("by hand",)), *self.stuck())
        if all(len(change.reasons) == 1 for change in found):
            return found
        from profilesmith.review.strictest import strictest

        return tuple(
            change._replace(reasons=strictest(change.reasons, self.vocabulary.settings[change.setting]))
            for change in found
        )

    def stuck(self) -> tuple[Change, ...]:
        """What followed its reference, since its share could not be rewritten."""
        followed = {row.setting for row in self.ledger.of_status("follows")}
        rows = (row for row in self.ledger.of_status("by hand") if row.setting in followed)
        return tuple(self.change(row, [row]) for row in rows)

    def change(self, first: Row, rows: list[Row]) -> Change:
        setting = self.vocabulary.settings[first.setting]
        told = (row for row in rows if row.status != "does not apply" and row.note != SAID_AGAIN)
        ordered = sorted(told, key=lambda row: row is not first)
        return Change(
            setting=setting.id,
            words=setting.meaning,
            status=first.status,
            base=show_values(setting, first.base),
            derived=show_values(setting, first.derived),
            relative=relative_change(first.base, first.derived, setting),
            reasons=tuple(self.reason(row) for row in ordered),
            file=visible(first.file),
            line=first.line,
            key=visible(first.key),
            old_text=visible(first.old_text),
            new_text=visible(first.new_text),
            note=visible(first.note),
        )

    def reason(self, row: Row) -> Reason:
        cause = row.cause
        return Reason(
            visible(str(cause)),
            visible(cause.demand),
            visible(cause.why),
            visible(cause.source),
            row.status,
            visible(row.note),
        )

    def questions(self) -> tuple[Question, ...]:
        by_ask: dict[str, list[Row]] = defaultdict(list)
        for row in self.ledger.of_status("unanswered"):
            by_ask[row.ask or row.note].append(row)
        return tuple(
            Question(
                visible(ask),
                tuple(dict.fromkeys(row.setting for row in rows)),
                tuple(dict.fromkeys(visible(str(row.cause)) for row in rows)),
            )
            for ask, rows in by_ask.items()
        )

    def idle(self) -> tuple[Reason, ...]:
        return tuple(dict.fromkeys(self.reason(row) for row in self.ledger.of_status("does not apply")))


def comparison_review(
    differences: Sequence[Difference],
    vocabulary: Vocabulary,
    title: str,
    subject: str,
    notes: Sequence[str],
    data: Mapping[str, object],
    unmapped: Sequence[Line] = (),
    places: Mapping[str, Line] | None = None,
) -> Review:
    """Arrange the differences of two profiles in the same form."""
    places = places or {}
    by_area: dict[str, list[Change]] = {area: [] for area in vocabulary.areas}
    for difference in differences:
        setting = vocabulary.settings[difference.setting]
        by_area[setting.area].append(_difference(difference, setting, places.get(setting.id)))
    groups = tuple(Group(vocabulary.areas[area], tuple(found)) for area, found in by_area.items() if found)
    return Review(
        title=title,
        subject=visible(subject),
        recipes=(),
        groups=groups,
        by_hand=(),
        questions=(),
        kept=(),
        idle=(),
        overruled=(),
        conflicts=(),
        literals=(),
        unmapped=tuple(unmapped),
        unread=(),
        notes=tuple(notes),
        assumed=(),
        cautions=cautions(data, ()),
        data=data,
        consequences=consequences(data),
        caution_sources=caution_sources(data),
    )


def _difference(difference: Difference, setting: Setting, place: Line | None) -> Change:
    status = "changed" if difference.old and difference.new else "only new" if difference.new else "only old"
    return Change(
        setting=setting.id,
        words=setting.meaning,
        status=status,
        base=show_values(setting, difference.old),
        derived=show_values(setting, difference.new),
        relative=relative_change(difference.old, difference.new, setting),
        file=place.file if place else "",
        line=place.line if place else 0,
        key=place.key if place else "",
    )
