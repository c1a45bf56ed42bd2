"""Doubts in words: which word, where, what it could change, and what would settle it."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.foundation.words import listed, plural
from profilesmith.ledger.judgement import Finding
from profilesmith.motion.doubt import EVERYTHING, Doubt, Subject
from profilesmith.review.wording import visible

SUBJECTS: dict[Subject, str] = {
    "path": "lengths",
    "height": "heights",
    "strand": "filament",
    "speed": "speeds",
    "travel": "travels",
    "time": "the time",
    "heat": "temperatures",
    "fan": "the fan",
    "pull": "pulls",
    "kind": "kinds of line",
}
# What is unclear, and what settles it.
WORDS = {
    "nested-remark": (
        "has a remark inside a remark; a reader stops at the first closing bracket",
        "Take the inner brackets out.",
    ),
    "open-remark": ("has a remark that is never closed", "Close it."),
    "exponent": (
        "is two words to the standard and one very small number to some machines",
        "Write the number in full.",
    ),
    "expression": ("uses parameters or expressions, which are not followed", "Write the numbers themselves."),
    "unread": ("is no line of words", "Say in the words map what it changes: [[word]] word = ..., changes = [...]."),
    "unknown-word": (
        "is not known here",
        "Say in the words map what it changes: [[word]] word = ..., changes = [...].",
    ),
    "told-word": ("changes this, as the words map says", "It is followed no further."),
    "twice": ("gives one letter twice in a line", "Keep one of them."),
    "checksum": ("does not fit its line, which was changed or cut", "Write the file again."),
    "star": ("is no checksum", "Write the file again."),
    "no-number": ("has no number", "Write the file again."),
    "blank-in-number": ("is one number to the standard and two to many machines", "Take the blank out."),
    "block-delete": (
        "begins a line that is skipped or run, as a switch says; it was taken as run",
        "Say block_delete in the words map's [practice].",
    ),
    "one-group-twice": ("stand in one line, though only one of them can hold", "Write one a line."),
    "two-axis-words": ("both want the axis words of one line", "Write one a line."),
    "feed-not-positive": ("is no speed", "Write the file again."),
    "no-feed": ("is missing: a line moves before any speed was given", "Begin with a G1 that has an F."),
    "units-and-feed": ("changes the unit in a line with F; which one F is in differs", "Write F in the next line."),
    "distance-not-told": (
        "comes before G90 or G91; it was taken as G90",
        'Say distance = "absolute" in the words map\'s [practice].',
    ),
    "strand-mode-reset": (
        "comes after M82 or M83; whether it changes E too differs between machines",
        "Say distance_sets_strand in the words map's [practice].",
    ),
    "not-modelled": ("is not followed", "Say in the words map what it changes, or write the file without it."),
    "unknown-origin": ("goes to an origin that the file does not set", "Use one origin, or set it with G10 L2."),
    "bare-offset": ("without numbers differs between machines", "Give it numbers."),
    "no-motion-mode": ("stand alone after G80, which is a fault", "Give the line its G word."),
    "arc-from-unknown": ("starts from a place that is not known", "Move there first."),
    "arc-radius": ("has no arc that fits its ends", "Write the file again."),
    "arc-centre": ("has neither a centre nor a radius", "Write the file again."),
    "rapid": (
        "has no speed in this file, so that it may be the machine's own",
        "Say rapid_at_feed in the words map's [practice].",
    ),
    "other-tool": ("speaks of another tool, which has its own heat and its own E", "Check a file of one tool."),
    "other-fan": ("speaks of another fan", "Say in the words map that it changes nothing, if it cools no part."),
    "fan-scale": ("may be full power or one part in 255", "Write the file with 0 to 255."),
    "no-target": ("has no temperature", "Write the file again."),
    "speed-limit": (
        "keeps the machine slower than the file orders",
        "Lower the speeds in the profile, if the time matters.",
    ),
    "other-axis": (
        "moves an axis that is not followed here",
        "Check a file of one nozzle on three axes.",
    ),
    "volume-pulls": ("makes E a volume; whether pulls count so too differs", "Compare a pull by hand."),
    "factor-on-pulls": (
        "changes what E means; whether for pulls too differs between machines",
        "Set it to 100, and the flow in the profile.",
    ),
    "pull-length": ("pulls by a length that the machine keeps to itself", "Write M207 S F into the start block."),
    "more": ("is one of too many odd words: this may be a file of another kind", "Name the motion file itself."),
}


def doubts_clause(doubts: Sequence[Doubt]) -> str:
    """``M221 S80 in line 12 changes what E means ...``: the first doubt in words, the rest counted."""
    first, *rest = doubts
    what, _ = WORDS[first.code]
    more = f", and {plural(len(rest), 'word', 'words')} more" if rest else ""
    return f"{visible(first.word) or 'a word'} in line {first.line} {what}{more}"


def doubt_finding(doubt: Doubt) -> Finding:
    """A note on one doubt: what, where, what it could change, what to do."""
    what, do = WORDS[doubt.code]
    often = f" ({plural(doubt.times, 'time', 'times')})" if doubt.times > 1 else ""
    subjects = (
        "all figures" if doubt.subjects == EVERYTHING else listed([SUBJECTS[one] for one in doubt.subjects], "and")
    )
    word = visible(doubt.word)
    return Finding(
        "motion-word",
        "note",
        f"Line {doubt.line}: {word[:60]}",
        f"It {what}{often}. What depends on it is not judged: {subjects}. {do}",
        source="NISTIR 6556, or common practice of desktop machines",
    )
