"""The catalogue as Markdown files, for a place that shows the files of a repository. Strangers' text is escaped."""

from __future__ import annotations

from collections.abc import Iterable

from profilesmith.catalogue.catalogue import Catalogue, RecipeEntry, Trial
from profilesmith.catalogue.words import (
    BORROWED,
    FIT,
    ONCE,
    SETUPS,
    SHIPS,
    by_machine_and_spool,
    counted,
    described,
    shown_input,
    shown_records,
    shown_rule,
    trial_says,
    withdrawn_prints,
)
from profilesmith.evidence.tally import CAUTION, CONFIDENCE, grades, others_say, says, short
from profilesmith.evidence.trouble_tally import troubles_seen, what_helped
from profilesmith.evidence.trouble_words import (
    HELPED,
    HELPED_HEADS,
    HOW_HELPED,
    HOW_SEEN,
    SEEN,
    SEEN_HEADS,
    never_seen,
    shown_help,
    shown_seen,
)
from profilesmith.review.render.markdown import code as code_span
from profilesmith.review.render.markdown import escape
from profilesmith.review.render.names import trade_name
from profilesmith.review.sentences import by_rule
from profilesmith.review.wording import visible
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

ENDING = ".md"


def render(catalogue: Catalogue) -> dict[str, str]:
    """File name -> text."""
    pages = {f"{entry.stem}{ENDING}": _text(_recipe(catalogue, entry)) for entry in catalogue.entries}
    return {f"index{ENDING}": _text(_index(catalogue)), **pages}


def _text(lines: Iterable[str]) -> str:
    return "\n".join(lines).rstrip("\n") + "\n"


def _shown(text: str) -> str:
    return escape(visible(text))


def _code(text: str) -> str:
    return code_span(visible(text))


def _table(heads: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> list[str]:
    """Cells are Markdown already."""
    return [f"| {' | '.join(heads)} |", f"|{' --- |' * len(heads)}", *(f"| {' | '.join(row)} |" for row in rows), ""]


def _index(catalogue: Catalogue) -> list[str]:
    lines = [f"# {_shown(catalogue.name)}", ""]
    lines += [_shown(catalogue.about), ""] if catalogue.about else []
    licence = f"Licence {_shown(catalogue.licence)}. " if catalogue.licence else ""
    keepers = f"Kept by {_shown(', '.join(catalogue.keepers))}." if catalogue.keepers else ""
    lines += [f"**{_shown(counted(catalogue))}**", "", f"{licence}{keepers}", ""]
    rows = (
        (
            (
                f"[{_shown(entry.title)}]({entry.stem}{ENDING}) "
                f"{_code(entry.word)}{f' *({SHIPS})*' if entry.ships else ''}"
            ),
            _way(entry),
            _shown(entry.recipe.version),
            _shown(short(entry.tally)),
            str(len(entry.recipe.cautions)),
        )
        for entry in catalogue.entries
    )
    lines += _table(("Recipe", "From → to", "Version", "Evidence", "Cautions"), rows)
    lines += [
        (
            "Evidence: how many recorded prints worked, and the share of such prints that would work, "
            f"with {CONFIDENCE} confidence."
        ),
        "",
    ]
    if catalogue.unread:
        lines += ["## Cannot be read", ""]
    for item in catalogue.unread:
        lines += [
            (
                f"- **{_shown(item.word)}**: "
                f"{'; '.join(_shown(f'{problem.place}: {problem.message}') for problem in item.problems[:5])}"
            )
        ]
    return [*lines, "", _shown(catalogue.written_by)]


def _way(entry: RecipeEntry) -> str:
    source, target = entry.recipe.source_material, entry.recipe.target_material
    return " → ".join(_shown(text) for text in (source, target) if text) or "not said"


def _recipe(catalogue: Catalogue, entry: RecipeEntry) -> list[str]:
    lines = [f"[All recipes of {_shown(catalogue.name)}](index{ENDING})", "", f"# {_shown(entry.title)}", ""]
    lines += [f"From {_way(entry).replace(' → ', ' to ')}", ""] if entry.way else []
    lines += [f"{_shown(described(entry))}. Its name: {_code(entry.word)}", "", f"**{_shown(says(entry.tally))}**", ""]
    lines += [f"**{ONCE}**", ""] if entry.recipe.once else []
    lines += _listed("## Take care", entry.recipe.cautions)
    lines += _evidence(entry) + _rules(entry) + _inputs(entry)
    if entry.trials:
        lines += [
            "## What it does to a reference profile",
            "",
            f"{FIT} {BORROWED if catalogue.borrowed else ''}".rstrip(),
            "",
        ]
    for trial in entry.trials:
        lines += _trial(trial)
    return [*lines, _shown(catalogue.written_by)]


def _listed(title: str, texts: Iterable[str]) -> list[str]:
    items = [f"- {_shown(text)}" for text in texts]
    return [title, "", *items, ""] if items else []


def _evidence(entry: RecipeEntry) -> list[str]:
    tally = entry.tally
    lines = ["## Evidence", "", _shown(says(tally)), ""]
    lines += [CAUTION, ""] if tally.records else []
    parts = by_machine_and_spool(tally)
    lines += [*(f"- {_shown(text)}" for text in parts), ""] if parts else []
    judged = [(word.capitalize(), *map(str, counts)) for word, counts in grades(tally)]
    lines += _table(("Judged", "Good", "Fair", "Poor"), judged) if judged else []
    lines += _troubles(entry)
    prints, setups = shown_records(tally)
    rows = [
        (
            item.date,
            _shown(item.version),
            f"**{item.outcome}**",
            _shown(item.judged) or "–",
            _shown("; ".join(item.on)) or "–",
            _shown(item.words) or "–",
        )
        for item in prints
    ]
    lines += _table(("Day", "Version", "Outcome", "Judged", "On what", "In their own words"), rows) if rows else []
    lines += [SETUPS, "", *(f"- {item.name}: {_shown(item.facts)}" for item in setups), ""] if setups else []
    lines += [_shown(others_say(tally)), ""] if others_say(tally) else []
    gone = [f"- {_shown(text)}" for text in withdrawn_prints(tally)]
    lines += [*gone, ""] if gone else []
    faults = [f"- Not counted: {_shown(text)}" for text in entry.faults]
    return [*lines, *faults, ""] if faults else lines


def _troubles(entry: RecipeEntry) -> list[str]:
    """Which troubles were seen, and what helped."""
    records = entry.tally.records
    every = troubles_seen(records)
    seen = [_cells(shown_seen(item)) for item in every if item.shown]
    helped = [_cells(shown_help(item)) for item in what_helped(records, load_vocabulary())]
    lines = [f"### {SEEN}", "", *_table(SEEN_HEADS, seen), HOW_SEEN, ""] if seen else []
    lines += [_shown(never_seen(every)), ""] if never_seen(every) else []
    return [*lines, *([f"### {HELPED}", "", *_table(HELPED_HEADS, helped), HOW_HELPED, ""] if helped else [])]


def _cells(row: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(_shown(cell) or "–" for cell in row)


def _rules(entry: RecipeEntry) -> list[str]:
    lines = ["## Rules", ""]
    for rule in (shown_rule(rule, entry.recipe.inputs) for rule in entry.recipe.rules):
        only = f" *(only when {_shown(rule.only)})*" if rule.only else ""
        names = ", ".join(_code(name) for name in rule.settings)
        source = _shown(rule.source) or "not said"
        lines.append(
            (
                f"{rule.number}. **{_shown(rule.names)}**: {_shown(rule.asks)}{only}. {_shown(rule.why)} "
                f"*(source: {source})* {names}"
            ).replace("  ", " ")
        )
    return [*lines, ""]


def _inputs(entry: RecipeEntry) -> list[str]:
    items = [shown_input(item) for item in entry.recipe.inputs.values()]
    rows = [
        (
            _shown(item.ask or item.name),
            _code(item.name),
            _code(item.fact) or "–",
            _shown(item.default) or "its rules are left out",
        )
        for item in items
    ]
    return (
        ["## What it asks", "", *_table(("Question", "Name", "Answered by the fact", "If nobody says"), rows)]
        if rows
        else []
    )


def _trial(trial: Trial) -> list[str]:
    lines = [f"### {_shown(trial.profile)}", ""]
    lines += [f"With the facts {_shown(', '.join(trial.facts))}", ""] if trial.facts else []
    lines += [f"**{_shown(trial_says(trial))}**", ""]
    lines += [f"- {_shown(text)}" for text in trial.problems] + [""] if trial.problems else []
    if trial.review is None:
        return lines
    rows = [
        (
            _shown(group.title),
            _shown(trade_name(change.setting)),
            _shown(change.base),
            f"**{_shown(change.derived)}**",
            _shown(change.relative),
        )
        for group in trial.review.groups
        for change in group.changes
    ]
    lines += _table(("Part", "Setting", "Before", "After", "Change"), rows) if rows else []
    hand = [
        f"{', '.join(trade_name(change.setting) for change in changes)}: {reason.demand}"
        for reason, changes in by_rule(trial.review.by_hand)
    ]
    lines += _listed("To set by hand there:", hand)
    lines += _listed("Not known there, so left alone:", [question.ask for question in trial.review.questions])
    return lines
