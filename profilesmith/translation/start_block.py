"""Literals in start blocks: machine commands inside values that no binding knows, held against the derived profile.

Commands of the open G-code dialect: M104/M109 set the nozzle's temperature, M140/M190 the bed's, M220 a speed factor,
M221 a flow factor. A temperature of 0 switches off at the end of a print and is left alone.
"""

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from profilesmith.foundation.late_pattern import late
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.number import decimal_text, read_number
from profilesmith.ledger import Cause, Ledger, Note, Row, StartCommand
from profilesmith.profile.profile import Profile
from profilesmith.text.document import Assignment, Document, Edit, line_ends
from profilesmith.translation.document_to_profile import Translation

# Both cases are written out: a pattern without cases takes ten times as long to compile. Bounded repeats: between the
# command and its number only other words of the same command may stand.
_COMMAND = late(
    r"(?:(?<![A-Za-z0-9])|(?<=\\[nNrR]))[Mm](104|109|140|190|220|221)"
    r"((?:[ \t]*[A-QT-Za-qt-z]-?[0-9.]{1,8}){0,4})[ \t]*([SRsr])"
    r"([0-9]{1,8}(?:\.[0-9]{1,8})?)(?![0-9.])([ \t]*[Tt][0-9])?"
)
_CODE = late(r"[Mm](?:104|109|140|190|220|221)")
_TOOL = late(r"[Tt]([0-9])")
SETTINGS: Mapping[str, tuple[str, ...]] = {
    "104": ("nozzle.temperature", "first_layer.nozzle_temperature"),
    "109": ("nozzle.temperature", "first_layer.nozzle_temperature"),
    "140": ("bed.temperature", "first_layer.bed_temperature"),
    "190": ("bed.temperature", "first_layer.bed_temperature"),
}
FACTORS = ("220", "221")  # of all speeds, of all flow


class Literal(NamedTuple):
    """A machine command with a number. start, end: the number's span. base_setting: whose base value it repeats.

    tool: counted from 0; names_tool: whether the command says it, else it is that of the tool that is in use.
    """

    document: int
    line: int
    key: str
    command: str
    number: Fraction
    start: int
    end: int
    tool: int = 0
    base_setting: str = ""
    letter: str = "S"
    names_tool: bool = False


class Contradiction(NamedTuple):
    """A literal that says something else than the derived profile. wanted: the number that would agree, or None.

    setting: the one that it contradicts, "" for a factor. derived: that setting's value; tool: of which tool, from 1,
    where it has several; else 0.
    """

    literal: Literal
    setting: str = ""
    derived: Fraction | None = None
    wanted: Fraction | None = None
    tool: int = 0


def left_alone(items: Iterable[Contradiction], translation: Translation) -> tuple[StartCommand, ...]:
    """The commands that stay as they are, as a ledger has them."""
    return tuple(
        StartCommand(
            file=translation.documents[item.literal.document].name,
            line=item.literal.line,
            command=item.literal.command,
            number=item.literal.number,
            setting=item.setting,
            derived=item.derived,
            is_of_base=item.wanted is not None,
            tool=item.tool,
        )
        for item in items
    )


def find_literals(translation: Translation) -> Iterator[Literal]:
    """All temperature and factor commands in values and lines that no binding knows."""
    bound = {(held.document, held.assignment.start) for spot in translation.spots.values() for held in spot.lines}
    for number, document in enumerate(translation.documents):
        for item in _may_hold_one(document):
            if (number, item.start) not in bound:
                yield from _scan(document, number, item.key, item.line, item.start, item.end)
        for line in document.unread:
            yield from _scan(document, number, "", line.line, line.start, line.end)


def _may_hold_one(document: Document) -> Iterator[Assignment]:
    """Quicker than to search every value for a command: the assignments that a command's code stands behind."""
    starts = [item.start for item in document.assignments]
    places = {bisect_right(starts, code.start()) - 1 for code in _CODE.finditer(document.text)}
    return (document.assignments[at] for at in sorted(places - {-1}))


def _scan(document: Document, number: int, key: str, line: int, start: int, end: int) -> Iterator[Literal]:
    for command in _COMMAND.finditer(document.text, start, end):
        if _in_comment(document.text, start, command.start()):
            continue
        value = read_number(command.group(4))
        tool = _TOOL.search(f"{command.group(2)}{command.group(5) or ''}")
        if value is not None:
            yield Literal(
                number,
                line + line_ends(document.text, start, command.start()),
                key,
                f"M{command.group(1)}",
                value,
                command.start(4),
                command.end(4),
                int(tool.group(1)) if tool else 0,
                letter=command.group(3).upper(),
                names_tool=tool is not None,
            )


def _in_comment(text: str, start: int, at: int) -> bool:
    r"""Whether a ``;`` stands before a command in its own line; a line also ends at a written ``\n``."""
    begin = max(text.rfind("\n", start, at), text.rfind("\r", start, at), text.rfind("\\n", start, at), start)
    return ";" in text[begin:at]


def contradictions(translation: Translation, derived: Profile, chosen: int | None = None) -> list[Contradiction]:
    """The literals that the derived profile contradicts, in the order of the texts.

    chosen: the tool that carries the spool, from 0; None where nobody said which.
    """
    contradicting = []
    for literal in find_literals(translation):
        code = literal.command[1:].lstrip("mM")
        if code in FACTORS:
            if literal.number != 100:
                contradicting.append(Contradiction(literal))
            continue
        contradiction = _of_any_tool(literal, SETTINGS[code], translation.profile, derived, chosen)
        if contradiction is not None:
            contradicting.append(contradiction)
    return contradicting


def _of_any_tool(
    literal: Literal, settings: tuple[str, ...], base: Profile, derived: Profile, chosen: int | None
) -> Contradiction | None:
    """A command that names no tool is that of the first or of the one that carries the spool: right for either of
    them it is right; else it is held against the latter, or the one whose old temperature it repeats.
    """
    many = max(len(derived.values(name)) for name in settings)
    if many < 2 or literal.names_tool:
        return _temperature(literal, settings, base, derived)
    likely = (0,) if chosen is None else (chosen, 0)
    tools = dict.fromkeys((*likely, *(range(many) if chosen is None else ())))
    held = [_temperature(literal._replace(tool=tool), settings, base, derived) for tool in tools]
    if None in held[: len(likely)]:
        return None
    return next((item for item in held if item and item.wanted is not None), held[0])


def _temperature(literal: Literal, settings: tuple[str, ...], base: Profile, derived: Profile) -> Contradiction | None:
    known = {
        name: derived.number(name, literal.tool) for name in settings if derived.number(name, literal.tool) is not None
    }
    if literal.number == 0 or not known or literal.number in known.values():
        return None
    source = next(
        (name for name in reversed(settings) if base.number(name, literal.tool) == literal.number and name in known), ""
    )
    name = source or next(iter(known))
    wanted = known[name]
    assert wanted is not None
    tool = literal.tool + 1 if len(derived.values(name)) > 1 else 0
    return Contradiction(literal._replace(base_setting=source), name, wanted, wanted if source else None, tool)


def _plain(number: Fraction) -> str:
    return decimal_text(number, 3)


def follow_literals(
    ledger: Ledger, contradicting: list[Contradiction], translation: Translation
) -> tuple[Ledger, list[list[Edit]], list[Contradiction]]:
    """Change the temperature literals that repeat a base value: rows of their own, edits, and what is left."""
    edits: list[list[Edit]] = [[] for _ in translation.documents]
    rows, left = [], []
    for item in contradicting:
        literal = item.literal
        if item.wanted is None:
            left.append(item)
            continue
        document = translation.documents[literal.document]
        old, new = document.text[literal.start : literal.end], _plain(item.wanted)
        edits[literal.document].append(Edit(literal.start, literal.end, new))
        cause = Cause("start block", subject=item.setting)
        rows.append(
            Row(
                setting=item.setting,
                status="changed",
                cause=cause,
                base=(literal.number,),
                derived=(item.wanted,),
                old_text=f"{literal.command} {literal.letter}{old}",
                new_text=f"{literal.command} {literal.letter}{new}",
                file=document.name,
                line=literal.line,
                key=literal.key,
                notes=(Note("start block"),),
            )
        )
    return ledger._replace(rows=(*ledger.rows, *rows)), edits, left
