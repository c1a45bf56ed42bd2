"""A key map file to a KeyMap, or all of its mistakes in one run."""

from __future__ import annotations

from pathlib import PurePath

from profilesmith.foundation.comparison import Comparison, read_comparison
from profilesmith.foundation.digest import sha256_hex
from profilesmith.foundation.number import read_number
from profilesmith.foundation.problem import Problem, did_you_mean
from profilesmith.foundation.quantity import Unit, find_unit, unit_names
from profilesmith.foundation.toml_table import TomlTable, TooManyMistakes, parse_toml
from profilesmith.translation.check_key_map import check_key_map
from profilesmith.translation.key_map import FOLLOW, KEEP, WAYS, Binding, KeyMap
from profilesmith.translation.text_table import proposed_blocks, read_habits, read_marks
from profilesmith.vocabulary.setting import SEE_SETTINGS, Setting, Vocabulary

MOST_BINDINGS = 2000
ONLY_FOR = {"choices": "choice", "angle_from": "angle", "on": "switch", "off": "switch", "on_when": "switch"}
"""The kind of setting that a key of a binding is for."""
ZERO = "0"  # what turns a switch off that is a number, where the map does not say


def load_key_map(raw: bytes, name: str, vocabulary: Vocabulary) -> tuple[KeyMap | None, list[Problem]]:
    """Read and check a map from a file's bytes. name: the file as the user named it."""
    top, problems = parse_toml(raw, name, "key map")
    if top is None:
        return None, problems
    try:
        key_map = _read_map(top, name, vocabulary)
        bound = {binding.setting for binding in key_map.bindings}
        waiting = {
            name: place
            for name, place in proposed_blocks(raw).items()
            if name not in bound and name in vocabulary.settings
        }
        key_map = key_map._replace(sha256=sha256_hex(raw), proposed=waiting)
    except TooManyMistakes:
        return None, top.file.problems
    check_key_map(key_map, top.file)
    return (None if top.file.problems else key_map), top.file.problems


def _read_map(top: TomlTable, name: str, vocabulary: Vocabulary) -> KeyMap:
    head, text = top.table("keymap"), top.table("text")
    title, about, language = head.text("name", default=PurePath(name).stem), head.text("about"), head.text("language")
    not_bound = head.texts("not_bound") or ()
    head.done()
    on, off = text.text("on"), text.text("off")
    if bool(on) != bool(off):
        text.complain("half-switch", "[text] names only one of on and off.", "", "Name both, or neither.")
    decimal, thousands = read_marks(text)
    duplicates = text.text("duplicates")
    if duplicates not in ("", "first", "last"):
        text.complain(
            "duplicates", f"duplicates = {duplicates!r} is not known.", "duplicates", 'Write "first" or "last".'
        )
    habits = read_habits(text)
    separator = text.text("list", default=",")
    shares = _read_shares(text) or KEEP
    text.done()
    bindings = tuple(_read_binding(table, vocabulary, shares) for table in top.tables("binding"))
    top.done()
    if len(bindings) > MOST_BINDINGS:
        top.complain("too-many", f"The map has more than {MOST_BINDINGS} bindings.", "", "Bind each setting once.")
    return KeyMap(
        name=title,
        about=about,
        file=name,
        habits=habits,
        decimal=decimal,
        thousands=thousands,
        language=language,
        words=(on, off) if on else (),  # with one alone the map is refused
        list=separator,
        duplicates=duplicates,
        not_bound=not_bound,
        bindings=tuple(
            binding._replace(thousands=thousands) if thousands else binding
            for binding in bindings
            if binding is not None
        ),
    )


def _read_shares(table: TomlTable) -> str:
    """What becomes of shares; "" where the table does not say."""
    way = table.text("shares")
    if way and way not in WAYS:
        table.complain("shares", f"shares = {way!r} is not known.", "shares", 'Write "keep" or "follow".')
        return ""
    return way


def _read_binding(table: TomlTable, vocabulary: Vocabulary, shares: str) -> Binding | None:
    """shares: what ``[text]`` says of all of them."""
    name, key = table.text("setting", required=True), table.text("key", required=True)
    setting = vocabulary.settings.get(name)
    if name and setting is None:
        hint = did_you_mean(name, vocabulary.settings, SEE_SETTINGS)
        table.complain("unknown-setting", f"The setting {name!r} is not in the vocabulary.", "setting", hint)
    if setting is None or not key:
        return None
    relative_to, relative_key = table.text("relative_to"), table.text("relative_key")
    angle_from = table.text("angle_from")
    if angle_from not in ("", "horizontal", "vertical"):
        table.complain("angle", f"angle_from = {angle_from!r} is not known.", "angle_from", 'Write "horizontal".')
    split, separator = table.text("split"), table.text("list")
    field = table.whole("field") or 0
    on_when = _read_on_when(table)
    binding = Binding(
        setting=name,
        kind=setting.kind,
        key=key,
        place=table.file.place(table.path),
        section=table.text("section") if table.has("section") else None,
        unit=_read_unit(table, setting, bool(relative_to or relative_key)),
        from_horizontal=angle_from == "horizontal",
        relative_to=relative_to,
        relative_key=relative_key,
        choices=_read_choices(table, setting),
        on=_switch_texts(table, "on"),
        off=_switch_texts(table, "off") or ((ZERO,) if on_when else ()),
        on_when=on_when,
        split=split,
        field=field,
        tools=table.flag("tools"),
        list=separator,
        add=table.flag("add"),
        follows=(_read_shares(table) or shares) == FOLLOW,
    )
    table.done()
    _check_fit(table, binding, setting, vocabulary)
    return binding


def _read_unit(table: TomlTable, setting: Setting, relative: bool) -> Unit | None:
    text = table.text("unit")
    if not text:
        return None
    unit = find_unit(text)
    kinds = (setting.kind, "ratio") if relative else (setting.kind,)
    if unit is None or unit.kind not in kinds:
        names = ", ".join(name for kind in kinds for name in unit_names(kind)) or "none"
        table.complain(
            "unit-kind",
            f"The unit {text!r} does not measure {setting.id}, a {setting.kind}.",
            "unit",
            f"Units that do: {names}.",
        )
        return None
    return unit


def _read_choices(table: TomlTable, setting: Setting) -> dict[str, tuple[str, ...]]:
    inner = table.table("choices")
    choices: dict[str, tuple[str, ...]] = {}
    for word, _ in inner.entries():
        if setting.values and word not in setting.values:
            hint = did_you_mean(word, setting.values, f"It is one of {', '.join(setting.values)}.")
            inner.complain("unknown-choice", f"{word!r} is no choice of {setting.id}.", word, hint)
        texts = inner.texts(word)
        if texts:
            choices[word] = tuple(unquoted(text) for text in texts)
    return choices


def unquoted(text: str) -> str:
    """A text of a map without the quotes that the settings text has around it: those are kept in any case."""
    return text[1:-1] if len(text) > 2 and text[0] == text[-1] and text[0] in "\"'" else text


def _switch_texts(table: TomlTable, key: str) -> tuple[str, ...]:
    return tuple(unquoted(text) for text in table.texts(key) or ())


def _read_on_when(table: TomlTable) -> Comparison | None:
    text = table.text("on_when")
    if not text:
        return None
    comparison = read_comparison(text)
    if comparison is None or read_number(comparison.operand) is None:
        table.complain("on-when", f"on_when = {text!r} is no comparison with a number.", "on_when", 'Write "> 0".')
        return None
    return comparison


def _check_fit(table: TomlTable, binding: Binding, setting: Setting, vocabulary: Vocabulary) -> None:
    """What a binding says that its setting's kind has no use for."""
    for key in table.content:
        if ONLY_FOR.get(key, setting.kind) != setting.kind:
            message = f"{key!r} is for a {ONLY_FOR[key]}; {setting.id} is a {setting.kind}."
            table.complain("no-use", message, key, f"Drop {key}.")
    if binding.is_relative and not setting.is_number:
        table.complain("no-use", f"{setting.id} is a {setting.kind}: it cannot be relative.", "", "Drop relative_to.")
    if table.has("shares") and not binding.relative_to:
        message = f"{setting.id} has no relative_to: nothing that moves."
        table.complain("no-use", message, "shares", "Drop shares.")
    if binding.is_relative and setting.kind == "temperature":
        message = f"{setting.id} is a temperature: a share of one says nothing, since its zero is arbitrary."
        table.complain("no-use", message, "", "Drop relative_to.")
    other = vocabulary.settings.get(binding.relative_to)
    if binding.relative_to and other is None:
        hint = did_you_mean(
            binding.relative_to, vocabulary.settings, "A key that is no setting goes into relative_key."
        )
        table.complain("unknown-setting", f"The setting {binding.relative_to!r} is not known.", "relative_to", hint)
    elif other is not None and other.kind != setting.kind:
        table.complain(
            "relative-kind",
            f"{setting.id} is a {setting.kind}, {other.id} a {other.kind}.",
            "relative_to",
            "A share must be of the same kind.",
        )
