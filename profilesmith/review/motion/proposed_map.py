"""A proposed words map as TOML: each guess with its reason, commented out until the maker accepts it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from profilesmith.foundation.toml_text import comment_lines
from profilesmith.foundation.toml_values import pair_lines
from profilesmith.motion.doubt import Doubt
from profilesmith.motion.proposing.propose import KindProposal
from profilesmith.motion.words_map import KINDS
from profilesmith.review.motion.doubts import WORDS

HEAD = (
    "Words map: what remarks and words mean in your motion files. Proposed from the shape of what follows each remark, "
    "which is right often, not always: compare each guess with your software's own preview, "
    "take the # away where it is "
    "right, and mend it where it is not. Nothing counts before that."
)
REASONS = {
    "loops-below": "closed loops in the lowest layers alone",
    "longest-loops": "closed loops in most layers, the longest of their kind",
    "shorter-loops": "closed loops in most layers, shorter than others",
    "lowest-alone": "open lines in the lowest layers, and nothing else there",
    "fills-below": "open lines in a run of low layers",
    "fills-above": "open lines that reach the highest layer",
    "fills-between": "open lines between the closing layers",
    "open-lines": "open lines that fit nothing else: support, perhaps",
}
# Doubts that a line of [practice] settles.
MACHINE = {
    "rapid": ("rapid_at_feed = true", "G0 goes at F; false: at the machine's own speed"),
    "strand-mode-reset": ("distance_sets_strand = false", "true: G90 makes E a running total again"),
    "distance-not-told": ('distance = "absolute"', 'or "relative": what holds before G90 or G91'),
    "block-delete": ('block_delete = "run"', 'or "skip": lines that begin with a slash'),
}


def proposed_map(name: str, proposals: Sequence[KindProposal], doubts: Sequence[Doubt], dwells: bool) -> str:
    """The TOML text. name: of the motion file; dwells: it has G4 P."""
    lines = [*comment_lines(HEAD), "format = 1", "", "[words]", *pair_lines({"name": name}), ""]
    lines += _machine(doubts, dwells)
    for proposal in proposals:
        lines += _line(proposal)
    if not proposals:
        lines += comment_lines("No remark of this file stands before lines of its own: kinds of line cannot be told.")
    for doubt in doubts:
        if doubt.code in ("unknown-word", "unread"):
            lines += _word(doubt)
    return "\n".join(lines).rstrip() + "\n"


def _machine(doubts: Sequence[Doubt], dwells: bool) -> list[str]:
    lines = ["[practice]"]
    lines += ['# filament_diameter = "1.75 mm"']
    if dwells:
        lines += ['# dwell_p = "ms"   # or "s": what P counts in G4']
    for code in dict.fromkeys(doubt.code for doubt in doubts):
        if code in MACHINE:
            line, what = MACHINE[code]
            lines += [f"# {line}   # {what}"]
    return [*lines, ""]


def _line(proposal: KindProposal) -> list[str]:
    trace = proposal.trace
    many = (
        f"{len(trace.layers)} layer{'s' if len(trace.layers) > 1 else ''}, {trace.stretches} "
        f"stretches of {trace.mean:.0f} mm"
    )
    lines = comment_lines(f"{REASONS[proposal.reason]} ({many}): {KINDS[proposal.is_kind]}?")
    return [*lines, *_offered("line", {"is": proposal.is_kind, "says": trace.remark})]


def _word(doubt: Doubt) -> list[str]:
    word = doubt.word.split()[0] if doubt.word.split() else doubt.word
    return [
        *comment_lines(
            f"Line {doubt.line}: {doubt.word} {WORDS[doubt.code][0]}. An empty list says that it changes no figure."
        ),
        *_offered("word", {"word": word, "changes": []}),
    ]


def _offered(name: str, table: Mapping[str, object]) -> list[str]:
    """A table that counts once its marks are taken away."""
    return [f"# {line}" for line in (f"[[{name}]]", *pair_lines(table))] + [""]
