"""Switches that share a key, which can hold one of them as on: all of them are worked out together.

A switch that a rule turns on takes the key, and another that was on gives way. Two rules that turn on two of them are a
conflict; an aim gives way to a rule that sets, and to a later aim.
"""

from collections.abc import Callable

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.problem import CONFLICT, Problem
from profilesmith.ledger import Note
from profilesmith.profile.profile import NOWHERE, Entry, OneKey, Profile
from profilesmith.recipe.combine_words import combine_words
from profilesmith.recipe.conflict import leave_out_hint, own_place, rule_side
from profilesmith.recipe.constants import Rank
from profilesmith.recipe.rule_on_setting import Resolved, RuleOnSetting
from profilesmith.recipe.setting_rows import RuleOutcome
from profilesmith.recipe.setting_work import SettingWork, WorkedOut
from profilesmith.vocabulary.setting import Value


class AskedSwitch(NamedTuple):
    """One switch and what its rules ask. wanted: None where no rule asks anything. claim: the rule that turns it on."""

    work: SettingWork
    live: list[RuleOnSetting]
    resolved: list[Resolved]
    wanted: Value | None = None
    claim: Resolved | None = None
    contradicted: bool = False

    @property
    def setting(self) -> str:
        return self.work.setting.id

    @property
    def firm(self) -> bool:
        """Whether a rule sets it, and does not only aim at it."""
        return self.claim is not None and self.claim.demand.exact is not None


def shared_key(
    key: OneKey,
    base: Profile,
    work: Callable[[str], SettingWork],
) -> dict[str, WorkedOut]:
    """What becomes of all switches of a key, by setting."""
    asked, switches = [_asked(work(name)) for name in key.settings], {*key.settings}
    if switches.isdisjoint(base.entries) and switches.isdisjoint(base.addable):
        return {item.setting: _outcome(item, item.work.without_key(item.live)) for item in asked}
    firm = [item for item in asked if item.firm]
    if len(firm) > 1:
        _conflict(key, firm)
    if len(firm) > 1 or any(item.contradicted for item in asked):
        return {item.setting: _outcome(item, item.work.entry) for item in asked}
    claims = firm or sorted((item for item in asked if item.claim), key=_rank)
    holder = claims[-1] if claims else None
    if switches.isdisjoint(base.entries):
        return {item.setting: _outcome(item, entry) for item, entry in _added(asked, holder)}
    return {item.setting: _outcome(item, _entry(item, holder)) for item in asked}


def _rank(item: AskedSwitch) -> Rank:
    """Of the rule that turns a switch on."""
    assert item.claim is not None
    return item.claim.ruling.rank


def _outcome(item: AskedSwitch, entry: Entry | None) -> WorkedOut:
    return WorkedOut(entry, item.work.rows.rows, item.work.rows.problems)


def _asked(work: SettingWork) -> AskedSwitch:
    live = [ruling for ruling in work.rulings if work.applies(ruling)]
    if work.entry is None and work.setting.id not in work.base.addable:
        return AskedSwitch(work, live, [])
    resolved = work.demands(live, 0)
    result = combine_words(None, [item.demand for item in resolved])
    if result is None:
        return AskedSwitch(work, live, resolved)
    if work.rows.conflict(result.conflict, resolved):
        return AskedSwitch(work, live, resolved, contradicted=True)
    # Of several rules that want it, the first that sets it is the reason; without one the last aim.
    sets = [item for item in resolved if item.demand.exact is not None]
    claim = (sets[0] if sets else resolved[-1]) if result.value is True else None
    return AskedSwitch(work, live, resolved, result.value, claim)


def _words(item: AskedSwitch) -> str:
    """The rule that turns a switch on, in words."""
    assert item.claim is not None
    return rule_side(item.claim, item.work.setting)


def _taken(holder: AskedSwitch) -> tuple[Note, ...]:
    """Another switch has the key."""
    return (Note("key taken", by=holder.claim.cause if holder.claim else None),)


def _conflict(key: OneKey, firm: list[AskedSwitch]) -> None:
    """Two switches that rules turn on: both rules are refused, and the key is named."""
    sides = [f"{item.setting} by {_words(item)}" for item in firm]
    message = (
        f"The key {key.key!r} can hold one of {' and '.join(item.setting for item in firm)}: {' and '.join(sides)}."
    )
    for item in firm:
        assert item.claim is not None
        item.work.rows.row(item.claim.ruling, "refused", item.claim.cause, notes=(Note("key holds one", (key.key,)),))
    claims = [item.claim for item in firm if item.claim is not None]
    problem = Problem("conflict", message, own_place(claims), leave_out_hint(claims), CONFLICT, setting=firm[0].setting)
    firm[0].work.rows.problems.append(problem)


def _entry(item: AskedSwitch, holder: AskedSwitch | None) -> Entry | None:
    """The derived entry of a switch that the text has, and its rows."""
    entry = item.work.entry
    if entry is None:
        return item.work.without_key(item.live)
    wanted = item is holder if holder is not None else item.wanted
    values = entry.values if wanted is None else (wanted,) * len(entry.values)
    by_rank: dict[Rank, RuleOutcome] = {}
    for present in entry.values:
        result = combine_words(present, [asked.demand for asked in item.resolved])
        if result is not None and result.verdicts:
            item.work.rows.collect(by_rank, item.resolved, result.verdicts)
    for each in by_rank.values():
        status, notes = each.verdict.status, each.notes
        if holder is not None and item is not holder and item.claim is not None and status != "overruled":
            status, notes = "overruled", _taken(holder)
        item.work.rows.row(each.ruling, status, each.cause, values, notes)
    if values != entry.values and not item.work.rows.moves() and holder is not None:
        item.work.rows.gave_way(entry, values, holder.setting)
    return entry._replace(values=values)


def _added(asked: list[AskedSwitch], holder: AskedSwitch | None) -> list[tuple[AskedSwitch, Entry | None]]:
    """A key that is added says something of all of its switches."""
    if not any(item.resolved for item in asked):
        return [(item, None) for item in asked]
    return [(item, _added_entry(item, holder)) for item in asked]


def _added_entry(item: AskedSwitch, holder: AskedSwitch | None) -> Entry:
    values = (item is holder,)
    result = combine_words(None, [asked.demand for asked in item.resolved])
    for asked, verdict in zip(item.resolved, result.verdicts if result else (), strict=False):
        lost = holder is not None and item is not holder and item.claim is not None
        overruled = lost or verdict.status == "overruled"
        notes = _taken(holder) if lost and holder else item.work.rows.notes(verdict, item.resolved)
        item.work.rows.row(asked.ruling, "overruled" if overruled else "added", asked.cause, values, notes)
    if not item.work.rows.moves():
        item.work.rows.added_with_key(values)
    grid = item.work.base.addable[item.setting]
    return Entry(setting=item.setting, values=values, origin=NOWHERE, grids=(grid,))
