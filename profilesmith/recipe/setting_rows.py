"""The ledger rows of one setting while it is worked out, and the problems of demands that cannot both hold."""

from fractions import Fraction
from typing import NamedTuple

from profilesmith.foundation.problem import CONFLICT, Problem
from profilesmith.ledger import Cause, Row, Status
from profilesmith.profile.profile import Entry
from profilesmith.recipe.combine import Verdict
from profilesmith.recipe.hard_limits import Limit
from profilesmith.recipe.pair import Pair, Rank, Resolved
from profilesmith.recipe.resolve import NotKnown
from profilesmith.vocabulary.setting import Setting, Value

_LAST: Rank = (1_000_000, 0)


class Told(NamedTuple):
    """What became of one rule over all tools."""

    pair: Pair
    words: str
    verdict: Verdict


class SettingRows:
    """Collects rows, each with its rank, and problems."""

    def __init__(self, setting: Setting, entry: Entry | None, limits: list[Limit]) -> None:
        self.setting, self.entry, self.limits = setting, entry, limits
        self.rows: list[tuple[Rank, Row]] = []
        self.problems: list[Problem] = []
        self.moving: list[Limit] = []

    def row(
        self,
        pair: Pair,
        status: Status,
        words: str = "",
        derived: tuple[Value, ...] | None = None,
        note: str = "",
        ask: str = "",
    ) -> None:
        base = self.entry.values if self.entry else ()
        after = base if derived is None else derived
        row = Row(
            setting=self.setting.id,
            status=status,
            cause=pair.cause(words),
            base=base,
            derived=after,
            note=note,
            ask=ask,
        )
        if (pair.rank, row) not in self.rows:  # several tools may say the same
            self.rows.append((pair.rank, row))

    def unanswered(self, pair: Pair, missing: NotKnown) -> None:
        self.row(pair, "unanswered", note=f"{missing.what} is not known", ask=missing.ask)

    def moves(self) -> bool:
        """Whether a rule or a limit moves the setting."""
        return any(row.status in ("changed", "added") for _, row in self.rows)

    def held(self, entry: Entry, derived: Entry) -> None:
        """A share that was rewritten so that its value stays, as near as the text can say it."""
        demand, why = f"keeps {self.shown(entry.values)}", f"Its share of {entry.relative_to} changed, not its value."
        left = [
            f"{self.setting.show(abs(after - before))} {'more' if after > before else 'less'}"
            for before, after in zip(entry.values, derived.values, strict=True)
            if isinstance(before, Fraction) and isinstance(after, Fraction) and before != after
        ]
        note = f"as near as its share can say it: {', '.join(dict.fromkeys(left))}" if left else ""
        cause = Cause(recipe="the text itself", demand=demand, why=why)
        self.rows.append((_LAST, Row(self.setting.id, "held", cause, entry.values, derived.values, note=note)))

    def gave_way(self, entry: Entry, derived: tuple[Value, ...], other: str) -> None:
        """A switch that went off because another one took its key."""
        cause = Cause(
            "the text itself", demand=f"off while {other} is on", why=f"One key holds it or {other}, not both."
        )
        self.rows.append((_LAST, Row(self.setting.id, "gave way", cause, entry.values, derived)))

    def added_with_key(self, derived: tuple[Value, ...]) -> None:
        """A switch that nobody asked for, whose key was added for another one."""
        cause = Cause("the text itself", demand=self.shown(derived), why="Its key holds other switches too.")
        self.rows.append((_LAST, Row(self.setting.id, "added", cause, (), derived)))

    def held_by_hand(self, entry: Entry, wanted: tuple[Value, ...], note: str) -> None:
        """A share that cannot be rewritten so that its value stays."""
        cause = Cause("the text itself", demand=f"keeps {self.shown(wanted)}", why="No rule asks for another value.")
        self.rows.append((_LAST, Row(self.setting.id, "by hand", cause, entry.values, wanted, note=note)))

    def shown(self, values: tuple[Value, ...]) -> str:
        return " | ".join(dict.fromkeys(self.setting.show(value) for value in values))

    def follows(self, entry: Entry, present: tuple[Value, ...], spread: bool = False) -> None:
        """A value that no rule moved, but that is written relative to one that changed.

        spread: it is one share of several values that differ, and so cannot be held.
        """
        if entry.coupling is not None:
            switch = entry.coupling.switch
            demand, why = f"the same key as {switch}", f"One key holds it and {switch}."
            note = f"the map writes this number when {switch} is switched"
        else:
            demand, why = f"a share of {entry.relative_to}", f"Written as a share of {entry.relative_to}."
            note = f"written relative to {entry.relative_to}, which changed; its own text stays"
            if spread and entry.held:
                note += f", since one share of several values of {entry.relative_to} cannot keep all of them"
        cause = Cause(recipe="the text itself", demand=demand, why=why)
        row = Row(setting=self.setting.id, status="follows", cause=cause, base=entry.values, derived=present, note=note)
        self.rows.append((_LAST, row))

    def limited_by(self, index: int) -> None:
        """Note that a hard limit, and no rule, moved the value of a tool. index: of the limit; none when negative."""
        if index >= 0 and self.limits[index] not in self.moving:
            self.moving.append(self.limits[index])

    def limited(self, derived: tuple[Value, ...]) -> None:
        """The rows of the hard limits that moved values."""
        base = self.entry.values if self.entry else ()
        for limit in self.moving:
            row = Row(setting=self.setting.id, status="changed", cause=limit.cause, base=base, derived=derived)
            self.rows.append((_LAST, row))

    def out_of_range(self, entry: Entry, present: list[Value]) -> None:
        """A share that followed its reference to where no value can be."""
        for value in present:
            reason = self.setting.implausible(value)
            if reason:
                message = f"{self.setting.id} is written as a share of {entry.relative_to} and would become {reason}."
                hint = f"Bound {entry.relative_to}, or {self.setting.id} itself, with a rule."
                self.problems.append(Problem("hard-limit", message, hint=hint, severity=CONFLICT))
                return

    def collect(self, told: dict[Rank, Told], resolved: list[Resolved], verdicts: tuple[Verdict, ...]) -> None:
        """Add one tool's verdicts: of several tools the strongest one counts for the row."""
        for item, verdict in zip(resolved, verdicts[: len(resolved)], strict=True):
            before = told.get(item.pair.rank)
            if before is None or (before.verdict.status != "changed" and verdict.status in ("changed", "overruled")):
                told[item.pair.rank] = Told(item.pair, item.words, verdict._replace(note=self.note(verdict, resolved)))

    def note(self, verdict: Verdict, resolved: list[Resolved]) -> str:
        """A verdict's note with the rule or limit that decided instead."""
        if verdict.by < 0:
            return verdict.note
        if verdict.by >= len(resolved):
            cause = self.limits[verdict.by - len(resolved)].cause
            return f"{verdict.note} {cause} ({cause.demand})".strip()
        other = resolved[verdict.by]
        return f"{verdict.note} {other}" if verdict.note.endswith(" of") else f"{other} {verdict.note}"

    def conflict(self, indices: tuple[int, ...], resolved: list[Resolved]) -> bool:
        """Write the problem of two demands that cannot both hold, with both sides named. False: there is none."""
        if not indices:
            return False
        sides, place = [], None
        for index in sorted(indices):
            if index < len(resolved):
                item = resolved[index]
                sides.append(str(item))
                place = place or item.pair.rule.place
                self.row(item.pair, "refused", item.words, note="cannot hold together with another bound")
            else:
                cause = self.limits[index - len(resolved)].cause
                sides.append(f"the {cause.recipe} ({cause.demand}{f', {cause.place}' if cause.place else ''})")
        code = "hard-limit" if max(indices) >= len(resolved) else "conflict"
        message = f"{self.setting.id}: {' and '.join(sides)} cannot both hold."
        hint = "Leave out or change one of them; nothing was written."
        problem = Problem(code, message, hint=hint, severity=CONFLICT)
        problem = problem if place is None else problem._replace(place=place)
        if problem not in self.problems:
            self.problems.append(problem)
        return True
