"""Strict, typed reading of our own TOML files: every mistake of a file in one run, each with its line.

Comes in: a file's bytes and its name. Goes out: a ``TomlTable`` to take typed values from, and a list of problems.
What is not taken is unknown, and refused with the nearest known name.
"""

from __future__ import annotations

from codecs import BOM_UTF8
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Any

from profilesmith.foundation import toml_reader
from profilesmith.foundation.binary_file import kind_of_file
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, nearest
from profilesmith.foundation.toml_lines import header_lines, index_lines, key_line, line_of
from profilesmith.foundation.toml_mistakes import (
    LARGEST_FILE,
    MOST_PARTS,
    another_kind,
    broken_line,
    empty_file,
    most_parts,
    out_of_bounds,
)

MOST_MISTAKES = 200  # of one file: nobody reads more, and each looks for the nearest known word


class TooManyMistakes(Refused):
    """A file has more mistakes than are worth telling. Loaders catch it and hand back those that were found."""


class TomlFile:
    """One parsed file, and where its entries stand.

    The lines are indexed once, when a place is first asked for. Rules, bindings and facts, each of which keeps its
    place, are mostly found without.
    """

    def __init__(self, name: str, text: str, content: Mapping[str, Any] = MappingProxyType({})) -> None:
        self.name = name
        self.text = text
        self.content = content
        self.problems: list[Problem] = []
        self.lines: dict[tuple[str | int, ...], int] | None = None
        self.headers: dict[str | int, tuple[int, ...]] = {}

    def place(self, path: tuple[str | int, ...]) -> Place:
        return Place(self.name, self._plain_line(path) or self._line(path), path_text(path))

    def _plain_line(self, path: tuple[str | int, ...]) -> int:
        """The line of a table in an array of tables, or of a key in a table; 0 where the index has to be asked."""
        if self.lines is not None or len(path) != 2:
            return 0
        key = str(path[0])
        if not isinstance(path[1], int):
            return key_line(self.text, key, path[1])
        if key not in self.headers:
            self.headers[key] = header_lines(self.text, key, len(self.content.get(key, ())))
        return self.headers[key][path[1]] if self.headers[key] else 0

    def _line(self, path: tuple[str | int, ...]) -> int | None:
        if self.lines is None:
            self.lines = index_lines(self.text)
        return line_of(self.lines, path)


def path_text(path: tuple[str | int, ...]) -> str:
    """``("rule", 2, "cap")`` as ``rule 3, cap``: people count from one."""
    words: list[str] = []
    for step in path:
        if isinstance(step, int) and words:
            words[-1] += f" {step + 1}"
        else:
            words.append(str(step))
    return ", ".join(words)


class TomlTable:
    """A table that is read by naming what is expected of it."""

    def __init__(self, file: TomlFile, content: dict[str, Any], path: tuple[str | int, ...] = ()) -> None:
        self.file, self.content, self.path = file, content, path
        self.taken: set[str] = set()

    def complain(
        self, code: str, message: str, key: str = "", hint: str = "", meant: str = "", missing: str = ""
    ) -> None:
        """missing: a key that is not there, so that the mistake stands at the table."""
        path = (*self.path, key) if key else self.path
        problem = Problem(code, message, self.file.place(path), hint, meant=meant, key=key or missing)
        self.file.problems.append(problem)
        if len(self.file.problems) >= MOST_MISTAKES:
            message = f"There are {MOST_MISTAKES} mistakes; the rest is not looked at."
            self.file.problems.append(Problem("too-many-mistakes", message, Place(self.file.name), "Mend these first."))
            raise TooManyMistakes(self.file.problems)

    def has(self, key: str) -> bool:
        return key in self.content

    def raw(self, key: str) -> Any:
        self.taken.add(key)
        return self.content.get(key)

    def _typed(self, key: str, kinds: type | tuple[type, ...], word: str, required: bool) -> Any:
        self.taken.add(key)
        value = self.content.get(key)
        if value is None:
            if required:
                line = f"Add a [{key}] table." if kinds is dict else f"Add {key} = {_sample(kinds, key)} here."
                self.complain("missing", f"{key!r} is missing.", hint=line, missing=key)
            return None
        if not isinstance(value, kinds) or (isinstance(value, bool) and bool not in _tuple(kinds)):
            hint = f"Write {key} as {word}." if kinds is not str else f"Write {key} = {_quoted(value)}."
            self.complain("wrong-type", f"{key!r} must be {word}, not {_kind(value)}.", key, hint)
            return None
        return value

    def text(self, key: str, default: str = "", required: bool = False) -> str:
        value = self.content.get(key)
        if not required and (value is None or isinstance(value, str)):  # as mostly
            self.taken.add(key)
            return default if value is None else value
        value = self._typed(key, str, "a text in quotes", required)
        if required and value is not None and not value.strip():
            self.complain("empty", f"{key!r} is empty.", key, f"Write something into {key}.")
        return default if value is None else value

    def flag(self, key: str, default: bool = False) -> bool:
        value = self._typed(key, bool, "true or false", False)
        return default if value is None else value

    def whole(self, key: str, required: bool = False) -> int | None:
        value = self._typed(key, int, "a whole number", required)
        return None if value is None else int(value)

    def texts(self, key: str, required: bool = False) -> tuple[str, ...] | None:
        """A text or a list of texts; None when absent."""
        value = self._typed(key, (str, list), "a text or a list of texts", required)
        if value is None or isinstance(value, str):
            return None if value is None else (value,)
        if not all(isinstance(item, str) for item in value):
            self.complain("wrong-type", f"{key!r} must hold texts only.", key, "Put every entry in quotes.")
            return None
        return tuple(value)

    def table(self, key: str, required: bool = False) -> TomlTable:
        """The table below ``key``; an empty one when absent."""
        value = self._typed(key, dict, "a table", required)
        return TomlTable(self.file, value or {}, (*self.path, key))

    def tables(self, key: str) -> Iterator[TomlTable]:
        """The tables of an array ``[[key]]``."""
        value = self._typed(key, list, f"an array of tables [[{key}]]", False) or []
        for number, item in enumerate(value):
            if isinstance(item, dict):
                yield TomlTable(self.file, item, (*self.path, key, number))
            else:
                self.complain("wrong-type", f"{key!r} must be an array of tables.", key, f"Write [[{key}]].")

    def entries(self) -> Iterator[tuple[str, Any]]:
        """All keys and values, for tables whose keys are free names."""
        for key, value in self.content.items():
            self.taken.add(key)
            yield key, value

    def done(self) -> None:
        """Complain about every key that nobody asked for."""
        for key in self.content:
            if key not in self.taken:
                meant = nearest(key, self.taken)
                hint = f"Did you mean {meant!r}?" if meant else f"Known here: {', '.join(sorted(self.taken))}."
                self.complain("unknown-key", f"The key {key!r} is not known.", key, hint, meant)


def _sample(kinds: type | tuple[type, ...], key: str) -> str:
    return "1" if kinds is int else '"1.0.0"' if key == "version" else '"..."'


def _quoted(value: object) -> str:
    """What somebody wrote without quotes, in quotes; a sample where that is long or no single value."""
    text = str(value).lower() if isinstance(value, bool) else str(value)
    return f'"{text}"' if isinstance(value, (int, float)) and len(text) < 20 else '"..."'


def _tuple(kinds: type | tuple[type, ...]) -> tuple[type, ...]:
    return kinds if isinstance(kinds, tuple) else (kinds,)


def _kind(value: object) -> str:
    words = {str: "a text", bool: "true/false", int: "a number", float: "a number", list: "a list", dict: "a table"}
    return words.get(type(value), "a date or time")


def parse_toml(
    raw: bytes, name: str, form: str, newest: int = 1, go_on: bool = False
) -> tuple[TomlTable | None, list[Problem]]:
    """Read a file of ours from its bytes. ``form``: the word for it ("recipe"); ``newest``: the format this version
    knows.

    go_on: hand out the table of a file that does not say its format, too, with that problem.
    """
    if len(raw) > LARGEST_FILE:
        message = f"The {form} is larger than {LARGEST_FILE:,} bytes."
        return None, [Problem("too-large", message, Place(name), f"A {form} is a page or two of TOML.")]
    try:
        text = raw.removeprefix(BOM_UTF8).decode()  # the codec that does it is a library of its own
        if most_parts(text) > MOST_PARTS:
            raise RecursionError
        content = toml_reader.loads(text)
    except UnicodeDecodeError:
        return None, [_no_text(raw, name, form)]
    except toml_reader.TOMLDecodeError as error:
        return None, [broken_line(text, name, form, str(error))]
    except ValueError:  # a whole number of more digits than Python reads
        return None, [Problem("toml", f"The {form} holds a number that is far too long.", Place(name), "Shorten it.")]
    except RecursionError:
        return None, [Problem("too-deep", f"The {form} is nested too deeply.", Place(name), "Flatten it.")]
    odd = out_of_bounds(content, name, form) or (another_kind if content else empty_file)(content, name, form)
    if odd is not None:
        return None, [odd]
    table = TomlTable(TomlFile(name, text, content), content)
    _check_format(table, form, newest)
    if table.file.problems and not (go_on and not table.has("format")):
        return None, table.file.problems
    return table, table.file.problems


def _no_text(raw: bytes, name: str, form: str) -> Problem:
    kind = kind_of_file(raw)
    if kind:
        return Problem("not-utf8", f"This is no {form}: it seems to be {kind}.", Place(name), "Name another file.")
    return Problem("not-utf8", f"The {form} is not UTF-8 text.", Place(name), "Save it as UTF-8.")


def _check_format(table: TomlTable, form: str, newest: int) -> None:
    number = table.whole("format", required=True)
    if number is not None and number > newest:
        table.complain(
            "newer-format",
            f"The {form} has format {number}; this version reads up to {newest}.",
            "format",
            "Update profilesmith.",
        )
    elif number is not None and number < 1:
        table.complain("wrong-format", f"The format {number} does not exist.", "format", "Write format = 1.")
