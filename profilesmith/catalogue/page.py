"""The catalogue as HTML files: no network, links to one another only, readable without script."""

from __future__ import annotations

from profilesmith.catalogue.catalogue import Catalogue, RecipeEntry, Trial
from profilesmith.catalogue.changes_words import version_words
from profilesmith.catalogue.find import found_by, rank
from profilesmith.catalogue.frame import fill
from profilesmith.catalogue.words import (
    BORROWED,
    FIT,
    OLDEST,
    ONCE,
    SETUPS,
    SHIPS,
    VERSIONS,
    by_machine_and_spool,
    counted,
    derive_call,
    described,
    shown_input,
    shown_records,
    shown_rule,
    trial_says,
    withdrawn_prints,
)
from profilesmith.evidence.interval import ShareInterval
from profilesmith.evidence.tally import CAUTION, CONFIDENCE, Tally, grades, others_say, says, short
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
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.words import plural
from profilesmith.review.look_first import look_first_points
from profilesmith.review.render.html.rows import ShownGroup, hand_tasks, shown_groups
from profilesmith.review.render.page import Jump
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

ENDING = ".html"
MANY = 60  # recipes beyond which the index is a list of short lines, so that it stays quick


RECIPE_ENDING = ".toml"
WHOLE = 3  # reference profiles that are shown with every reason; of the others the values


class RangeBar(NamedTuple):
    """The range as a drawing, in hundredths of its width. at: what was seen."""

    low: float
    wide: float
    at: float


class Use(NamedTuple):
    """file: the recipe's, beside the pages, "" for none. call: the command that uses it."""

    file: str
    call: str


class ShownTrial(NamedTuple):
    """A reference profile with the rows that change on it."""

    trial: Trial
    says: str
    groups: tuple[ShownGroup, ...]
    by_hand: tuple[str, ...]
    asks: tuple[str, ...]
    points: tuple[str, ...] = ()
    brief: tuple[str, ...] = ()


def render(catalogue: Catalogue) -> dict[str, str]:
    """File name -> text."""
    pages = {f"{entry.stem}{ENDING}": _recipe(catalogue, entry) for entry in catalogue.entries}
    pages |= {
        f"{entry.stem}{RECIPE_ENDING}": entry.recipe.raw.decode("utf-8", "backslashreplace")
        for entry in catalogue.entries
        if entry.recipe.raw
    }
    return {f"index{ENDING}": _index(catalogue), **pages}


def _index(catalogue: Catalogue) -> str:
    return fill(
        "index.html",
        "index.js" if catalogue.entries else "",
        catalogue=catalogue,
        many=MANY,
        found_by=found_by,
        rank=rank,
        counted=counted(catalogue),
        ending=ENDING,
        short=short,
        confidence=CONFIDENCE,
        plural=plural,
        ships=SHIPS,
    )


def _recipe(catalogue: Catalogue, entry: RecipeEntry) -> str:
    recipe, tally = entry.recipe, entry.tally
    records, setups = shown_records(tally)
    return fill(
        "recipe.html",
        "page.js" if entry.trials else "",
        catalogue=catalogue,
        entry=entry,
        described=described(entry),
        says=says(tally),
        short=short(tally),
        others=others_say(tally),
        caution=CAUTION,
        bar=bar(tally.interval, tally.worked, tally.tried),
        grades=grades(tally),
        parts=by_machine_and_spool(tally),
        withdrawn=withdrawn_prints(tally),
        **_troubles(tally),
        records=records,
        setups=setups,
        setups_told=SETUPS,
        rules=[shown_rule(rule, recipe.inputs) for rule in recipe.rules],
        inputs=[shown_input(item) for item in recipe.inputs.values()],
        once=ONCE if recipe.once else "",
        trials=_trials(entry),
        jumps=_jumps(entry),
        fit=FIT,
        index=f"index{ENDING}",
        history=list(map(version_words, entry.history)),
        versions_told=VERSIONS,
        oldest=OLDEST,
        used=Use(f"{entry.stem}{RECIPE_ENDING}" if recipe.raw else "", derive_call(entry)),
        borrowed=BORROWED if catalogue.borrowed else "",
        plural=plural,
        confidence=CONFIDENCE,
    )


def _troubles(tally: Tally) -> dict[str, object]:
    """Which troubles were seen, and what helped: rows, with what stands above and below them."""
    seen = troubles_seen(tally.records)
    helped = what_helped(tally.records, load_vocabulary())
    return {
        "seen": [shown_seen(item) for item in seen if item.shown],
        "never": never_seen(seen),
        "helped": [shown_help(item) for item in helped],
        "seen_title": SEEN,
        "seen_heads": SEEN_HEADS,
        "helped_title": HELPED,
        "helped_heads": HELPED_HEADS,
        "how_seen": HOW_SEEN,
        "how_helped": HOW_HELPED,
    }


def _trials(entry: RecipeEntry) -> list[ShownTrial]:
    return [shown_trial(trial, number <= WHOLE, f"profile-{number}-") for number, trial in enumerate(entry.trials, 1)]


def shown_trial(trial: Trial, whole: bool = True, prefix: str = "") -> ShownTrial:
    """whole: with the reason of every row. prefix: of the rows' ids, where a page has several trials."""
    if trial.review is None:
        return ShownTrial(trial, trial_says(trial), (), (), ())
    points = tuple(f"{point.title}. {point.text}".lstrip(". ") for point in look_first_points(trial.review))
    hand = tuple(f"{', '.join(task.names)}: {task.part.demand}" for task in hand_tasks(trial.review))
    asks = tuple(question.ask for question in trial.review.questions)
    groups = shown_groups(trial.review.groups, prefix)
    if not whole:
        rows = (f"{row.name}: {row.before or 'nothing'} → {row.after}" for group in groups for row in group.rows)
        return ShownTrial(trial, trial_says(trial), (), hand, asks, points, tuple(rows))
    return ShownTrial(trial, trial_says(trial), groups, hand, asks, points)


def bar(interval: ShareInterval | None, worked: int, tried: int) -> RangeBar | None:
    if interval is None:
        return None
    return RangeBar(
        round(interval.low * 100, 2), round((interval.high - interval.low) * 100, 2), round(worked / tried * 100, 2)
    )


def _jumps(entry: RecipeEntry) -> list[Jump]:
    recipe = entry.recipe
    places = (
        ("cautions", len(recipe.cautions), "caution", True),
        ("evidence", entry.tally.tried, "print", False),
        ("rules", len(recipe.rules), "rule", False),
        ("inputs", len(recipe.inputs), "question", False),
        ("versions", len(entry.history) if len(entry.history) > 1 else 0, "version", False),
        ("trials", len(entry.trials), "reference profile", False),
    )
    return [Jump(anchor, plural(count, word), urgent) for anchor, count, word, urgent in places if count]
