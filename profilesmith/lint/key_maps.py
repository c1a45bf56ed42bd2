"""K11x: what a key map should say besides what its loader asks for."""

from collections.abc import Iterator

from profilesmith.foundation.quantity import unit_names
from profilesmith.lint.rule import Fault, LintRule
from profilesmith.lint.subjects import KeyMapFile


def _about(file: KeyMapFile) -> Iterator[Fault]:
    if not file.key_map.about.strip():
        yield Fault("The map does not say which text it is for.", file.lines.get(("keymap",)))


def _unit(file: KeyMapFile) -> Iterator[Fault]:
    for binding in file.key_map.bindings:
        units = unit_names(binding.kind)
        if units and binding.unit is None and not (binding.relative_to or binding.relative_key):
            names = ", ".join(units)
            yield Fault(
                f"{binding.setting} is a {binding.kind}, and its binding names no unit.",
                binding.place.line,
                f"Add unit: {names}.",
            )


def _file_name(file: KeyMapFile) -> Iterator[Fault]:
    if file.key_map.name != file.path.stem:
        yield Fault(
            f"The map is called {file.key_map.name!r}, its file {file.path.name!r}.", file.lines.get(("keymap", "name"))
        )


RULES = (
    LintRule(
        "K110",
        "hint",
        "The map says which text it is for",
        "A newcomer must know whether a map is for the text that they have.",
        'Add about = "..." to [keymap].',
        _about,
    ),
    LintRule(
        "K111",
        "hint",
        "Every binding names its unit",
        "A bare number says nothing: 60 may be mm/s or mm/min. Without a unit the usual one is supposed.",
        "Add the unit that the text means.",
        _unit,
    ),
    LintRule(
        "K112",
        "hint",
        "The map is called like its file",
        "People ask for the file's name and reviews show the map's.",
        "Rename the file or the map.",
        _file_name,
    ),
)
