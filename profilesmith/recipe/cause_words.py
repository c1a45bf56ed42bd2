"""What a cause and its demand are called: who asks, and what. For conflicts here, and for everybody who shows a ledger.

These names are made here and nowhere else, since a conflict is a mistake and says them where it is seen.
"""

from collections.abc import Sequence

from profilesmith.ledger import Asked, Cause, Operand
from profilesmith.recipe.operations import BY_NAME, VALUE
from profilesmith.vocabulary.setting import Setting

ANSWER = "the answer to {}"
BEAD_SPEED = "the speed at which the bead needs {}"
COUNT = "as many {} as make {}"
_NAMES = {
    "plausible range": "vocabulary",
    "machine limit": "machine limit",
    "share": "the text itself",
    "held share": "the text itself",
    "stuck share": "the text itself",
    "same key": "the text itself",
    "one key": "the text itself",
    "added key": "the text itself",
    "reads as on": "the text itself",
    "start block": "start block",
    "hand edit": "hand edit",
    "share of hand edit": "hand edit",
}


def cause_name(cause: Cause) -> str:
    """``flexible-pla 1.0.0, rule 1``, ``machine limit``."""
    if cause.kind != "rule":
        return _NAMES[cause.kind]
    name = f"{cause.recipe} {cause.version}".strip()
    return f"{name}, rule {cause.rule}" if cause.rule else name


def demand_words(cause: Cause, setting: Setting) -> str:
    """What it asks of a setting: ``at most 40 mm/s``."""
    if cause.words:
        return cause.words
    if cause.kind in ("held share", "stuck share"):
        return (
            f"keeps {' | '.join(dict.fromkeys(setting.show(value) for item in cause.asked for value in item.values))}"
        )
    if cause.kind == "added key":
        return " | ".join(dict.fromkeys(setting.show(value) for item in cause.asked for value in item.values))
    if cause.asked:
        return asked_words(cause.asked, setting)
    words = {
        "plausible range": f"within {setting.range_text()}",
        "share": f"a share of {cause.subject}",
        "same key": f"the same key as {cause.subject}",
        "one key": f"off while {cause.subject} is on",
        "reads as on": f"enough to read as on for {cause.subject}",
        "start block": f"the same as {cause.subject}",
        "hand edit": " → ".join(text or "nothing" for text in cause.quoted),
        "share of hand edit": f"written relative to {cause.subject}",
    }
    return words.get(cause.kind, "")


def asked_words(asked: Sequence[Asked], setting: Setting) -> str:
    """All that a rule asks, one after the other."""
    return ", ".join(_words(item, setting) for item in asked)


def _words(asked: Asked, setting: Setting) -> str:
    """Where a value is not known, the operation's key and what the recipe names."""
    operands = [operand_words(operand) for operand in asked.operands]
    operation = BY_NAME.get(asked.operation)
    if operation is None or (not asked.values and operands):
        return f"{asked.operation} {' to '.join(operands)}"
    if operation.reads == VALUE or not operands:
        operands = [setting.show(value) for value in asked.values]
    return operation.words(operands)


def operand_words(operand: Operand) -> str:
    """What a recipe names in place of a value."""
    if operand.kind == "setting":
        times = "" if operand.times == 1 else f"{float(operand.times):g} × "
        words = f"{times}{operand.name}{f' plus {operand.plus}' if operand.plus else ''}"
    else:
        words = ANSWER.format(operand.name) if operand.kind == "input" else operand.name
    return BEAD_SPEED.format(words) if operand.flow else words
