"""One setting: its rules are asked, their demands combined for each tool, and rows written."""

from fractions import Fraction
from typing import NamedTuple

from profilesmith.facts.facts import Facts
from profilesmith.foundation.problem import CONFLICT, Problem
from profilesmith.profile.ledger import Cause, Row, Status
from profilesmith.profile.profile import Entry, Grid, Origin, Profile
from profilesmith.recipe.combine import Combined, Verdict, combine
from profilesmith.recipe.combine_words import CombinedWord, combine_words
from profilesmith.recipe.hard_limits import Limit, hard_limits
from profilesmith.recipe.operations import BY_NAME, Demand
from profilesmith.recipe.recipe import Rule
from profilesmith.recipe.resolve import NotKnown, Resolver
from profilesmith.vocabulary.setting import Setting, Value

Rank = tuple[int, int]
_LAST = 1_000_000


class Pair(NamedTuple):
    """A rule that speaks of the setting. recipe: its index in the order of recipes."""

    recipe: int
    rule: Rule
    resolver: Resolver

    @property
    def rank(self) -> Rank:
        return self.recipe, self.rule.number


class Outcome(NamedTuple):
    """entry: the derived one, None when the text has no key for it. rows: with where they belong."""

    entry: Entry | None
    rows: list[tuple[Rank, Row]]
    problems: list[Problem]


class SettingWork:
    """The state of one setting's derivation; ``run`` is called once."""

    def __init__(self, setting: Setting, base: Profile, derived: Profile, pairs: list[Pair], facts: Facts) -> None:
        self.setting, self.base, self.derived, self.pairs = setting, base, derived, pairs
        self.entry = base.entries.get(setting.id)
        self.limits: list[Limit] = hard_limits(setting, facts) if pairs else []
        if self.entry and self.entry.coupling and self.entry.coupling.lowest is not None:
            cause = Cause(recipe="the text itself", demand=f"enough to read as on for {self.entry.coupling.switch}")
            self.limits.append(Limit(cause, Demand(low=self.entry.coupling.lowest)))
        self.rows: list[tuple[Rank, Row]] = []
        self.problems: list[Problem] = []

    def run(self) -> Outcome:
        live = [pair for pair in self.pairs if self.applies(pair)]
        if self.entry is None:
            return Outcome(self.without_key(live), self.rows, self.problems)
        present = [self.present(self.entry, tool) for tool in range(len(self.entry.values))]
        if live and self.switched_off():
            for pair in live:
                self.row(pair, "does not apply", note=f"{self.entry.coupling.switch if self.entry.coupling else ''} is off")
            live = []
        if not live:
            return Outcome(self.followed(self.entry, present), self.rows, self.problems)
        return Outcome(self.with_key(self.entry, present, live), self.rows, self.problems)

    def applies(self, pair: Pair) -> bool:
        """Ask a rule's condition; a row is written when it does not apply or cannot be known."""
        answer = pair.resolver.condition(pair.rule.when)
        if answer is True:
            return True
        if isinstance(answer, NotKnown):
            self.unanswered(pair, answer)
        else:
            note = f"holds only when {' and '.join(str(clause) for clause in pair.rule.when)}"
            self.row(pair, "does not apply", note=note)
        return False

    def unanswered(self, pair: Pair, missing: NotKnown) -> None:
        self.row(pair, "unanswered", note=f"{missing.what} is not known", ask=missing.ask)

    def row(
        self, pair: Pair, status: Status, demand: str = "", derived: tuple[Value, ...] | None = None,
        note: str = "", ask: str = "",
    ) -> None:  # fmt: skip
        base = self.entry.values if self.entry else ()
        after = base if derived is None else derived
        row = Row(
            setting=self.setting.id, status=status, cause=self.cause(pair, demand), base=base, derived=after,
            note=note, ask=ask,
        )  # fmt: skip
        self.rows.append((pair.rank, row))

    def cause(self, pair: Pair, demand: str = "") -> Cause:
        recipe, rule = pair.resolver.recipe, pair.rule
        return Cause(
            recipe=recipe.name, version=recipe.version, rule=rule.number, demand=demand or rule.demand(),
            why=rule.why, source=rule.source, place=str(rule.place),
        )  # fmt: skip

    def present(self, entry: Entry, tool: int) -> Value:
        """The value before rules: the base's, or its share of a reference that may have changed."""
        share = entry.shares[tool] if entry.shares else None
        if share is None:
            return self.switched(entry, entry.values[tool])
        reference = self.derived.number(entry.relative_to, tool)
        return entry.values[tool] if reference is None else share * reference

    def switched(self, entry: Entry, value: Value) -> Value:
        """A number whose key is a switch as well: turning it on or off has given it another value."""
        if entry.coupling is None:
            return value
        switch = entry.coupling.switch
        before, after = self.base.entries[switch].value, self.derived.entries[switch].value
        if before == after:
            return value
        return entry.coupling.on_value if after else entry.coupling.off_value

    def switched_off(self) -> bool:
        coupling = self.entry.coupling if self.entry else None
        return coupling is not None and not self.derived.entries[coupling.switch].value

    def followed(self, entry: Entry, present: list[Value]) -> Entry:
        """A value that no rule speaks of, but that is written relative to one that changed."""
        if tuple(present) == entry.values:
            return entry
        if entry.coupling is not None:
            demand, why = f"the same key as {entry.coupling.switch}", f"One key holds it and {entry.coupling.switch}."
            note = f"the map writes this number when {entry.coupling.switch} is switched"
        else:
            demand, why = f"a share of {entry.relative_to}", f"Written as a share of {entry.relative_to}."
            note = f"written relative to {entry.relative_to}, which changed; its own text stays"
        cause = Cause(recipe="the text itself", demand=demand, why=why)
        row = Row(setting=self.setting.id, status="follows", cause=cause, base=entry.values, derived=tuple(present), note=note)
        self.rows.append(((_LAST, 0), row))
        return entry._replace(values=tuple(present))

    def demands(self, pairs: list[Pair], tool: int) -> list[tuple[Pair, Demand, str]]:
        """The demands that can be resolved, each with its words; a row is written for each that cannot."""
        found = []
        for pair in pairs:
            demand, words = Demand(), []
            missing: NotKnown | None = None
            for action in pair.rule.actions:
                values = pair.resolver.values(action, self.setting.id, tool, self.derived)
                if isinstance(values, NotKnown):
                    missing = values
                    break
                operation = BY_NAME[action.operation]
                demand = demand.merged(operation.demand(values))
                words.append(self.words(operation.phrase, operation.reads, action.operands, values))
            if missing is None:
                found.append((pair, demand, ", ".join(words)))
            elif tool == 0:
                self.unanswered(pair, missing)
        return found

    def words(self, phrase: str, reads: str, operands: tuple[object, ...], values: list[Value]) -> str:
        if reads != "value":
            return phrase.format(*(str(operand) for operand in operands))
        return phrase.format(*(self.setting.show(value) for value in values))

    def combine(self, present: Value | None, grid: Grid, demands: list[Demand]) -> Combined | CombinedWord | None:
        if not self.setting.is_number:
            return combine_words(present, demands)
        number = present if isinstance(present, Fraction) else None
        return combine(number, grid, [*demands, *(limit.demand for limit in self.limits)], len(self.limits))

    def with_key(self, entry: Entry, present: list[Value], live: list[Pair]) -> Entry:
        values: list[Value] = []
        shares = list(entry.shares)
        verdicts: dict[int, tuple[Pair, str, Verdict]] = {}
        for tool, value in enumerate(present):
            grid, reference = self.grid(entry, tool)
            resolved = self.demands(live, tool)
            result = self.combine(value, grid, [demand for _, demand, _ in resolved])
            if result is None or self.conflict(result.conflict, resolved) or self.unwritable(entry, result, resolved):
                values.append(value)
                continue
            values.append(result.value)
            if shares and shares[tool] is not None and result.value != value and reference and isinstance(result.value, Fraction):
                shares[tool] = result.value / reference
            self.collect(verdicts, resolved, result.verdicts)
        derived = entry._replace(values=tuple(values), shares=tuple(shares))
        follows = tuple(present) != entry.values
        for pair, demand, verdict in verdicts.values():
            note = verdict.note
            if follows and verdict.status == "kept" and not note:
                note = f"met once {entry.relative_to or 'its switch'} had changed"
            self.row(pair, verdict.status, demand, derived.values, note)
        if derived.values != entry.values and not any(verdict.status == "changed" for _, _, verdict in verdicts.values()):
            self.followed(entry._replace(shares=derived.shares), values)
        return derived

    def grid(self, entry: Entry, tool: int) -> tuple[Grid, Fraction | None]:
        """What can be written for a tool, and the reference's value where it is written as a share."""
        grid = entry.grids[tool] if entry.grids else Grid()
        if not entry.shares or entry.shares[tool] is None:
            return grid, None
        reference = self.derived.number(entry.relative_to, tool)
        return (grid.scaled(reference), reference) if reference else (Grid(), None)

    def collect(
        self, found: dict[int, tuple[Pair, str, Verdict]], resolved: list[tuple[Pair, Demand, str]], verdicts: tuple[Verdict, ...]
    ) -> None:
        """Add one tool's verdicts: of several tools the strongest one counts for the row."""
        for (pair, _, words), verdict in zip(resolved, verdicts[: len(resolved)], strict=True):
            note = self.note(verdict, resolved)
            before = found.get(id(pair.rule))
            if before is None or (before[2].status != "changed" and verdict.status in ("changed", "overruled")):
                found[id(pair.rule)] = (pair, words, verdict._replace(note=note))

    def note(self, verdict: Verdict, resolved: list[tuple[Pair, Demand, str]]) -> str:
        if verdict.by < 0:
            return verdict.note
        if verdict.by >= len(resolved):
            cause = self.limits[verdict.by - len(resolved)].cause
            return f"{verdict.note} {cause} ({cause.demand})".strip()
        pair, _, words = resolved[verdict.by]
        other = f"{self.cause(pair)} ({words})"
        return f"{verdict.note} {other}" if verdict.note.endswith(" of") else f"{other} {verdict.note}"

    def conflict(self, pair: tuple[int, ...], resolved: list[tuple[Pair, Demand, str]]) -> bool:
        """Write the problem of two demands that cannot both hold, with both sides named."""
        if not pair:
            return False
        sides, place = [], None
        for index in sorted(pair):
            if index < len(resolved):
                rule_pair, _, words = resolved[index]
                sides.append(f"{self.cause(rule_pair)} ({words})")
                place = place or rule_pair.rule.place
                self.row(rule_pair, "refused", words, note="cannot hold together with another bound")
            else:
                cause = self.limits[index - len(resolved)].cause
                sides.append(f"the {cause.recipe} ({cause.demand})")
        hard = max(pair) >= len(resolved)
        message = f"{self.setting.id}: {' and '.join(sides)} cannot both hold."
        hint = "Leave out or change one of them; nothing was written."
        problem = Problem("hard-limit" if hard else "conflict", message, hint=hint, severity=CONFLICT)
        self.problems.append(problem if place is None else problem._replace(place=place))
        return True

    def unwritable(self, entry: Entry, result: Combined | CombinedWord, resolved: list[tuple[Pair, Demand, str]]) -> bool:
        """A choice that the map has no text for goes to the person."""
        if entry.writable is None or result.value in entry.writable or result.value in entry.values:
            return False
        for pair, _, words in resolved:
            note = f"the map has no text for {result.value!r}"
            self.row(pair, "by hand", words, (result.value,), note)
        return True

    def without_key(self, live: list[Pair]) -> Entry | None:
        """A setting without a key: it is added where the map says so and the value is known, else left to the person."""
        grid = self.base.addable.get(self.setting.id)
        resolved = self.demands(live, 0)
        if not resolved:
            return None
        result = self.combine(None, grid or Grid(self.setting.step or Fraction(0)), [demand for _, demand, _ in resolved])
        if result is not None and self.conflict(result.conflict, resolved):
            return None
        status: Status = "added" if grid is not None and result is not None else "by hand"
        value = () if result is None else (result.value,)
        note = "" if status == "added" else self.base.absent.get(self.setting.id, "the map has no key for it")
        if grid is not None and result is None:
            note += "; it could be added, but no rule says a value"
        verdicts = result.verdicts if result is not None else (Verdict("changed"),) * len(resolved)
        for (pair, _, words), verdict in zip(resolved, verdicts[: len(resolved)], strict=True):
            overruled = verdict.status == "overruled"
            self.row(pair, "overruled" if overruled else status, words, value, self.note(verdict, resolved) if overruled else note)
        if status == "by hand" or result is None or grid is None:
            return None
        origin = Origin("", 0, "", "")
        return Entry(setting=self.setting.id, values=(result.value,), origin=origin, grids=(grid,))
