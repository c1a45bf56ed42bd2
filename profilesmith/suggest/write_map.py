"""A Suggestion to the text of a new map: what is sure is active, what is to be checked is commented out, the rest is
listed.
"""

from collections.abc import Iterable, Mapping

from profilesmith.foundation.toml_text import comment_lines
from profilesmith.foundation.toml_values import pair_lines
from profilesmith.suggest.proposal import CHECK, SURE, Entry, Proposal, Suggestion

HEAD = """\
# Key map, suggested from the text itself. Every line may be changed; a later "keymap suggest" keeps what is written
# here. Blocks behind "# " were not sure enough: take the "# " away from a block to accept it. If its key holds no such
# setting, delete the block, and write the key into not_bound to keep it away for good.
"""


def new_map(suggestion: Suggestion, accept_checks: bool = False) -> str:
    """The whole file. accept_checks: what is to be checked is active too."""
    head = {"name": suggestion.name} | ({"language": suggestion.language} if suggestion.language else {})
    lines = [HEAD + "format = 1", "", "[keymap]", *pair_lines(head)]
    lines += ['not_bound = []  # keys that hold none of the settings, such as ["DoorLamp", "[drive] Jolt"]']
    lines += ["", *table_lines("[text]", suggestion.text)]
    lines += _group("Sure", suggestion.of(SURE), True, accept_checks)
    lines += _group("To be checked", suggestion.of(CHECK), accept_checks, accept_checks)
    lines += missing_lines(suggestion.missing)
    return "\n".join(lines) + "\n"


def _group(title: str, proposals: Iterable[Proposal], active: bool, accepted: bool) -> list[str]:
    blocks = [line for proposal in proposals for line in ["", *block_lines(proposal, active)]]
    if not blocks:
        return []
    words = f"{title}, accepted unchecked" if accepted and title != "Sure" else title
    return ["", f"# ---- {words} ----", *blocks]


def block_lines(proposal: Proposal, active: bool) -> list[str]:
    """One binding with its reasons above it, as comments when it is not active."""
    shown = f"line {proposal.line}: {proposal.key} = {proposal.text}"
    value = f", read as {proposal.value}" if proposal.value else ""
    lines = comment_lines(f"{shown}{value}")
    reasons = "; ".join(proposal.reasons)
    lines += comment_lines(f"because: {reasons}") if reasons else []
    for doubt in proposal.doubts:
        lines += comment_lines(f"check: {doubt}")
    if proposal.alternatives and proposal.certainty == CHECK:
        others = "; ".join(f"{other.name} = {other.text} (line {other.line})" for other in proposal.alternatives)
        lines += comment_lines(f"or: {others}")
    block = table_lines("[[binding]]", proposal.binding)
    return [*lines, *(block if active else [f"# {line}" for line in block])]


def table_lines(header: str, entries: Mapping[str, Entry]) -> list[str]:
    """``[text]`` or ``[[binding]]`` with its entries."""
    return [header, *pair_lines(entries)]


def missing_lines(missing: Iterable[str]) -> list[str]:
    """The settings that no key was found for."""
    names = ", ".join(missing)
    return ["", "# ---- Not found ----", *comment_lines(names)] if names else []
