"""``troubles.toml``, and what clubs add to it, to Knowledge; all mistakes with their lines."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import cache
from typing import get_args

from profilesmith.foundation.package_data import package_text
from profilesmith.foundation.problem import Problem, did_you_mean
from profilesmith.foundation.quantity import read_quantity
from profilesmith.foundation.toml_table import TomlTable, TooManyMistakes, parse_toml
from profilesmith.mend.troubles import Doing, Knowledge, Sign, Trouble, TroubleCause, Usual
from profilesmith.recipe.read_condition import read_conditions
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import SEE_SETTINGS, Setting, Unreadable, Vocabulary, read_value

LANGUAGES = {"words": "en", "de": "de", "fr": "fr"}
USUAL: tuple[str, ...] = get_args(Usual)
FILE = "troubles.toml"


@cache
def shipped_troubles() -> Knowledge:
    """What ships. It is ours and tested, so a mistake in it is a fault."""
    known, problems = parse_troubles(
        [(package_text(f"knowledge/{FILE}").encode(), f"shipped/{FILE}")], load_vocabulary()
    )
    if problems:
        raise ValueError(str(problems[0]))
    return known


def parse_troubles(
    files: Iterable[tuple[bytes, str]], vocabulary: Vocabulary, before: Knowledge | None = None
) -> tuple[Knowledge, list[Problem]]:
    """Files (bytes, name) added up, in order. before: what they add to; a trouble's further causes come after its own.

    Names of signs and doings may be said in any of the files, or before.
    """
    problems: list[Problem] = []
    tables = []
    for raw, name in files:
        top, faults = parse_toml(raw, name, "troubles file")
        problems += faults if top is None else []
        tables += [top] if top is not None else []
    known = before or Knowledge({}, {}, {})
    signs, doings = dict(known.signs), dict(known.doings)
    troubles = dict(known.troubles)
    try:
        for top in tables:
            signs |= {sign.name: sign for table in top.tables("sign") if (sign := _sign(table))}
            doings |= {doing.name: doing for table in top.tables("doing") if (doing := _doing(table))}
        for top in tables:
            reader = _Reader(vocabulary, set(signs), set(doings))
            for table in top.tables("trouble"):
                _add(troubles, reader.trouble(table, troubles))
            top.done()
    except TooManyMistakes:
        pass
    problems += [problem for top in tables for problem in top.file.problems]
    return Knowledge(troubles, signs, doings), problems


def _add(troubles: dict[str, Trouble], trouble: Trouble | None) -> None:
    if trouble is None:
        return
    known = troubles.get(trouble.name)
    if known is None:
        troubles[trouble.name] = trouble
        return
    words = {key: (*known.words.get(key, ()), *trouble.words.get(key, ())) for key in LANGUAGES.values()}
    troubles[trouble.name] = known._replace(causes=(*known.causes, *trouble.causes), words=words)


def _sign(table: TomlTable) -> Sign | None:
    name, ask = table.text("name", required=True), table.text("ask", required=True)
    table.done()
    return Sign(name, ask) if name and ask else None


def _doing(table: TomlTable) -> Doing | None:
    name, how = table.text("name", required=True), table.text("how", required=True)
    caution, usual = table.text("caution"), table.text("usual", "usual")
    if usual not in USUAL:
        table.complain("word", f"usual is {usual!r}.", "usual", f"Write one of {', '.join(USUAL)}.")
        return None
    table.done()
    return Doing(name, how, caution, usual) if name and how else None  # type: ignore[arg-type]


class _Reader:
    """Reads troubles; knows which settings, signs and doings there are."""

    def __init__(self, vocabulary: Vocabulary, signs: set[str], doings: set[str]) -> None:
        self.vocabulary, self.signs, self.doings = vocabulary, signs, doings

    def trouble(self, table: TomlTable, known: dict[str, Trouble]) -> Trouble | None:
        name = table.text("name", required=True)
        looks = table.text("looks", required=name not in known)
        words = {language: table.texts(key) or () for key, language in LANGUAGES.items()}
        judged = table.text("judged")
        causes = tuple(cause for item in table.tables("cause") if (cause := self.cause(item)))
        if not table.has("cause"):
            table.complain("no-cause", f"{name!r} has no cause.", "", "Add a [[trouble.cause]].")
        table.done()
        return Trouble(name, looks, causes, words, judged, table.file.place(table.path)) if name else None

    def cause(self, table: TomlTable) -> TroubleCause | None:
        what, why, source = (table.text(key, required=True) for key in ("what", "why", "source"))
        do, setting = table.text("do"), table.text("setting")
        signs = [self.known(table, key, self.signs, "sign") for key in ("for", "against")]
        cause = TroubleCause(
            what,
            why,
            source,
            do=do,
            setting=setting,
            speaks_for=signs[0],
            speaks_against=signs[1],
            when=read_conditions(table, {}),
            costs=table.text("costs"),
            place=table.file.place(table.path),
        )
        if bool(do) == bool(setting):
            table.complain("one-mend", "A cause is mended by do or by a setting.", "", "Write one of the two.")
            return None
        if do:
            self.known(table, "do", self.doings, "doing")
            table.done()
            return cause
        return self.moved(table, cause)

    def known(self, table: TomlTable, key: str, names: set[str], word: str) -> tuple[str, ...]:
        words = table.texts(key) or ()
        for name in words:
            if name not in names:
                hint = did_you_mean(name, names, f"Add a [[{word}]] of that name.")
                table.complain(f"unknown-{word}", f"The {word} {name!r} is not known.", key, hint)
        return words

    def moved(self, table: TomlTable, cause: TroubleCause) -> TroubleCause | None:
        """The cause with its setting's step, or the value that it is set to."""
        setting = self.setting(table, cause.setting, "setting")
        along = table.texts("along") or ()
        others = [self.setting(table, name, "along") for name in along]
        direction, to = table.text("direction"), table.text("to")
        step_text, most_text = table.text("step"), table.text("most")
        table.done()
        if setting is None or None in others:
            return None
        if not setting.is_number:
            value = read_value(setting, to)
            if isinstance(value, Unreadable) or (setting.values and to not in setting.values):
                hint = f'Write to = "{"on" if setting.kind == "switch" else setting.values[0]}".'
                table.complain("to", f"{setting.id} is not set to {to!r}.", "to", hint)
                return None
            return cause._replace(to=value)
        if direction not in ("up", "down"):
            table.complain("direction", f"The direction {direction!r} is none.", "direction", "Write up or down.")
            return None
        step, most = (self.width(table, setting, key, text) for key, text in (("step", step_text), ("most", most_text)))
        if step is None or most is None:
            return None
        if most < step:
            table.complain("most", "The most is less than a step.", "most", "Write a whole number of steps.")
        return cause._replace(direction=direction, step=step, most=most, along=along)  # type: ignore[arg-type]

    def setting(self, table: TomlTable, name: str, key: str) -> Setting | None:
        setting = self.vocabulary.settings.get(name)
        if setting is None:
            table.complain(
                "unknown-setting",
                f"The setting {name!r} is not known.",
                key,
                did_you_mean(name, self.vocabulary.settings, SEE_SETTINGS),
            )
        return setting

    def width(self, table: TomlTable, setting: Setting, key: str, text: str) -> Fraction | None:
        value = read_quantity(text, setting.kind, difference=True)
        if isinstance(value, str) or value <= 0:
            reason = value if isinstance(value, str) else f"{text!r} is no step"
            table.complain("step", f"{key}: {reason}.", key, f"Write {key} as a difference of {setting.kind}, above 0.")
            return None
        return value
