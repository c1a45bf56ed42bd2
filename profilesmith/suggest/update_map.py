"""An existing map brought up to a newer text: the person's lines stay as they are, new bindings are added, gone ones
marked.

The text of the map is edited by its lines; nothing is written anew from a parsed form, so comments, order and spelling
stay to the letter.
"""

import json
import re
from collections.abc import Collection, Iterable

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.toml_lines import index_lines
from profilesmith.suggest.proposal import SURE, Proposal, Suggestion
from profilesmith.suggest.write_map import block_lines, table_lines
from profilesmith.translation.key_map import KeyMap

GONE = "# gone: "
_OFFERED_HEAD = re.compile(r"^#\s*\[\[binding\]\]\s*$")
_OFFERED = re.compile(r'^#\s*setting = "([^"]+)"\s*$')
_OFFERED_KEY = re.compile(r'^#\s*key = (".*")\s*$')


class Update(NamedTuple):
    """text: the new file. added: proposals that were written; accepted: settings whose waiting block was made active.

    gone: settings whose key is not in the text any more; back: those whose key is there again.
    """

    text: str
    added: tuple[Proposal, ...]
    gone: tuple[str, ...]
    back: tuple[str, ...]
    accepted: tuple[str, ...] = ()


def beyond_map(suggestion: Suggestion, key_map: KeyMap) -> Suggestion:
    """The suggestion less all that a map says already: what it binds is neither proposed nor missing nor left over."""
    bound = {binding.setting for binding in key_map.bindings}
    names = {binding.name for binding in key_map.bindings} | {
        binding.key for binding in key_map.bindings if binding.section is None
    }
    return suggestion._replace(
        proposals=tuple(item for item in suggestion.proposals if _is_free(item, key_map)),
        missing=tuple(name for name in suggestion.missing if name not in bound),
        leftover=tuple(
            name for name in suggestion.leftover if name not in names and name.partition("] ")[2] not in names
        ),
    )


def waiting(suggestion: Suggestion, old: str) -> set[str]:
    """The settings of proposals whose very block stands in a map already, behind "# "."""
    offered = _offered(old)
    return {item.setting for item in suggestion.proposals if (item.setting, item.key) in offered}


def update_map(
    old: str,
    key_map: KeyMap,
    suggestion: Suggestion,
    keys: set[tuple[str, str]],
    accept_checks: bool,
    taken: Collection[str] = (),
) -> Update:
    """The old text with what is new in it. keys: every (section, key) of the settings text.

    taken: settings that a person has said yes to: a block of theirs that waits in the map is made active.
    """
    lines = old.split("\n")
    gone, back = _mark(lines, old, key_map, keys)
    free, offered = beyond_map(suggestion, key_map).proposals, _offered(old)
    added = [item for item in free if (item.setting, item.key) not in offered]
    accepted = [item.setting for item in free if item.setting in taken and item not in added and _open(lines, item)]
    text = "\n".join(lines).rstrip("\n") + "\n"
    for proposal in added:
        active = (proposal.certainty == SURE or accept_checks) and _can_be_active(
            proposal, key_map, added, accept_checks
        )
        text += "\n".join(["", *block_lines(proposal, active)]) + "\n"
    return Update(text if added else "\n".join(lines), tuple(added), tuple(gone), tuple(back), tuple(accepted))


def _open(lines: list[str], proposal: Proposal) -> bool:
    """Make the block of a proposal active that stands behind "# ". Returns whether it was found."""
    heads = [number for number, line in enumerate(lines) if _OFFERED_HEAD.match(line)]
    for head in heads:
        end = next((at for at in range(head + 1, len(lines)) if not re.match(r"#\s*\w+ = ", lines[at])), len(lines))
        if (proposal.setting, proposal.key) in _offered("\n".join(lines[head:end])):
            lines[head:end] = table_lines("[[binding]]", proposal.binding)
            return True
    return False


def _can_be_active(proposal: Proposal, key_map: KeyMap, added: Iterable[Proposal], accept_checks: bool) -> bool:
    """A share needs its reference in the map."""
    other = proposal.binding.get("relative_to")
    if not other or key_map.binding(str(other)) is not None:
        return True
    return any(item.setting == other and (item.certainty == SURE or accept_checks) for item in added)


def _is_free(proposal: Proposal, key_map: KeyMap) -> bool:
    """Whether a map binds neither the setting nor the key to something."""
    if key_map.binding(proposal.setting) is not None:
        return False
    return not any(
        binding.key == proposal.key
        and binding.section in (None, proposal.section or None)
        and (not binding.field or binding.field == proposal.place[2] or binding.split != proposal.binding.get("split"))
        for binding in key_map.bindings
    )


def _offered(old: str) -> set[tuple[str, str]]:
    """The (setting, key) of blocks that stand commented out in the map: they have been offered, and not been taken."""

    offered, setting = set(), ""
    for line in old.split("\n"):
        named = _OFFERED.match(line)
        key = _OFFERED_KEY.match(line)
        if named:
            setting = named[1]
        elif key and setting:
            try:
                offered.add((setting, json.loads(key[1])))
            except ValueError:
                continue
            setting = ""
    return offered


def _mark(lines: list[str], old: str, key_map: KeyMap, keys: set[tuple[str, str]]) -> tuple[list[str], list[str]]:
    """Write a remark below the header of each binding that finds no key, and take it away where the key is back."""
    heads = index_lines(old)
    plain = {key for _, key in keys}
    gone, back, edits = [], [], []
    for number, binding in enumerate(key_map.bindings):
        head = heads.get(("binding", number))
        if head is None:
            continue
        there = (binding.section, binding.key) in keys if binding.section is not None else binding.key in plain
        marked = head < len(lines) and lines[head].startswith(GONE)
        if not there and not binding.add:
            gone.append(binding.setting)
            if not marked:
                end = "\r" if lines[head - 1].endswith("\r") else ""
                edits.append((head, 0, [f"{GONE}the text has no such key any more{end}"]))
        elif there and marked:
            back.append(binding.setting)
            edits.append((head, 1, []))
    for at, drop, new in reversed(edits):
        lines[at : at + drop] = new
    return gone, back
