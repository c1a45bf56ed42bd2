"""A slot and a setting to the entries of a binding: unit, spelling, list, field, orientation; and what is doubtful in
it.
"""

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.suggest.detect_habits import Writing
from profilesmith.suggest.lexicon import Lexicon, Term
from profilesmith.suggest.proposal import Entry
from profilesmith.suggest.propose import ProposedReading
from profilesmith.suggest.references import Reference, find_reference
from profilesmith.suggest.shapes import pattern_of
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.switches import switch_entries
from profilesmith.suggest.values import Way

STEEPEST_FROM_BED = 45  # overhang angles below this are mostly measured from the horizontal; common practice, no source

SWITCHED = ("support", "raft", "brim")  # things that a text may turn off by a number of 0

LONGEST_SIGN = 3  # letters that stand for a shape


class BindingForm(NamedTuple):
    """The entries of a binding in their order, sentences on what is doubtful, and on what a person may add."""

    entries: dict[str, Entry]
    doubts: tuple[str, ...]
    reference: Reference | None = None
    notes: tuple[str, ...] = ()


def form_of(
    name: str, slot: Slot, way: Way, reading: ProposedReading, writing: Writing, lexicon: Lexicon
) -> BindingForm:
    """How a map would bind a setting to a slot."""
    kind = reading.schemas.named[name].setting.kind
    entries: dict[str, Entry] = {"setting": name}
    if slot.assignment.section:
        entries["section"] = slot.assignment.section
    entries["key"] = slot.assignment.key
    doubts: list[str] = []
    notes: list[str] = []
    reference = None
    if kind == "switch":
        more, doubts = switch_entries(name, slot, reading, writing, lexicon)
        entries |= more
    elif kind == "choice":
        more, notes = _choices(slot, lexicon)
        entries |= more
        if notes and slot.text.isalpha() and len(slot.text) <= LONGEST_SIGN:
            doubts = [f"{slot.text!r} is a sign for a shape, and nothing says for which."]
        elif notes and (slot.number is None or entries.get("choices")):
            doubts = ["Nothing says which of the shapes that recipes know that is."]
    else:
        if way.unit:
            entries["unit"] = _unit_name(way.unit)
        if way.share:
            reference = find_reference(name, slot, reading)
            entries |= reference.entries
            doubts += [reference.doubt] if reference.doubt else []
        if kind == "angle":
            more, doubts = _orientation(slot, way, lexicon)
            entries |= more
    if slot.number == 0 and name.split(".")[0] in SWITCHED and f"{name.split('.')[0]}.on" not in reading.chosen:
        doubts = [*doubts, f"0 may say that there is no {name.split('.')[0]} at all."]
    entries |= _pieces(slot, usual_list(reading, writing))
    return BindingForm(entries, tuple(doubts), reference, tuple(notes))


def _unit_name(unit: str) -> str:
    return {"°C": "C", "°F": "F", "°": "deg"}.get(unit, unit)


def usual_list(reading: ProposedReading, writing: Writing) -> str:
    """The separator of per-tool values that ``[text]`` states."""
    return writing.list or (reading.lists.tools[0] if reading.lists.tools else ",")


def _pieces(slot: Slot, usual: str) -> dict[str, Entry]:
    """Lists and packed fields."""
    if slot.field:
        return {"split": slot.separator, "field": slot.field}
    if not slot.tools:
        return {}
    return {"tools": True} if slot.tools == usual else {"tools": True, "list": slot.tools}


def _choices(slot: Slot, lexicon: Lexicon) -> tuple[dict[str, Entry], list[str]]:
    """The texts whose shapes are known: those that a remark tells, or the one that is seen. Others are kept as
    written.
    """
    shapes: dict[str, str] = {}  # where two texts name one shape (lines, zigzag) the one that is seen, else the first
    for text, words in sorted((slot.told or slot.shapes).items(), key=lambda item: item[0] != slot.text):
        shapes.setdefault(pattern_of(words, lexicon), text)
    shapes.pop("", "")
    entries: dict[str, Entry] = {"choices": shapes}
    if shapes:
        named = slot.text in shapes.values() or bool(pattern_of(slot.text, lexicon))
        return entries, [] if named else [f"{slot.text!r} stands for a shape whose name is not known."]
    if slot.number is not None:
        return {}, [f'{slot.text} is a number for a shape: write choices = {{ gyroid = "..." }} if you know which.']
    known = pattern_of(slot.text, lexicon)
    if not known:
        return {}, [f"{slot.text!r} names no shape that is known; add choices if it is one."]
    return {"choices": {known: slot.text}}, []


def _orientation(slot: Slot, way: Way, lexicon: Lexicon) -> tuple[dict[str, Entry], list[str]]:
    """Whether an overhang is measured from the horizontal; from the vertical is what the vocabulary does."""
    said = {lexicon.measured[phrase] for phrase in _phrases((*slot.own, *slot.remark)) if phrase in lexicon.measured}
    if said == {"horizontal"}:
        return {"angle_from": "horizontal"}, []
    if said == {"vertical"}:
        return {"angle_from": "vertical"}, []
    number = float(slot.number or 0) * (57.29578 if way.unit == "rad" else 1)
    side = "horizontal" if number < STEEPEST_FROM_BED else "vertical"
    return {"angle_from": side}, [
        f"Nothing says where the angle is measured from; at {number:.0f}° the {side} is likelier."
    ]


def _phrases(terms: tuple[Term, ...]) -> set[str]:
    words = [word for term in terms for word in term.text.split()]
    return {
        " ".join(words[start:end])
        for start in range(len(words))
        for end in range(start + 1, min(start + 4, len(words)) + 1)
    }
