"""One setting: its rules are asked, their demands combined for each tool, and rows written."""

from collections.abc import Sequence
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import Problem
from profilesmith.ledger import Cause, Note, Row, Status
from profilesmith.profile.profile import NOWHERE, Entry, Grid, Profile
from profilesmith.recipe.combine import Combined, Verdict, combine
from profilesmith.recipe.combine_words import CombinedWord, combine_words
from profilesmith.recipe.constants import Constants, Limit, Rank, hard_limits
from profilesmith.recipe.number_of_switch import says_no_number
from profilesmith.recipe.operations import Demand
from profilesmith.recipe.resolve import NotKnown
from profilesmith.recipe.rule_on_setting import Resolved, RuleOnSetting
from profilesmith.recipe.setting_rows import RuleOutcome, SettingRows
from profilesmith.recipe.share import Share, is_rewritten, is_spread, share_of
from profilesmith.vocabulary.setting import Setting, Value

_NO_TEXT = Note("cannot be held")


class WorkedOut(NamedTuple):
    """entry: the derived one, None when the text has no key for it. rows: with where they belong."""

    entry: Entry | None
    rows: list[tuple[Rank, Row]]
    problems: list[Problem]


class SettingWork:
    """The state of one setting's derivation; ``run`` is called once."""

    def __init__(
        self, setting: Setting, base: Profile, derived: Profile, rulings: list[RuleOnSetting], constants: Constants
    ) -> None:
        self.setting, self.base, self.derived, self.rulings = setting, base, derived, rulings
        self.entry = base.entries.get(setting.id)
        self.tool = constants.tool if self.entry and len(self.entry.values) > 1 else None
        self.limits = constants.limits(setting) if rulings else ()
        if self.entry and self.entry.coupling and self.entry.coupling.lowest is not None:
            cause = Cause("reads as on", subject=self.entry.coupling.switch)
            self.limits = (*self.limits, Limit(cause, Demand(low=self.entry.coupling.lowest)))
        self.rows = SettingRows(setting, self.entry, self.limits)
        tools = range(len(self.entry.values)) if self.entry else ()
        self.shares = [share_of(self.entry, tool, base, derived) for tool in tools if self.entry]  # one for each tool

    def run(self) -> WorkedOut:
        live = [ruling for ruling in self.rulings if self.applies(ruling)]
        return WorkedOut(self.derive(live), self.rows.rows, self.rows.problems)

    def derive(self, live: list[RuleOnSetting]) -> Entry | None:
        """The derived entry. live: the rules that apply."""
        entry = self.entry
        if entry is None:
            return self.without_key(live)
        present = [self.present(entry, tool) for tool in range(len(entry.values))]
        coupling = entry.coupling
        if coupling is not None and not self.derived.entries[coupling.switch].value:
            for ruling in live:
                self.rows.row(ruling, "does not apply", notes=(Note("switch is off", (coupling.switch,)),))
            live = []
        if coupling and says_no_number(coupling, entry, self.base, self.derived, self.demands(live, 0)):
            self.rows.no_text_for_on(coupling.switch, entry.origin.key)
            return entry
        if live or any(map(is_rewritten, self.shares)):
            return self.with_key(entry, present, live)
        return self.followed(entry, present)

    def applies(self, ruling: RuleOnSetting) -> bool:
        """Ask a rule's condition; a row is written when it does not apply or cannot be known."""
        answer = ruling.applies()
        if answer is True:
            return True
        if isinstance(answer, NotKnown):
            self.rows.unanswered(ruling, answer)
        else:
            self.rows.row(ruling, "does not apply", notes=ruling.not_so)
        return False

    def present(self, entry: Entry, tool: int) -> Value:
        """The value before rules: the base's, or what a change elsewhere in the text has made of it."""
        share = self.shares[tool]
        if share is not None:
            return entry.values[tool] if share.held or share.unchanged is None else share.unchanged
        if entry.coupling is not None:
            switch = entry.coupling.switch
            before, after = self.base.entries[switch].value, self.derived.entries[switch].value
            if before != after and not after:
                return entry.coupling.off_value
            if before != after and entry.coupling.on_value is not None:
                return entry.coupling.on_value
        return entry.values[tool]

    def followed(self, entry: Entry, present: list[Value]) -> Entry:
        """The entry when no rule moves it."""
        if tuple(present) == entry.values:
            return entry
        self.rows.follows(entry, tuple(present), is_spread(entry, self.base, self.derived))
        self.rows.out_of_range(entry, present)
        return entry._replace(values=tuple(present))

    def demands(self, rulings: list[RuleOnSetting], tool: int) -> list[Resolved]:
        """The demands that can be resolved; a row is written for each that cannot."""
        demands = []
        for ruling in rulings:
            resolved = ruling.demand(self.setting, tool, self.derived)
            if isinstance(resolved, Resolved):
                demands.append(resolved)
            elif tool == (self.tool or 0):
                self.rows.unanswered(ruling, resolved)
        return demands

    def combine(
        self, present: Value | None, grid: Grid, resolved: list[Resolved], share: Share | None = None
    ) -> Combined | CombinedWord | None:
        """share: one that is rewritten makes that the present value has to be written once more."""
        demands = [item.demand for item in resolved]
        if not self.setting.is_number:
            return combine_words(present, demands)
        number = present if isinstance(present, Fraction) else None
        limits = [limit.demand for limit in self.bounding(resolved)]
        return combine(number, grid, demands, is_rewritten(share), limits)

    def bounding(self, resolved: list[Resolved]) -> Sequence[Limit]:
        """The hard limits beside some demands; beside none what is plausible at all."""
        return self.limits if resolved else hard_limits(self.setting, {})

    def with_key(self, entry: Entry, present: list[Value], live: list[RuleOnSetting]) -> Entry:
        values, shares = list(present), list(entry.shares)
        by_rank: dict[Rank, RuleOutcome] = {}
        for tool, (value, share) in enumerate(zip(present, self.shares, strict=True)):
            resolved = self.demands(live, tool) if self.tool in (None, tool) else []
            if not resolved and not is_rewritten(share):
                continue
            result = self.combine(value, self.grid(entry, tool, share), resolved, share)
            assert result is not None  # there is a value
            if (
                share is not None
                and isinstance(result, Combined)
                and self.by_hand(entry, tool, share, value, result, resolved)
            ):
                values[tool] = value if share.unchanged is None else share.unchanged
                continue
            if self.rows.conflict(result.conflict, resolved) or self.unwritable(entry, result, resolved):
                continue
            values[tool] = result.value
            if (
                isinstance(result, Combined)
                and result.value != value
                and result.by is not None
                and result.by >= len(resolved)
                and all(verdict.status != "changed" for verdict in result.verdicts[: len(resolved)])
            ):
                self.rows.limited_by(self.bounding(resolved)[result.by - len(resolved)])
            if share is not None and share.after and isinstance(result.value, Fraction):
                shares[tool] = share.share if result.value == share.unchanged else result.value / share.after
            self.rows.collect(by_rank, resolved, result.verdicts)
        derived = entry.holding(tuple(values), tuple(shares))
        self.tell(entry, derived, tuple(present), list(by_rank.values()))
        return derived

    def tell(self, entry: Entry, derived: Entry, present: tuple[Value, ...], verdicts: list[RuleOutcome]) -> None:
        """Write the rows of all rules, and one more where the value only followed, or was only held."""
        for item in verdicts:
            notes = item.notes
            if present != entry.values and item.verdict.status == "kept" and not notes:
                notes = (Note("met since", (entry.relative_to or (entry.coupling.switch if entry.coupling else ""),)),)
            self.rows.row(item.ruling, item.verdict.status, item.cause, derived.values, notes)
        self.rows.limited(entry, derived.values)
        if self.rows.moves():
            return
        if derived.shares != entry.shares:
            self.rows.held(entry, derived)
        elif derived.values != entry.values:
            self.rows.follows(entry, derived.values, is_spread(entry, self.base, self.derived))

    def grid(self, entry: Entry, tool: int, share: Share | None) -> Grid:
        """What can be written for a tool."""
        grid = entry.grids[tool] if entry.grids else Grid()
        return grid if share is None else share.grid(grid)

    def meets(self, present: Value, resolved: list[Resolved]) -> bool:
        """Whether the bounds leave room for a value, though the text may have none there."""
        result = self.combine(present, Grid(), resolved)
        return isinstance(result, Combined) and not result.conflict

    def by_hand(
        self, entry: Entry, tool: int, share: Share, present: Value, result: Combined, resolved: list[Resolved]
    ) -> bool:
        """A share of nothing can become nothing else, one in whole numbers not always: both are left to the person."""
        wanted = result.value
        if share.after == 0 and wanted != 0:
            note = Note("share of zero", (entry.relative_to,))
        elif result.by_hand:
            note = _NO_TEXT
        elif result.conflict and share.held and entry.grids[tool].whole and self.meets(present, resolved):
            note = Note("no whole share", (entry.relative_to,))
        else:
            return False
        for item in resolved:
            self.rows.row(item.ruling, "by hand", item.cause, (wanted,), (note,))
        if not resolved:
            self.rows.held_by_hand(entry, (wanted,), note)
        return True

    def unwritable(self, entry: Entry, result: Combined | CombinedWord, resolved: list[Resolved]) -> bool:
        """A choice that the map has no text for, a number that the text cannot hold: they go to the person."""
        if isinstance(result, Combined) and result.by_hand:
            for item in resolved:
                self.rows.row(item.ruling, "by hand", item.cause, (result.value,), (_NO_TEXT,))
            return True
        if entry.writable is None or result.value in entry.writable or result.value in entry.values:
            return False
        if self.setting.kind == "switch":
            self.rows.no_text_for_on(self.setting.id, entry.origin.key)
            return True
        for item in resolved:
            note = Note("no text for it", (str(result.value),))
            self.rows.row(item.ruling, "by hand", item.cause, (result.value,), (note,))
        return True

    def without_key(self, live: list[RuleOnSetting]) -> Entry | None:
        """A setting without a key: added where the map says so and the value is known, else left to the person."""
        grid = self.base.addable.get(self.setting.id)
        resolved = self.demands(live, 0)
        if not resolved:
            return None
        result = self.combine(None, grid or Grid(self.setting.step or Fraction()), resolved)
        if result is not None and self.rows.conflict(result.conflict, resolved):
            return None
        by_hand = isinstance(result, Combined) and result.by_hand
        added = grid is not None and result is not None and not by_hand
        absent = self.base.absent.get(self.setting.id)
        why = _NO_TEXT if by_hand and grid else Note(absent.code, absent.names) if absent else Note("no binding")
        notes = () if added else (why, Note("no value said")) if grid is not None and result is None else (why,)
        verdicts = result.verdicts if result is not None else (Verdict("changed"),) * len(resolved)
        for item, verdict in zip(resolved, verdicts[: len(resolved)], strict=True):
            overruled = verdict.status == "overruled"
            status: Status = "overruled" if overruled else "added" if added else "by hand"
            said = self.rows.notes(verdict, resolved) if overruled else notes
            self.rows.row(item.ruling, status, item.cause, () if result is None else (result.value,), said)
        if grid is None or result is None or not added:
            return None
        return Entry(setting=self.setting.id, values=(result.value,), origin=NOWHERE, grids=(grid,))
