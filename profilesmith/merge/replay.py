"""Hand edits onto a new ledger: the derived profile with them in it, and a row for each."""

from collections.abc import Container, Iterable, Mapping, Sequence
from fractions import Fraction

from profilesmith.ledger import BrokenRules, Cause, Decision, Ledger, Note, Row
from profilesmith.merge.decision import CONFLICT
from profilesmith.merge.held import Holding
from profilesmith.merge.settings import SettingMerge
from profilesmith.profile.profile import Entry, Grid, Profile
from profilesmith.vocabulary.setting import Value

FINER = 10**6  # a text may be given six more decimals, as recipes may


def replay(ledger: Ledger, merges: Iterable[SettingMerge], broken: BrokenRules) -> Ledger:
    """The ledger with every edit that is carried by value. broken: the rules that edits overrule; their rows say so."""
    carried = {item.setting: item for item in merges if item.holding and not item.by_text}
    if not carried:
        return ledger
    entries = dict(ledger.derived.entries)
    for name, item in carried.items():
        assert item.holding is not None
        entries[name] = pinned_entry(entries[name], item.holding)
    entries = followed(entries, carried)
    derived = ledger.derived._replace(entries=entries)
    rows: list[Row] = []
    for row in ledger.rows:
        if row.status == "gave way" and row.setting in carried:
            continue  # the hand says what its key holds now
        rows.append(_row(row, entries, carried, broken))
    following = {row.setting for row in rows if row.status == "follows"}
    for name, entry in entries.items():
        before = ledger.base.entries.get(name)
        if name in carried:
            rows.append(_hand_row(name, carried[name].decision, before, entry))
        elif (
            entry.relative_to
            and before is not None
            and before.values != entry.values
            and name not in following
            and not _moved(name, rows)
        ):
            cause = Cause("share of hand edit", subject=entry.relative_to)
            rows.append(Row(name, "follows", cause, before.values, entry.values))
    return ledger._replace(derived=derived, rows=tuple(rows))


def _moved(name: str, rows: list[Row]) -> bool:
    return any(row.setting == name and row.status in ("changed", "added") for row in rows)


def pinned_entry(entry: Entry, holding: Holding) -> Entry:
    """An entry that holds what a hand wrote, as near as its text can."""
    shares = tuple(held.share for held in holding) if entry.shares else ()
    grids = entry.grids or (Grid(),) * len(holding)
    if entry.shares:
        shares = tuple(None if share is None else _near(share, grid) for share, grid in zip(shares, grids, strict=True))
        return entry._replace(values=tuple(held.value for held in holding), shares=shares)
    return entry._replace(values=tuple(_writable(held.value, grid) for held, grid in zip(holding, grids, strict=True)))


def _writable(value: Value, grid: Grid) -> Value:
    return _near(value, grid) if isinstance(value, Fraction) else value


def _near(value: Fraction, grid: Grid) -> Fraction:
    """The value itself where the text can hold it, else the nearest that it can."""
    if grid.whole or not grid.step:
        return grid.nearest(value)
    return Grid(grid.step / FINER, grid.zero).nearest(value)


def followed(entries: Mapping[str, Entry], pinned: Container[str] = ()) -> dict[str, Entry]:
    """Values that are written as shares, worked out again from what they are shares of.

    pinned: settings whose values a hand wrote; a share that keeps its value is rewritten for it.
    """
    done: dict[str, Entry] = {}

    def settle(name: str) -> Entry:
        if name in done:
            return done[name]
        entry = entries[name]
        done[name] = entry  # a map cannot make circles; if one came here it would end
        if entry.relative_to in entries and entry.shares:
            whole = settle(entry.relative_to).values
            if name in pinned and entry.held:
                entry = entry._replace(shares=_kept(entry, whole))
            values = tuple(
                _share(value, share, whole[tool] if tool < len(whole) else whole[0])
                for tool, (value, share) in enumerate(zip(entry.values, entry.shares, strict=True))
            )
            done[name] = entry._replace(values=values)
        return done[name]

    for name in entries:
        settle(name)
    return {name: done[name] for name in entries}


def _kept(entry: Entry, whole: Sequence[Value]) -> tuple[Fraction | None, ...]:
    """The shares that come nearest to an entry's values, of what they are shares of now."""
    grids = entry.grids or (Grid(),) * len(entry.values)
    shares = []
    for tool, (value, share, grid) in enumerate(zip(entry.values, entry.shares, grids, strict=True)):
        reference = whole[tool] if tool < len(whole) else whole[0]
        if share is not None and isinstance(value, Fraction) and isinstance(reference, Fraction) and reference:
            share = _near(value / reference, grid)
        shares.append(share)
    return tuple(shares)


def _share(value: Value, share: Fraction | None, whole: Value) -> Value:
    return share * whole if share is not None and isinstance(whole, Fraction) else value


def _row(row: Row, entries: Mapping[str, Entry], carried: Mapping[str, SettingMerge], broken: BrokenRules) -> Row:
    """A rule's row where a hand edit, or what it is a share of, has moved the setting."""
    entry = entries.get(row.setting)
    if (
        entry is None
        or not row.derived
        or row.status in ("by hand", "unanswered", "does not apply")
        or row.derived == entry.values
    ):
        return row
    if row.setting not in carried:
        return row._replace(derived=entry.values)
    met = (row.setting, row.cause.recipe, row.cause.rule) not in broken
    status = (
        row.status
        if row.status not in ("changed", "added", "kept", "follows", "overruled")
        else "kept"
        if met
        else "overruled"
    )
    more = () if row.status == "overruled" and met else row.notes  # by whom it was overruled counts no more
    return row._replace(status=status, derived=entry.values, notes=(Note("hand met" if met else "hand kept"), *more))


def _hand_row(name: str, decision: Decision, before: Entry | None, entry: Entry) -> Row:
    cause = Cause("hand edit", quoted=(decision.was, decision.hand))
    base = before.values if before else ()
    status = "added" if before is None else "kept" if before.values == entry.values else "changed"
    return Row(name, status, cause, base, entry.values)  # type: ignore[arg-type]


def settled_ledger(
    ledger: Ledger, result: Profile, merges: Sequence[SettingMerge], decisions: Iterable[Decision]
) -> Ledger:
    """The ledger of the merged texts: what they read as, a row for each edit that a whole line carried, and notes."""
    rows = list(ledger.rows)
    for item in merges:
        entry = result.entries.get(item.setting)
        if not item.by_text or entry is None:
            continue
        before = ledger.base.entries.get(item.setting)
        row, origin = _hand_row(item.setting, item.decision, before, entry), entry.origin
        old_text = before.origin.text if before else ""
        rows.append(
            row._replace(file=origin.file, line=origin.line, key=origin.key, old_text=old_text, new_text=origin.text)
        )
    notes = {item.what: item for item in decisions if item.kind == "setting"}
    spelled = {
        item.setting: result.entries[item.setting].origin.text
        for item in merges
        if item.texts and item.setting in result.entries
    }
    rows = [
        row._replace(new_text=spelled[row.setting]) if row.new_text and row.setting in spelled else row for row in rows
    ]
    derived = _in_order_of(ledger.derived, result)
    return ledger._replace(derived=derived, rows=tuple(_noted(row, notes.get(row.setting)) for row in rows))


def _in_order_of(made: Profile, result: Profile) -> Profile:
    """The settings in the order in which they were worked out, as every ledger has them; then what hands put in."""
    names = dict.fromkeys((*(name for name in made.entries if name in result.entries), *result.entries))
    return result._replace(entries={name: result.entries[name] for name in names})


def _noted(row: Row, decision: Decision | None) -> Row:
    if row.cause.kind != "hand edit" or decision is None:
        return row
    notes = [Note("base changed too")] if decision.outcome == CONFLICT else []
    notes += [Note("overrules", (decision.overrules,))] if decision.overrules else []
    return row._replace(notes=tuple(notes))
