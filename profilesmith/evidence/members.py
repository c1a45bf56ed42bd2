"""The members of one record, read strictly: each mistake with the member that it stands in."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Mapping
from typing import Any

from profilesmith.evidence.record import FORMAT
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, did_you_mean
from profilesmith.vocabulary.setting import Vocabulary

LONGEST_NOTE, LONGEST_NAME = 400, 80
DAY = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)
# Control characters, line ends and marks that turn the direction of a text.
UNSEEN = re.compile("[\x00-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ud800-\udfff]")


class Members:
    """A record that is being read. problems: what is wrong with it so far."""

    def __init__(self, data: dict[str, Any], place: Place, vocabulary: Vocabulary) -> None:
        self.data, self.place, self.vocabulary = data, place, vocabulary
        self.problems: list[Problem] = []

    def complain(self, code: str, member: str, message: str, hint: str = "") -> None:
        self.problems.append(Problem(code, message, self.place._replace(path=member), hint))

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
                    did_you_mean(name[:LONGEST_NAME], known),
                )
        return {name: item for name, item in value.items() if name in known}
