"""Why a cause asks, what its source is, and what became of its row: from codes to words."""

from collections.abc import Callable, Mapping
from fractions import Fraction

from profilesmith.foundation.number import decimal_text
from profilesmith.ledger import Cause, Condition, Note, Question, Row, StartCommand, Status
from profilesmith.profile.profile import ABSENT, Absent, absent_words
from profilesmith.recipe.cause_words import cause_name, demand_words
from profilesmith.vocabulary.setting import Setting

STATUS_MEANING: Mapping[Status, str] = {
    "changed": "the value was changed by this rule",
    "added": "the key was not in the text and was added",
    "follows": "it is written relative to a value that changed",
    "held": "its share was rewritten, so that its value stays when the value that it is a share of moves",
    "gave way": "it went off because its key can hold one switch, and another was turned on",
    "kept": "already met: not touched",
    "overruled": "another rule asks for more, or comes later",
    "by hand": "the text has no key for it: set it yourself",
    "unanswered": "a fact is not known, so the rule was left out",
    "does not apply": "the rule's condition is not met here",
    "refused": "a hard limit or another rule stands against it",
}
_START_BLOCK = "A start block that still heats to the old temperature would undo the change when the print starts."
_FACTORS = {"M220": "all speeds", "M221": "all extrusion"}


def why_words(cause: Cause, setting: Setting) -> str:
    """The reason, in a sentence."""
    if cause.why or cause.words:
        return cause.why
    words = {
        "plausible range": setting.meaning,
        "share": f"Written as a share of {cause.subject}.",
        "held share": f"Its share of {cause.subject} changed, not its value.",
        "stuck share": "No rule asks for another value.",
        "one key": f"One key holds it or {cause.subject}, not both.",
        "added key": "Its key holds other switches too.",
        "same key": f"One key holds it and {cause.subject}.",
        "start block": _START_BLOCK,
        "hand edit": "Changed by hand in the derived file and kept.",
        "share of hand edit": "It is written relative to a value that a hand edit changed.",
    }
    return words.get(cause.kind, "")


def source_words(cause: Cause) -> str:
    """Where it comes from."""
    if cause.source or cause.words:
        return cause.source
    words = {"plausible range": "plausible range of the vocabulary", "start block": "asked for with this derivation"}
    return words.get(cause.kind, "")


def condition_words(condition: Condition) -> str:
    """``machine.drive is remote``, ``machine.tube_length > 400 mm``."""
    return f"{condition.subject} {condition.sign} {' or '.join(condition.values)}"


_SENTENCES: Mapping[str, Callable[[str], str]] = {
    "not known": lambda name: f"{name} is not known",
    "share moved": lambda name: f"written relative to {name}, which changed; its text was not touched",
    "spread": lambda name: f"one share of several values of {name} cannot keep all of them",
    "no whole share": lambda name: f"it is written as a whole share of {name}, and no such share comes to it",
    "switched along": lambda name: f"the map writes this number when {name} is switched",
    "aim instead": lambda name: "an aim replaces the scaled value",
    "nearest held": lambda name: "the nearest that the text can hold",
    "cannot hold together": lambda name: "cannot hold together with another bound",
    "switch is off": lambda name: f"{name} is off",
    "met since": lambda name: f"met once {name} had changed",
    "share of zero": lambda name: f"it is written as a share of {name}, which is 0",
    "no text for it": lambda name: f"the map has no text for {name!r}",
    "cannot be held": lambda name: "the text cannot hold it exactly, and no number beside it is inside the bounds",
    "no binding": lambda name: "the map has no key for it",
    "no value said": lambda name: "it could be added, but no rule says a value",
    "further line": lambda name: "the same key again, kept alike",
    "start block": lambda name: "a literal in a start block",
    "hand met": lambda name: "met by a hand edit",
    "hand kept": lambda name: "a hand edit was kept",
    "base changed too": lambda name: "the new base was changed too",
    "overrules": lambda name: f"it overrules {name}",
    "key holds one": lambda name: f"the key {name!r} can hold one",
    "said": lambda name: name,
}
_STYLE: Mapping[str, str] = {
    "plus": "its plus sign",
    "zeros": "its leading zeros",
    "bare": "the missing zero before its mark",
    "open": "the mark behind it",
    "exponent": "its exponent",
    "ungrouped": "digits that are not grouped",
}
_BY: Mapping[str, str] = {
    "stricter": "{} is stricter",
    "other value": "{} asks for another value",
    "later aim": "{} aims at another value and comes later",
    "aim instead": "{}: its aim replaces the scaled value",
    "key taken": "{} takes the key, which can hold one",
    "held inside": "held inside the bound of {}",
}


def note_words(note: Note, setting: Setting) -> str:
    """One note as a clause."""
    if note.by is not None and note.code in _BY:
        return _BY[note.code].format(f"{cause_name(note.by)} ({demand_words(note.by, setting)})")
    if note.code == "condition":
        return f"applies only when {' and '.join(map(condition_words, note.conditions))}"
    absent = next((code for code in ABSENT if code == note.code), None)
    if absent is not None:
        return absent_words(Absent(absent, note.names))
    if note.code == "not known" and note.names == ("bead",):
        return "a bead that is wider than its layer is thick is not known"
    if note.code == "style":
        return style_words(*note.names)
    say = _SENTENCES.get(note.code)
    return say("".join(note.names[:1])) if say else note.code


def style_words(old: str = "", new: str = "", *lost: str) -> str:
    """What of an old number's style a new one cannot show; ledgers of before have it in words."""
    if not lost:
        return old
    shown = " and ".join(_STYLE.get(code, code) for code in lost)
    return f"{old!r} was written with {shown}, which {new!r} cannot show"


def notes_words(row: Row, setting: Setting) -> str:
    """All notes of a row."""
    return "; ".join(
        _left_over(row, setting) if note.code == "nearest share" else note_words(note, setting) for note in row.notes
    )


def _left_over(row: Row, setting: Setting) -> str:
    """By how much a share that was rewritten misses its value."""
    left = [
        f"{setting.show(abs(after - before))} {'more' if after > before else 'less'}"
        for before, after in zip(row.base, row.derived, strict=False)
        if isinstance(before, Fraction) and isinstance(after, Fraction) and before != after
    ]
    return f"as near as its share can say it: {', '.join(dict.fromkeys(left))}"


def is_slip(row: Row) -> bool:
    """Whether the map has a key for it that the text has not."""
    return row.has("key missing", "key elsewhere", "key blank")


def question_words(question: Question) -> str:
    """The question; how it is answered a door says."""
    if question.about == "setting":
        return f"What is {question.name}? Bind it in the key map, if the text has it."
    if question.about == "beads":
        return "The bead is narrower than the layer: check both."
    return question.text


def command_words(item: StartCommand, settings: Mapping[str, Setting]) -> str:
    """``heats to 205 °C, but nozzle.temperature is 215 °C``; what can be done about it a door says."""
    if item.words:
        return item.words
    setting = settings.get(item.setting)
    if setting is None or item.derived is None:
        return f"scales {_FACTORS.get(item.command.upper(), 'the print')} to {decimal_text(item.number, 3)} %"
    tool = f" of tool {item.tool}" if item.tool else ""
    clause = f"heats to {setting.show(item.number)}, but {setting.id}{tool} is {setting.show(item.derived)}"
    apart = abs(item.number - item.derived)
    clause += f": {setting.show(apart)} too {'cold' if item.number < item.derived else 'hot'}" if apart else ""
    return clause if item.is_of_base else f"{clause}; it is not the old temperature either"
