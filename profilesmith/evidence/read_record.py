"""One line of an evidence file to a Record, or all of its mistakes. The line is a stranger's: everything is bounded."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Mapping
from typing import Any

from profilesmith.evidence.line_members import line_members
from profilesmith.evidence.read_tried_mends import read_mends, read_seen
from profilesmith.evidence.record import FORMAT, JUDGED, MOTION, OUTCOMES, Record, Values
from profilesmith.evidence.withdrawal import Withdrawal
from profilesmith.facts.facts import fact_kinds, out_of_range, read_fact, why_not
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, did_you_mean
from profilesmith.ledger.history import GRADES
from profilesmith.recipe.load_recipe import VERSION
from profilesmith.vocabulary.setting import Unreadable, Vocabulary, read_value

LONGEST_NOTE, LONGEST_NAME, LONGEST_VALUE, MOST_TOOLS = 400, 80, 80, 64
NEEDED = ("format", "id", "date", "recipe", "version", "outcome", "judged", "facts", "values", "mark")
WITHDRAWS = ("format", "id", "date", "recipe", "withdraws", "why", "mark")
FREE = ("together", "by_hand", "motion", "seen", "mends", "note", "by")
MOST_RECIPES = 32
DAY = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)
MARK = re.compile(r"[0-9a-f]{8}")
ID = re.compile(r"[0-9a-f]{16}")
# Control characters, line ends and marks that turn the direction of a text.
UNSEEN = re.compile("[\x00-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ud800-\udfff]")
# Facts in the user's own words: only a machine's name, which is nobody's business, and a material, known by name.
FACTS_OF = ("machine.", "spool.")
NO_FACTS = ("machine.name",)


def allowed_facts() -> tuple[str, ...]:
    """The facts that a record may hold."""
    return tuple(name for name in fact_kinds() if name.startswith(FACTS_OF) and name not in NO_FACTS)


def read_record(line: str, place: Place, vocabulary: Vocabulary) -> tuple[Record | Withdrawal | None, list[Problem]]:
    """Read a line strictly: a print, or that one counts no more."""
    data = line_members(line, place)
    if isinstance(data, Problem):
        return None, [data]
    reader = _RecordReader(data, place, vocabulary)
    record = reader.withdrawal() if "withdraws" in data else reader.record()
    return (None if reader.problems else record), reader.problems


class _RecordReader:
    def __init__(self, data: dict[str, Any], place: Place, vocabulary: Vocabulary) -> None:
        self.data, self.place, self.vocabulary = data, place, vocabulary
        self.problems: list[Problem] = []

    def complain(self, code: str, member: str, message: str, hint: str = "") -> None:
        self.problems.append(Problem(code, message, self.place._replace(path=member), hint))

    def withdrawal(self) -> Withdrawal | None:
        if not self.shape(WITHDRAWS, ("by",)):
            return None
        withdraws, why = self.text("withdraws", ID.fullmatch), self.text("why", longest=LONGEST_NOTE)
        day, recipe, mark = self.text("date", self.day), self.text("recipe"), self.text("mark", MARK.fullmatch)
        withdrawn = Withdrawal(day, recipe, withdraws, why, mark, self.text("by"), self.place)
        self.hold_id(withdrawn.id)
        return withdrawn

    def record(self) -> Record | None:
        if not self.shape(NEEDED, FREE):
            return None
        record = Record(
            date=self.text("date", self.day),
            recipe=self.text("recipe"),
            version=self.text("version", VERSION.fullmatch),
            outcome=self.one_of("outcome", OUTCOMES),
            judged=self.judged(),
            facts=self.facts(),
            values=self.values(),
            mark=self.text("mark", MARK.fullmatch),
            note=self.text("note", longest=LONGEST_NOTE),
            by=self.text("by"),
            place=self.place,
            together=self.together(),
            by_hand=self.by_hand(),
            motion=self.one_of("motion", MOTION) if "motion" in self.data else "",
            seen=read_seen("seen", self.data["seen"], self, self.complain) if "seen" in self.data else {},
            mends=read_mends(self.data["mends"], self, self.complain) if "mends" in self.data else (),
        )
        self.hold_id(record.id)
        return record

    def hold_id(self, wanted: str) -> None:
        if not self.problems and self.data["id"] != wanted:
            hint = "Put the record back as it was, or add a new one with 'profilesmith evidence add'."
            self.complain("id", "id", "The id does not fit the record: it was changed since it was written.", hint)

    def shape(self, needed: tuple[str, ...], free: tuple[str, ...]) -> bool:
        """Whether the format is ours; every member that lacks or is not known is told."""
        kind = self.data.get("format")
        if type(kind) is int and kind > FORMAT:
            self.complain(
                "newer-format",
                "format",
                "The record has a newer format than this version reads.",
                "Update profilesmith.",
            )
            return False
        if type(kind) is not int or kind < 1:
            self.complain("wrong-format", "format", "The record does not say its format.", f'Write "format": {FORMAT}.')
            return False
        for key in needed:
            if key not in self.data:
                self.complain("missing", key, f"{key!r} is missing.", "Write records with 'profilesmith evidence add'.")
        known = (*needed, *free)
        for key in (key for key in self.data if key not in known):
            name = key[:LONGEST_NAME]
            hint = did_you_mean(name, known, f"Known: {', '.join(known)}.")
            self.complain("unknown-key", "", f"The member {name!r} is not known.", hint)
        return not self.problems

    def text(self, key: str, fits: Callable[[str], object] | None = None, longest: int = LONGEST_NAME) -> str:
        """A text; "" when it is absent or wrong."""
        value = self.data.get(key, "")
        if not isinstance(value, str):
            self.complain("wrong-type", key, f"{key!r} must be a text.")
        elif len(value) > longest:
            self.complain("too-long", key, f"{key!r} is longer than {longest} characters.", "Shorten it.")
        elif UNSEEN.search(value):
            self.complain(
                "control", key, f"{key!r} holds a character that cannot be seen.", "Write plain text on one line."
            )
        elif (fits is not None and not fits(value)) or (not value.strip() and key in self.data):
            self.complain("value", key, f"{value!r} is no {key}.")
        else:
            return value
        return ""

    def name(self, text: object) -> bool:
        """Whether it is a name as people give them."""
        return isinstance(text, str) and bool(text.strip()) and len(text) <= LONGEST_NAME and not UNSEEN.search(text)

    def day(self, text: str) -> bool:
        try:
            return bool(DAY.fullmatch(text)) and bool(datetime.date.fromisoformat(text))
        except ValueError:
            return False

    def one_of(self, key: str, words: tuple[Any, ...]) -> Any:
        value = self.data.get(key)
        if not isinstance(value, str) or value not in words:
            self.complain("value", key, f"{key!r} must be one of {', '.join(words)}.")
            return words[-1]
        return value

    def table(self, key: str, known: Mapping[str, Any] | tuple[str, ...]) -> dict[str, Any]:
        """An object with known members only."""
        value = self.data[key]
        if not isinstance(value, dict):
            self.complain("wrong-type", key, f"{key!r} must be an object.")
            return {}
        for name in value:
            if name not in known:
                self.complain(
                    "unknown-key",
                    key,
                    f"{name[:LONGEST_NAME]!r} is not known in {key!r}.",
                    did_you_mean(name[:LONGEST_NAME], known, f"Known here: {', '.join(known)}."),
                )
        return {name: item for name, item in value.items() if name in known}

    def judged(self) -> dict[str, Any]:
        grades = self.table("judged", tuple(JUDGED))
        for name, grade in grades.items():
            if grade not in GRADES:
                self.complain("value", f"judged, {name}", f"{name!r} must be one of {', '.join(GRADES)}.")
        return grades

    def together(self) -> dict[str, str]:
        """The other recipes of the print. An empty object is left out, so that a record has one spelling."""
        versions = self.data.get("together", {})
        if (
            not isinstance(versions, dict)
            or not len(versions) <= MOST_RECIPES
            or ("together" in self.data and not versions)
        ):
            self.complain(
                "value", "together", f"'together' must be an object of 1 to {MOST_RECIPES} recipes and versions."
            )
            return {}
        for name, version in versions.items():
            if not self.name(name):
                self.complain("value", "together", f"{name[:LONGEST_NAME]!r} is no recipe's name.")
            elif not isinstance(version, str) or len(version) > LONGEST_NAME or not VERSION.fullmatch(version):
                self.complain("value", "together", f"{str(version)[:LONGEST_NAME]!r} is no version.")
        return versions

    def by_hand(self) -> tuple[str, ...]:
        """The settings that were edited."""
        names = self.data.get("by_hand", [])
        if not isinstance(names, list) or ("by_hand" in self.data and not names):
            self.complain("value", "by_hand", "'by_hand' must be a list of settings.")
            return ()
        for name in names:
            if not isinstance(name, str) or name not in self.vocabulary.settings:
                self.complain("value", "by_hand", f"{str(name)[:LONGEST_NAME]!r} is no setting.")
        if len({str(name) for name in names}) < len(names):
            self.complain("value", "by_hand", "'by_hand' names a setting twice.")
        return tuple(names)

    def short(self, path: str, value: Any) -> bool:
        """Whether a value is a text that can be looked at further."""
        if isinstance(value, str) and 0 < len(value) <= LONGEST_VALUE and not UNSEEN.search(value):
            return True
        self.complain(
            "value", path, f"The value must be a text of 1 to {LONGEST_VALUE} characters.", 'Such as "40 mm/s".'
        )
        return False

    def facts(self) -> dict[str, str]:
        texts = self.table("facts", allowed_facts())
        for name, text in texts.items():
            if not self.short(f"facts, {name}", text):
                continue
            kind = fact_kinds()[name]
            value = read_fact(kind, text)
            odd = f"{name}: {why_not(kind, text)}" if value is None else out_of_range(kind, value)
            if odd:
                self.complain("fact-value", f"facts, {name}", f"{odd}.")
        return texts

    def values(self) -> Values:
        values: dict[str, str | tuple[str, ...]] = {}
        for name, written in self.table("values", self.vocabulary.settings).items():
            texts = written if isinstance(written, list) else [written]
            if not 1 <= len(texts) <= MOST_TOOLS:
                self.complain("value", f"values, {name}", f"There must be 1 to {MOST_TOOLS} values.")
                continue
            for text in texts:
                self.value(name, text)
            values[name] = tuple(texts) if isinstance(written, list) else written
        return values

    def value(self, name: str, text: Any) -> None:
        if not self.short(f"values, {name}", text):
            return
        setting = self.vocabulary.settings[name]
        value = read_value(setting, text)
        odd = value.reason if isinstance(value, Unreadable) else setting.implausible(value)
        if odd:
            self.complain("setting-value", f"values, {name}", f"{name}: {odd}.")
