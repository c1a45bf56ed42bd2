"""The ledger rows of one setting while it is worked out, and the problems of demands that cannot both hold."""

import sys
from collections.abc import Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import CONFLICT, Problem
from profilesmith.ledger import Asked, Cause, Note, Question, Row, Status
from profilesmith.profile.profile import Entry
from profilesmith.recipe.cause_words import cause_name, demand_words
from profilesmith.recipe.combine import Verdict
from profilesmith.recipe.constants import Limit, Rank
from profilesmith.recipe.resolve import NotKnown
from profilesmith.recipe.rule_on_setting import Resolved, RuleOnSetting
from profilesmith.vocabulary.setting import Setting, Value

_LAST: Rank = (sys.maxsize, sys.maxsize)


class RuleOutcome(NamedTuple):
    """What became of one rule over all tools."""

    ruling: RuleOnSetting
    cause: Cause
    verdict: Verdict
    notes: tuple[Note, ...] = ()


class SettingRows:
    """Collects rows, each with its rank, and problems."""

    def __init__(self, setting: Setting, entry: Entry | None, limits: Sequence[Limit]) -> None:
        self.setting, self.entry, self.limits = setting, entry, limits
        self.rows: list[tuple[Rank, Row]] = []
        self.problems: list[Problem] = []
        self.moving: list[Limit] = []

    def row(
        self,
        ruling: RuleOnSetting,
        status: Status,
        cause: Cause | None = None,
        derived: tuple[Value, ...] | None = None,
        notes: tuple[Note, ...] = (),
        question: Question | None = None,
    ) -> None:
        base = self.entry.values if self.entry else ()
        row = Row(
            setting=self.setting.id,
            status=status,
            cause=cause or ruling.cause,
            base=base,
            derived=base if derived is None else derived,
            notes=notes,
            question=question,
        )
        if (ruling.rank, row) not in self.rows:  # several tools may say the same
            self.rows.append((ruling.rank, row))

    def unanswered(self, ruling: RuleOnSetting, missing: NotKnown) -> None:
        self.row(ruling, "unanswered", notes=(Note("not known", (missing.what,)),), question=missing.question)

    def moves(self) -> bool:
        """Whether a rule or a limit moves the setting."""
        return any(row.status in ("changed", "added") for _, row in self.rows)

    def held(self, entry: Entry, derived: Entry) -> None:
        """A share that was rewritten so that its value stays, as near as the text can say it."""
        notes = (Note("nearest share"),) if entry.values != derived.values else ()
        cause = Cause("held share", asked=(Asked("", entry.values),), subject=entry.relative_to)
        self.rows.append((_LAST, Row(self.setting.id, "held", cause, entry.values, derived.values, notes=notes)))

    def gave_way(self, entry: Entry, derived: tuple[Value, ...], other: str) -> None:
        """A switch that went off because another one took its key."""
        cause = Cause("one key", subject=other)
        self.rows.append((_LAST, Row(self.setting.id, "gave way", cause, entry.values, derived)))

    def added_with_key(self, derived: tuple[Value, ...]) -> None:
        """A switch that nobody asked for, whose key was added for another one."""
        cause = Cause("added key", asked=(Asked("", derived),))
        self.rows.append((_LAST, Row(self.setting.id, "added", cause, (), derived)))

    def no_text_for_on(self, switch: str, key: str) -> None:
        """A switch that is to be turned on, while nobody says which number is written for it."""
        message = f"{switch} is to be turned on, but the map does not say which number {key!r} then holds."
        hint = f'Write on = "..." with that number into the map\'s binding of {switch}, or set the number by a rule.'
        self.problems.append(Problem("no-text-for-on", message, hint=hint, severity=CONFLICT))

    def held_by_hand(self, entry: Entry, wanted: tuple[Value, ...], note: Note) -> None:
        """A share that cannot be rewritten so that its value stays."""
        cause = Cause("stuck share", asked=(Asked("", wanted),), subject=entry.relative_to)
        self.rows.append((_LAST, Row(self.setting.id, "by hand", cause, entry.values, wanted, notes=(note,))))

    def follows(self, entry: Entry, present: tuple[Value, ...], spread: bool) -> None:
        """A value that no rule moved, but that is written relative to one that changed.

        spread: it is one share of several values that differ, and so cannot be held.
        """
        if entry.coupling is not None:
            cause = Cause("same key", subject=entry.coupling.switch)
            notes = [Note("switched along", (entry.coupling.switch,))]
        else:
            cause = Cause("share", subject=entry.relative_to)
            notes = [Note("share moved", (entry.relative_to,))]
            notes += [Note("spread", (entry.relative_to,))] if spread and entry.held else []
        row = Row(self.setting.id, "follows", cause, entry.values, present, notes=tuple(notes))
        self.rows.append((_LAST, row))

    def limited_by(self, limit: Limit) -> None:
        """Note that a hard limit, and no rule, moved the value of a tool."""
        if limit not in self.moving:
            self.moving.append(limit)

    def limited(self, entry: Entry, derived: tuple[Value, ...]) -> None:
        """The rows of the hard limits that moved values."""
        for limit in self.moving:
            row = Row(setting=self.setting.id, status="changed", cause=limit.cause, base=entry.values, derived=derived)
            self.rows.append((_LAST, row))

    def out_of_range(self, entry: Entry, present: list[Value]) -> None:
        """A share that followed its reference to where no value can be."""
        for value in present:
            reason = self.setting.implausible(value)
            if reason:
                message = f"{self.setting.id} is written as a share of {entry.relative_to} and would become {reason}."
                hint = f"Bound {entry.relative_to}, or {self.setting.id} itself, with a rule."
                self.problems.append(
                    Problem("hard-limit", message, hint=hint, severity=CONFLICT, setting=self.setting.id)
                )
                return

    def collect(
        self, by_rank: dict[Rank, RuleOutcome], resolved: list[Resolved], verdicts: tuple[Verdict, ...]
    ) -> None:
        """Add one tool's verdicts: of several tools the strongest one counts for the row."""
        for item, verdict in zip(resolved, verdicts[: len(resolved)], strict=True):
            before = by_rank.get(item.ruling.rank)
            if before is None or (before.verdict.status != "changed" and verdict.status in ("changed", "overruled")):
                by_rank[item.ruling.rank] = RuleOutcome(item.ruling, item.cause, verdict, self.notes(verdict, resolved))

    def notes(self, verdict: Verdict, resolved: list[Resolved]) -> tuple[Note, ...]:
        """A verdict's note with the rule or limit that decided instead."""
        if verdict.note is None:
            return ()
        if verdict.by is None:
            return (Note(verdict.note),)
        return (Note(verdict.note, by=self.side(verdict.by, resolved)),)

    def side(self, index: int, resolved: list[Resolved]) -> Cause:
        """The rule or limit of a demand. index: its place among the rules' demands and, behind them, the limits."""
        return resolved[index].cause if index < len(resolved) else self.limits[index - len(resolved)].cause

    def conflict(self, indices: tuple[int, ...], resolved: list[Resolved]) -> bool:
        """Write the problem of two demands that cannot both hold, with both sides named. False: there is none."""
        if not indices:
            return False
        from profilesmith.recipe.conflict import leave_out_hint, own_place, rule_side  # only when something is wrong

        sides, items, limit = [], [], ""
        for index in sorted(indices):
            if index < len(resolved):
                items.append(resolved[index])
                sides.append(rule_side(items[-1], self.setting))
                self.row(items[-1].ruling, "refused", items[-1].cause, notes=(Note("cannot hold together"),))
            else:
                cause = self.limits[index - len(resolved)].cause
                limit, spot = demand_words(cause, self.setting), f", {cause.place}" if cause.place else ""
                sides.append(f"the {cause_name(cause)} ({limit}{spot})")
        code = "hard-limit" if max(indices) >= len(resolved) else "conflict"
        message = f"{self.setting.id}: {' and '.join(sides)} cannot both hold."
        problem = Problem(
            code, message, own_place(items), leave_out_hint(items, limit), CONFLICT, setting=self.setting.id
        )
        if problem not in self.problems:
            self.problems.append(problem)
        return True
