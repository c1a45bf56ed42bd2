"""What the checks found, as a review shows it: worst first, and the words that every rendering shares.

They come from the judgement that a ledger holds, so that a stored one shows what it showed when it was written.
It may come from a stranger: control characters are shown.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from profilesmith.checks.cautions import merged
from profilesmith.foundation.words import plural
from profilesmith.ledger.judgement import ALARMS, ORDER, Caution, Finding, Judgement
from profilesmith.review.review import Review
from profilesmith.review.sentences import summary
from profilesmith.review.wording import are_visible, visible

MOST = 400  # findings and cautions that are read from a ledger
LOOK_FIRST = "Look first"
TITLES = {"stop": "Stop", "caution": "Caution", "note": "Note"}
_COUNTED = (("stop", "stop", "stops"), ("caution", "caution", "cautions"), ("note", "note", "notes"))


def consequences(judgement: Judgement) -> tuple[Finding, ...]:
    """The findings of a judgement, worst first, with strangers' text made visible."""
    shown = [_visible(finding) for finding in judgement.findings[:MOST]]
    return tuple(sorted(shown, key=lambda item: ORDER.index(item.verdict)))


def _visible(finding: Finding) -> Finding:
    if are_visible([item for item in finding if isinstance(item, str)]):
        return finding
    return Finding(*(visible(item) if isinstance(item, str) else item for item in finding))  # type: ignore[arg-type]


def cautions(judgement: Judgement, recipes: Iterable[str]) -> tuple[str, ...]:
    """The cautions that apply, and what the recipes' own say beyond them."""
    return merged(_cautions(judgement), (visible(text) for text in recipes))


def caution_sources(judgement: Judgement) -> dict[str, str]:
    """A caution's text -> its source."""
    return {item.text: item.source for item in _cautions(judgement)}


def _cautions(judgement: Judgement) -> list[Caution]:
    return [Caution(*map(visible, item)) for item in judgement.cautions[:MOST]]


def told(review: Review) -> list[Finding]:
    """Those that are told in full: stops, cautions and notes."""
    return [item for item in review.consequences if item.verdict in TITLES]


def of_verdict(review: Review, verdict: str) -> list[Finding]:
    return [item for item in review.consequences if item.verdict == verdict]


def measures(item: Finding) -> str:
    """``7.3 mm³/s → 3.3 mm³/s, limit: 4 mm³/s, headroom 19 %``; "" where nothing is measured."""
    values = f"{item.before} → {item.after}" if item.before and item.after else item.after or item.before
    limit = f"limit: {item.limit}" if item.limit else ""
    headroom = f"headroom {item.headroom}" if item.headroom else ""
    return ", ".join(part for part in (values, limit, headroom) if part)


def not_judged(review: Review) -> list[str]:
    """One line for each question: what waits for it, and why where the question itself does not say it."""
    by_ask: dict[str, list[Finding]] = {}
    for number, item in enumerate(of_verdict(review, "not judged")):
        by_ask.setdefault(item.ask or str(number), []).append(item)
    return [_waiting(items) for items in by_ask.values()]


def _waiting(items: list[Finding]) -> str:
    titles = dict.fromkeys(lower_first(item.title) for item in items)
    reasons = dict.fromkeys(reason for item in items if (reason := _reason(item)))
    return " ".join(part for part in (f"{', '.join(titles)}.", *reasons, items[0].ask) if part)


def _reason(item: Finding) -> str:
    """Why it was not judged; that nobody told something is what the question says."""
    return item.text if item.beside_question is None else item.beside_question


def lower_first(text: str) -> str:
    """A title inside a sentence; one that begins with an abbreviation (PTFE) stays."""
    return text if text[1:2].isupper() else text[:1].lower() + text[1:]


def alarming(review: Review) -> bool:
    """Whether there is a caution or a stop."""
    return bool(alarms(review))


def counts(review: Review) -> str:
    """``1 caution, 3 notes, 17 passed, 2 not judged``."""
    numbers = {verdict: len(of_verdict(review, verdict)) for verdict in ORDER}
    others = (f"{numbers[verdict]} {verdict}" for verdict in ORDER[3:] if numbers[verdict])
    return ", ".join([*_counted(review, tuple(TITLES)), *others])


def _counted(review: Review, verdicts: Sequence[str]) -> list[str]:
    numbers = [(len(of_verdict(review, verdict)), one, many) for verdict, one, many in _COUNTED if verdict in verdicts]
    return [plural(*part) for part in numbers if part[0]]


def check_counts(review: Review) -> list[str]:
    """``1 caution``, ``4 notes``, ``20 checks passed``, ``1 not judged``: every check is in one of them."""
    numbers = [(len(of_verdict(review, "passed")), "check passed", "checks passed")]
    passed = [plural(*part) for part in numbers if part[0]]
    waiting = len(of_verdict(review, "not judged"))
    return [*_counted(review, tuple(TITLES)), *passed, *([f"{waiting} not judged"] if waiting else [])]


def counts_line(review: Review) -> str:
    """``21 settings changed, 4 already right, 4 notes, 20 checks passed, 1 not judged``; of edits first."""
    edited = [change for change in review.edited() if not change.follows or change.breaks]
    breaking = sum(bool(change.breaks) for change in edited)
    breaks = f"; {breaking} {'breaks' if breaking == 1 else 'break'} a rule" if breaking else ""
    edits = [plural(len(edited), "value edited since", "values edited since") + breaks] if edited else []
    return ", ".join([*edits, summary(review), *check_counts(review)])


SAFETY = {
    "burns": "burns",
    "fumes": "fumes",
    "liner": "PTFE fumes",
    "heat": "heat",
    "fire": "fire",
    "long-print": "a long print unattended",
    "drying": "drying",
    "sanding-dust": "dust",
    "sanding-heat": "smearing",
    "spray": "paint vapours",
    "isocyanates": "isocyanates",
    "skin": "skin",
}
"""A caution in a word or two, for one line; all of them stand in full elsewhere."""


def safety_topics(review: Review) -> list[str]:
    """What the cautions are about, the gravest first."""
    ids = {item.id for item in getattr(review.file, "cautions", ())}
    return [word for name, word in SAFETY.items() if name in ids] or (["general"] if review.cautions else [])


def heading(review: Review) -> str:
    """The heading of the consequences, with the counts where the headline does not say them."""
    return "Consequences" if review.kind == "check" else f"Consequences: {counts(review)}"


def headline(review: Review) -> str:
    """One line of counts: of the changes and the alarms, or of what was found where a profile is judged alone."""
    if review.kind == "check":
        return counts(review) or "nothing could be judged"
    return ", ".join([summary(review), *_counted(review, ALARMS)])


def alarms(review: Review) -> list[Finding]:
    """Stops and cautions that the checks found: what to look at before anything else."""
    return [item for item in review.consequences if item.verdict in ALARMS]


def look_first(review: Review) -> str:
    """``Look first: the raft is on but has no layers; PTFE liner``, or ""."""
    titles = dict.fromkeys(item.title for item in alarms(review))
    return f"{LOOK_FIRST}: {'; '.join(titles)}" if titles else ""


def closing(review: Review, listed: bool = True) -> list[str]:
    """The last lines of a long text: what is still to be done. None with conflicts, which nothing may hide.

    listed: the text has a list of what is to be set by hand.
    """
    if review.conflicts:
        return []
    left = f"{plural(len(review.by_hand), 'setting is', 'settings are')} left to you" if review.by_hand else ""
    return [line for line in (look_first(review), left + ": see 'To set by hand'" if left and listed else left) if line]
