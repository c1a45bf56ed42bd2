"""What a ledger carries on: earlier derivations, and what became of the edits that hands made of them; mends after
prints, what each print showed, what was changed then, and what came of it.
"""

from collections.abc import Mapping
from typing import Final, Literal, get_args

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger.form import LEFT_OUT, Annotated, Further
from profilesmith.ledger.ledger import Values

Outcome = Literal["kept", "agreed", "conflict", "left out"]
Chosen = Literal["base", "derived", ""]
HEX = Further(pattern="^[0-9a-f]{64}$")


class FileHash(NamedTuple):
    """A file by its bytes."""

    name: Annotated[str, "The file as it was named."]
    sha256: Annotated[str, "SHA-256 of its bytes.", HEX]


LINE_ENDS, LAST_LINE_END, ENCODING = "the line ends", "the last line end", "the encoding"
"""What is edited of a whole text, as a decision names it."""


def line_named(text: str) -> str:
    """How a decision names a line that is no key. text: a piece of it, "" for an empty one."""
    return f"the line {text!r}" if text else "an empty line"


class Decision(NamedTuple):
    """One thing that a hand edited.

    what: a setting, a key or a line; kind: ``setting``, ``key`` or ``line``.
    outcome: ``kept`` (the hand edit goes on), ``agreed`` (the new base makes it needless), ``conflict`` (both sides
    moved, differently), ``left out`` (it cannot be carried over; it is named so that a person can do it).
    was, hand, new: the value as derived then, as edited since, as derived from the new base; "" for none.
    chosen: ``derived`` (the hand edit) or ``base`` (the new base with its recipes); "" while nobody has decided.
    overrules: the rule of a recipe that a kept edit overrules, "" for none. file, line: where the edit stands.
    """

    what: Annotated[str, "The setting, key or line."]
    kind: Annotated[Literal["setting", "key", "line"], "What was edited."]
    outcome: Annotated[Outcome, "What became of it."]
    was: Annotated[str, "The value as it was derived then."] = ""
    hand: Annotated[str, "The value that the hand wrote."] = ""
    new: Annotated[str, "The value that is derived now."] = ""
    chosen: Annotated[Chosen, "Which of two was chosen in a conflict."] = ""
    why: Annotated[str, "The reason, a stable word for programs; in older ledgers a sentence."] = ""
    overrules: Annotated[str, "The rule that the hand overrules."] = ""
    file: Annotated[str, "The file."] = ""
    line: Annotated[int, "The line in it; 0 for none."] = 0


class Earlier(NamedTuple):
    """A derivation that was carried onto a newer base or newer recipes."""

    ledger: Annotated[str, "SHA-256 of its ledger.", HEX]
    files: Annotated[tuple[FileHash, ...], "Its base files."]
    outputs: Annotated[tuple[FileHash, ...], "Its derived files."]
    recipes: Annotated[tuple[str, ...], "Names with versions."]
    decisions: Annotated[tuple[Decision, ...], "What became of edits by hand."]


class MotionCheck(NamedTuple):
    """A motion file that was held against the derived profile."""

    name: Annotated[str, "The file's name, without its folder."]
    sha256: Annotated[str, "SHA-256 of its bytes.", HEX]
    passed: Annotated[int, "How many settings keep their promise."]
    found: Annotated[tuple[str, ...], "The settings whose promise it breaks."]
    not_judged: Annotated[int, "How many settings it says too little of."]


AS_MAPPED: Final = "map"
"""What became of shares: as the map says."""
BY_HAND: Final = "by-hand"
"""The name of the recipe of what somebody set for one profile alone."""


class Laid(NamedTuple):
    """A recipe of one profile alone, over the others. text: as ``packed.pack`` has it."""

    name: Annotated[str, "What it is called."]
    text: Annotated[str, "Its text: zlib, base64."]


class Call(NamedTuple):
    """What was asked for: files as seen from the ledger, names of a library as they are."""

    bases: Annotated[tuple[str, ...], "The base files."]
    key_map: Annotated[str, "The key map."]
    recipes: Annotated[tuple[str, ...], "The recipes, in their order."]
    facts: Annotated[tuple[str, ...], "The facts files."]
    answers: Annotated[dict[str, str], "Answers that were given, by the name of the input or fact."]
    follow_literals: Annotated[bool, "Whether machine commands inside values were changed too."]
    library: Annotated[str, "The library that was looked in; empty for none."] = ""
    shares: Annotated[
        Literal["keep", "follow", "map"],
        (
            "What became of shares whose reference moved; absent in older ledgers, where they "
            "followed. `map`: as the map says."
        ),
    ] = "follow"
    laid: Annotated[tuple[Laid, ...], "Recipes of this profile alone, the last in `recipes`.", LEFT_OUT] = ()


Grade = Literal["good", "fair", "poor"]
GRADES: tuple[Grade, ...] = get_args(Grade)
Verdict = Literal["", "better", "same", "worse"]
MEND_VERDICTS: tuple[Verdict, ...] = get_args(Verdict)[1:]


class MendChange(NamedTuple):
    """One setting, from where to where, for which trouble and cause; trouble is "" where it goes along or back."""

    setting: Annotated[str, "The setting."]
    before: Annotated[Values, "Its value before."]
    after: Annotated[Values, "Its value after."]
    trouble: Annotated[str, "The trouble that it is for; empty where it goes along or back."]
    what: Annotated[str, "The cause."]
    why: Annotated[str, "The reason."]
    source: Annotated[str, "Its source."]


class Mend(NamedTuple):
    """One mend that was written. undo: its changes take the one before back. did: what was done before its print."""

    date: Annotated[str, "The day."]
    last: Annotated[Verdict, "What came of the mend before this one."]
    undo: Annotated[bool, "Whether it takes the one before back."]
    seen: Annotated[Mapping[str, Grade], "What the print showed: trouble and grade."]
    looks: Annotated[Mapping[str, bool], "Looks that were taken, and their answers."]
    did: Annotated[tuple[str, ...], "What was done to spool or machine before the print."]
    changes: Annotated[tuple[MendChange, ...], "The settings that were changed then."]
