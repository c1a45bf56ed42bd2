"""The catalogue as Markdown files, for a place that shows the files of a repository. Strangers' text is escaped."""

from __future__ import annotations

from collections.abc import Iterable

from profilesmith.catalogue.catalogue import Catalogue, RecipeEntry, Trial
from profilesmith.catalogue.markdown_parts import code, listed, shown, table, versions
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
from profilesmith.review.render.names import trade_name
from profilesmith.review.sentences import by_rule
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

ENDING = ".md"


def render(catalogue: Catalogue) -> dict[str, str]:
    """File name -> text."""
    pages = {f"{entry.stem}{ENDING}": _text(_recipe(catalogue, entry)) for entry in catalogue.entries}
    return {f"index{ENDING}": _text(_index(catalogue)), **pages}


def _text(lines: Iterable[str]) -> str:
    return "\n".join(lines).rstrip("\n") + "\n"


def _index(catalogue: Catalogue) -> list[str]:
    lines = [f"# {shown(catalogue.name)}", ""]
    lines += [shown(catalogue.about), ""] if catalogue.about else []
    licence = f"Licence {shown(catalogue.licence)}. " if catalogue.licence else ""
    keepers = f"Kept by {shown(', '.join(catalogue.keepers))}." if catalogue.keepers else ""
    lines += [f"**{shown(counted(catalogue))}**", "", f"{licence}{keepers}", ""]
    rows = (
        (
            (
                f"[{shown(entry.title)}]({entry.stem}{ENDING}) "
                f"{code(entry.word)}{f' *({SHIPS})*' if entry.ships else ''}"
            ),
            _way(entry),
            shown(entry.recipe.version),
            shown(short(entry.tally)),
            str(len(entry.recipe.cautions)),
        )
        for entry in catalogue.entries
    )
    lines += table(("Recipe", "From → to", "Version", "Evidence", "Cautions"), rows)
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
                f"- **{shown(item.word)}**: "
                f"{'; '.join(shown(f'{problem.place}: {problem.message}') for problem in item.problems[:5])}"
            )
        ]
    return [*lines, "", shown(catalogue.written_by)]


def _way(entry: RecipeEntry) -> str:
    source, target = entry.recipe.source_material, entry.recipe.target_material
    return " → ".join(shown(text) for text in (source, target) if text) or "not said"


def _recipe(catalogue: Catalogue, entry: RecipeEntry) -> list[str]:
    lines = [f"[All recipes of {shown(catalogue.name)}](index{ENDING})", "", f"# {shown(entry.title)}", ""]
    lines += [f"From {_way(entry).replace(' → ', ' to ')}", ""] if entry.way else []
    lines += [f"{shown(described(entry))}. Its name: {code(entry.word)}", "", f"**{shown(says(entry.tally))}**", ""]
    lines += [f"**{ONCE}**", ""] if entry.recipe.once else []
    lines += listed("## Take care", entry.recipe.cautions)
    lines += _evidence(entry) + _rules(entry) + _inputs(entry) + versions(entry)
    if entry.trials:
        lines += [
            "## What it does to a reference profile",
            "",
            f"{FIT} {BORROWED if catalogue.borrowed else ''}".rstrip(),
            "",
        ]
    for trial in entry.trials:
        lines += _trial(trial)
    return [*lines, shown(catalogue.written_by)]


def _evidence(entry: RecipeEntry) -> list[str]:
    tally = entry.tally
    lines = ["## Evidence", "", shown(says(tally)), ""]
    lines += [CAUTION, ""] if tally.records else []
    parts = by_machine_and_spool(tally)
    lines += [*(f"- {shown(text)}" for text in parts), ""] if parts else []
    judged = [(word.capitalize(), *map(str, counts)) for word, counts in grades(tally)]
    lines += table(("Judged", "Good", "Fair", "Poor"), judged) if judged else []
    lines += _troubles(entry)
    prints, setups = shown_records(tally)
    rows = [
        (
            item.date,
            shown(item.version),
            f"**{item.outcome}**",
            shown(item.judged) or "–",
            shown("; ".join(item.on)) or "–",
            shown(item.words) or "–",
        )
        for item in prints
    ]
    lines += table(("Day", "Version", "Outcome", "Judged", "On what", "In their own words"), rows) if rows else []
    lines += [SETUPS, "", *(f"- {item.name}: {shown(item.facts)}" for item in setups), ""] if setups else []
    lines += [shown(others_say(tally)), ""] if others_say(tally) else []
    gone = [f"- {shown(text)}" for text in withdrawn_prints(tally)]
    lines += [*gone, ""] if gone else []
    faults = [f"- Not counted: {shown(text)}" for text in entry.faults]
    return [*lines, *faults, ""] if faults else lines


def _troubles(entry: RecipeEntry) -> list[str]:
    """Which troubles were seen, and what helped."""
    records = entry.tally.records
    every = troubles_seen(records)
    seen = [_cells(shown_seen(item)) for item in every if item.shown]
    helped = [_cells(shown_help(item)) for item in what_helped(records, load_vocabulary())]
    lines = [f"### {SEEN}", "", *table(SEEN_HEADS, seen), HOW_SEEN, ""] if seen else []
    lines += [shown(never_seen(every)), ""] if never_seen(every) else []
    return [*lines, *([f"### {HELPED}", "", *table(HELPED_HEADS, helped), HOW_HELPED, ""] if helped else [])]


def _cells(row: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(shown(cell) or "–" for cell in row)


def _rules(entry: RecipeEntry) -> list[str]:
    lines = ["## Rules", ""]
    for rule in (shown_rule(rule, entry.recipe.inputs) for rule in entry.recipe.rules):
        only = f" *(only when {shown(rule.only)})*" if rule.only else ""
        names = ", ".join(code(name) for name in rule.settings)
        source = shown(rule.source) or "not said"
        lines.append(
            (
                f"{rule.number}. **{shown(rule.names)}**: {shown(rule.asks)}{only}. {shown(rule.why)} "
                f"*(source: {source})* {names}"
            ).replace("  ", " ")
        )
    return [*lines, ""]


def _inputs(entry: RecipeEntry) -> list[str]:
    items = [shown_input(item) for item in entry.recipe.inputs.values()]
    rows = [
        (
            shown(item.ask or item.name),
            code(item.name),
            code(item.fact) or "–",
            shown(item.default) or "its rules are left out",
        )
        for item in items
    ]
    return (
        ["## What it asks", "", *table(("Question", "Name", "Answered by the fact", "If nobody says"), rows)]
        if rows
        else []
    )


def _trial(trial: Trial) -> list[str]:
    lines = [f"### {shown(trial.profile)}", ""]
    lines += [f"With the facts {shown(', '.join(trial.facts))}", ""] if trial.facts else []
    lines += [f"**{shown(trial_says(trial))}**", ""]
    lines += [f"- {shown(text)}" for text in trial.problems] + [""] if trial.problems else []
    if trial.review is None:
        return lines
    rows = [
        (
            shown(group.title),
            shown(trade_name(change.setting)),
            shown(change.base),
            f"**{shown(change.derived)}**",
            shown(change.relative),
        )
        for group in trial.review.groups
        for change in group.changes
    ]
    lines += table(("Part", "Setting", "Before", "After", "Change"), rows) if rows else []
    hand = [
        f"{', '.join(trade_name(change.setting) for change in changes)}: {reason.demand}"
        for reason, changes in by_rule(trial.review.by_hand)
    ]
    lines += listed("To set by hand there:", hand)
    lines += listed("Not known there, so left alone:", [question.ask for question in trial.review.questions])
    return lines
