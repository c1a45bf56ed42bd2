"""One review of many files in words: what needs a person first, then what changed and what was kept, each told once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.words import plural
from profilesmith.ledger import Decision
from profilesmith.reports.problems import discarded_lines, problem_lines
from profilesmith.review.again_notes import again_notes
from profilesmith.review.decisions import decision_sentence
from profilesmith.review.line_edit_words import cut, where_they_differ
from profilesmith.review.wording import show_values, visible
from profilesmith.revision.on_profiles import Moved, Values
from profilesmith.revision.outcomes import HURTS, Alarm
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.rederive.forward.work import Forward, UnmappedKey

FEW = 3  # names of files or values in one line
SHOWN = 10  # lines of one section where there is one screen for all
TITLES = {"made": "brought forward", "current": "current", "stays": "stays as it is", "failed": "could not be done"}


class Section(NamedTuple):
    """lines: sentences; a short form shows the first ``SHOWN`` of them."""

    title: str
    lines: tuple[str, ...]
    urgent: bool = False


class OfFile(NamedTuple):
    """One file in full. state: a word of ``TITLES``."""

    file: str
    state: str
    urgent: bool
    lines: tuple[str, ...]


class Together(NamedTuple):
    """The whole review. heading: one sentence with all counts. ending: what to know of the old texts, or ""."""

    heading: str
    sections: tuple[Section, ...]
    files: tuple[OfFile, ...]
    ending: str = ""


def together(results: Sequence[Forward], ending: str = "") -> Together:
    """The review of all files."""
    made = [item for item in results if item.state == "made"]
    every = (
        Section("Look first", tuple(_look_first(results)), True),
        Section("What changed, from what stood in the files", (*_settings(made), *_keys(made))),
        Section(_kept_title(made), tuple(_kept(made))),
        Section("Gone", tuple(_alarms(made, "went"))),
        Section("Not as before", tuple(_notes(made))),
    )
    sections = tuple(section._replace(lines=tuple(map(visible, section.lines))) for section in every if section.lines)
    return Together(heading(results), sections, tuple(map(_of_file, results)), ending)


def heading(results: Sequence[Forward]) -> str:
    """``40 derived files: 38 brought forward, 1 stays as it is, 1 could not be done. 10 hold hand edits that were
    kept.``
    """
    counts = [(name, sum(item.state == name for item in results)) for name in TITLES]
    words = {**TITLES, "stays": "stay as they are"}
    counted = ", ".join(f"{count} {TITLES[name] if count == 1 else words[name]}" for name, count in counts if count)
    kept = sum(bool(_held(item)) for item in results)
    edits = f" Hand edits kept in {plural(kept, 'file')}." if kept else ""
    return f"{plural(len(results), 'derived file')}: {counted}.{edits}"


def _look_first(results: Sequence[Forward]) -> Iterator[str]:
    for item in results:
        for decision in item.open:
            yield f"{item.file} stays: {_short(decision_sentence(decision))} Say which counts with --prefer."
        yield from (f"{item.file}: {text}" for text in problem_lines(item.problems))
        yield from (f"{item.file}: {text}" for text in discarded_lines(item.lost))
        for decision in item.decisions:
            if decision.outcome == "left out" or (decision.outcome == "conflict" and decision.chosen):
                yield f"{item.file}: {_short(decision_sentence(decision))}"
    made = [item for item in results if item.state == "made"]
    yield from _alarms(made, "worse")
    yield from _alarms(made, "came")


def _short(sentence: str) -> str:
    return sentence[0].lower() + sentence[1:]


def _alarms(results: Iterable[Forward], kind: str) -> Iterator[str]:
    """One line for each alarm, however many files have it."""
    by_name: dict[tuple[str, str], tuple[Alarm, list[str]]] = {}
    for item in results:
        for alarm in getattr(item, kind):
            by_name.setdefault((alarm.name, alarm.verdict), (alarm, []))[1].append(item.file)
    heads = {"worse": "worse now: ", "came": "new: ", "went": ""}
    for alarm, files in by_name.values():
        name = alarm.name if alarm.title == HURTS else alarm.title
        text = "" if kind == "went" else f": {alarm.text}"
        yield f"{heads[kind]}{alarm.verdict}: {name} ({_files(files)}){text}"


def _files(files: Sequence[str]) -> str:
    if len(files) <= FEW:
        return ", ".join(files)
    return f"{plural(len(files), 'file')}: {', '.join(files[:FEW])} and {len(files) - FEW} more"


def _settings(results: Sequence[Forward]) -> Iterator[str]:
    """One line a setting."""
    for name in load_vocabulary().settings:
        moves = [move for item in results for move in item.moved if move.setting == name]
        if moves:
            yield f"{name}: {_move(moves)} ({_count(moves)})"


def _count(moves: Sequence[Moved]) -> str:
    return plural(len(moves), "file")


def _move(moves: Sequence[Moved]) -> str:
    """``40 mm/s → 38 mm/s``; where the files differ, the ends of both."""
    setting = load_vocabulary().settings[moves[0].setting]
    sides = [list(dict.fromkeys(side)) for side in ([move.old for move in moves], [move.new for move in moves])]
    return " → ".join(_range(setting.id, side) for side in sides)


def _range(name: str, side: Sequence[Values]) -> str:
    setting = load_vocabulary().settings[name]
    if len(side) == 1:
        return show_values(setting, side[0]) if side[0] else "no key"
    numbers = [value for values in side for value in values if isinstance(value, Fraction)]
    if numbers and all(isinstance(value, Fraction) for values in side for value in values):
        return f"{setting.show(min(numbers))} to {setting.show(max(numbers))}"
    some = ", ".join(show_values(setting, values) if values else "no key" for values in side[:FEW])
    return some + (f" and {len(side) - FEW} more" if len(side) > FEW else "")


def _keys(results: Sequence[Forward]) -> Iterator[str]:
    """One line for each change of a key that the map does not know."""
    by_line: dict[UnmappedKey, list[str]] = {}
    for item in results:
        for line in item.lines:
            by_line.setdefault(line, []).append(item.file)
    yield from (f"{_line(line)} ({plural(len(files), 'file')})" for line, files in by_line.items())


def _line(line: UnmappedKey) -> str:
    if line.was is None or line.now is None:
        return f"{line.key} = {cut(line.was or line.now or '')} {'is new' if line.was is None else 'is gone'}"
    was, now = where_they_differ(line.was, line.now)
    return f"{line.key}: {was} → {now}"


def _held(item: Forward) -> list[Decision]:
    """The hand edits that go on."""
    return [
        one
        for one in item.decisions
        if one.outcome == "kept" or (one.chosen == "derived" and one.outcome == "conflict")
    ]


def _kept_title(results: Sequence[Forward]) -> str:
    edits = sum(len(_held(item)) for item in results)
    return f"Hand edits kept: {edits} in {plural(sum(bool(_held(item)) for item in results), 'file')}"


def _kept(results: Sequence[Forward]) -> Iterator[str]:
    for item in results:
        held = _held(item)
        if held:
            more = f" and {len(held) - FEW} more" if len(held) > FEW else ""
            edits = ", ".join(f"{one.what} {one.hand or 'taken out'}" for one in held[:FEW])
            rules = sum(bool(one.overrules) for one in held)
            broken = f"; {rules} of them overrule{'s' if rules == 1 else ''} a rule" if rules else ""
            yield f"{item.file}: {edits}{more}{broken}"


def _notes(results: Sequence[Forward]) -> Iterator[str]:
    """Facts that changed, answers that went: told once with the count of files."""
    by_note: dict[str, list[str]] = {}
    for item in results:
        for note in again_notes(item.not_as_then):
            by_note.setdefault(note, []).append(item.file)
    yield from (f"{note.rstrip('.')} ({_files(files)})" for note, files in by_note.items())


def _of_file(item: Forward) -> OfFile:
    lines = [
        *(f"{decision_sentence(one)}" for one in item.open),
        *problem_lines(item.problems),
        *discarded_lines(item.lost),
        *(f"worse now: {alarm.verdict}: {alarm.text}" for alarm in item.worse),
        *(f"new: {alarm.verdict}: {alarm.text}" for alarm in item.came),
        *(f"{move.setting}: {_move([move])}" for move in item.moved),
        *map(_line, item.lines),
        *(decision_sentence(one) for one in item.decisions),
        *again_notes(item.not_as_then),
        *(f"written: {name}" for name in item.written),
    ]
    urgent = item.state in ("stays", "failed")
    return OfFile(visible(item.file), TITLES[item.state], urgent, tuple(map(visible, lines)))
