"""What is wrong with a map and a text together."""

from collections.abc import Mapping

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, nearest
from profilesmith.profile.profile import Absent
from profilesmith.text.codec import seems_to_be
from profilesmith.text.document import Document
from profilesmith.translation.find_keys import KeyIndex
from profilesmith.translation.key_map import Binding, KeyMap
from profilesmith.translation.spot import Spot


def dividing(spots: Mapping[str, Spot], key_map: KeyMap, index: KeyIndex, decimal: str) -> list[Problem]:
    """Lists that are divided by what was found to be the decimal mark."""
    problems = []
    for spot in spots.values():
        binding = spot.binding
        if (
            binding.tools
            and (binding.list or key_map.list) in ({decimal} - {key_map.decimal}) | ({key_map.thousands} - {""})
            and binding.kind not in ("switch", "choice")
        ):
            sign = binding.list or key_map.list
            message = f"{binding.key!r} is divided by {sign!r}, which is this text's decimal mark as well."
            if sign == key_map.thousands:
                message = f"{binding.key!r} is divided by {sign!r}, which groups the digits of its numbers as well."
            hint = "Say decimal = ... in the map's [text], or another list = ... for this key."
            problems.append(Problem("decimal-divides", message, index.place(spot.lines[0]), hint))
    return problems


def meeting(
    spots: Mapping[str, Spot],
    key_map: KeyMap,
    documents: tuple[Document, ...],
    sharers: Mapping[str, tuple[Binding, ...]],
) -> list[Problem]:
    """Bindings that mean the same place in this text, though the map names it differently. sharers: of one key, by
    setting.
    """
    problems: list[Problem] = []
    owners: dict[tuple[int, int], Binding] = {}
    for spot in spots.values():
        number, line = spot.lines[0]
        for span in spot.spans:
            other = owners.setdefault((number, line.start + span.start), spot.binding)
            if (
                other is spot.binding
                or key_map.number_of(spot.binding) is other
                or key_map.number_of(other) is spot.binding
                or other in sharers.get(spot.binding.setting, ())
            ):
                continue
            message = f"One line is bound to both {other.setting} and {spot.binding.setting}: {spot.binding.key!r}."
            hint = f"Say the section of each in the map ({other.place} and {spot.binding.place})."
            problems.append(Problem("key-twice", message, Place(documents[number].name, line.line), hint))
    return problems


def missing(binding: Binding, index: KeyIndex) -> Absent:
    """Why a binding finds no key: another section has it, or the nearest key there is."""
    section = binding.section or ""
    others = {line.assignment.section for line in index.find(binding.key, None)}
    if others:
        return Absent("key elsewhere", (binding.key, section, *sorted(others)))
    return Absent("key missing", (binding.key, section, nearest(binding.key, index.keys())))


def wrong_map(documents: tuple[Document, ...], key_map: KeyMap, index: KeyIndex) -> Problem:
    wanted = ", ".join(binding.name for binding in key_map.bindings[:5])
    there = ", ".join(list(index.keys())[:5]) or "none"
    names = ", ".join(document.name for document in documents)
    kinds = [kind for document in documents if (kind := seems_to_be(document.codec.encode(document.text)))]
    if kinds:
        message = f"This is no settings text: it seems to be {kinds[0]}."
        return Problem("wrong-map", message, Place(names), "Export the settings as text, one key = value a line.")
    message = f"The map {key_map.name!r} finds none of its keys here. It looks for {wanted}; the text has {there}."
    return Problem("wrong-map", message, Place(names), _other_map_hint(key_map, index))


def _other_map_hint(key_map: KeyMap, index: KeyIndex) -> str:
    """What to do with a map that finds nothing: the key that is spelled most alike first."""
    hint = "Use the map that was made for this text, or have one proposed by 'keymap suggest'."
    for binding in key_map.bindings[:5]:
        near = nearest(binding.key, index.keys())
        if near:
            return f'Write key = "{near}" for {binding.key!r}, if that is meant. {hint}'
    return hint


def only_proposed(key_map: KeyMap) -> dict[str, Absent]:
    """The settings whose blocks wait in the map for a person."""
    return {
        setting: Absent("only proposed", (key, f"{key_map.file}:{line}"))
        for setting, (key, line) in key_map.proposed.items()
    }
