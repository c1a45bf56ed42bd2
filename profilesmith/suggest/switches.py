"""How a switch is spelled: which text means on, which off, and what the other one would be."""

from collections import Counter

from profilesmith.suggest.detect_habits import Writing
from profilesmith.suggest.lexicon import Lexicon
from profilesmith.suggest.modes import Mode, off_text
from profilesmith.suggest.proposal import Entry
from profilesmith.suggest.propose import ProposedReading
from profilesmith.suggest.slot import Slot
from profilesmith.suggest.values import TICKS, is_on
from profilesmith.translation.key_map import SWITCH_WORDS

_NEGATIONS = ("un", "no", "non", "in", "nicht")


def switch_entries(
    name: str, slot: Slot, reading: ProposedReading, writing: Writing, lexicon: Lexicon
) -> tuple[dict[str, Entry], list[str]]:
    """The entries that a switch needs besides its key, and what is doubtful."""
    if slot.mode:
        return _mode(slot.mode)
    nothing = off_text(slot.told, lexicon)
    if nothing:
        return {"on": _on_texts(slot, nothing), "off": nothing}, []
    if slot.number is not None:
        return _number(slot, writing)
    text = slot.first
    state = is_on(text, lexicon)
    if text in writing.words:
        return {}, []
    if not writing.words and any(text.casefold() in family for family in SWITCH_WORDS):
        return {}, []
    if text in TICKS:
        ticked = TICKS[text] or text
        return {"on": ticked, "off": next((box for box, on in TICKS.items() if on[:1] == ticked[:1]), "☐")}, []
    guessed = state is None
    if state is None:
        state = not text.casefold().startswith(_NEGATIONS)
    other, seen = _other(text, state, slot, reading, writing, lexicon)
    entries: dict[str, Entry] = {"on": text if state else other, "off": other if state else text}
    doubts = [f"{text!r} is taken for {'on' if state else 'off'}: is it?"] if guessed else []
    if not seen:
        doubts.append(f"The text does not show the word for {'off' if state else 'on'}; {other!r} is a guess.")
    return entries, doubts


def _mode(mode: Mode) -> tuple[dict[str, Entry], list[str]]:
    """One thing of several that a key chooses."""
    if mode.off:
        return {"on": mode.on, "off": mode.off}, []
    return {"on": mode.on, "off": "none"}, ["Nothing says which text means none of these things."]


def _on_texts(slot: Slot, nothing: str) -> Entry:
    """All texts that a remark tells but the one for off, the one that is seen first."""
    texts = [text for text in slot.told if text != nothing]
    texts.sort(key=lambda text: text != slot.first)
    return texts[0] if len(texts) == 1 else texts


def _number(slot: Slot, writing: Writing) -> tuple[dict[str, Entry], list[str]]:
    number = slot.first
    if number in ("0", "1"):
        kind = any("pattern" in term.ideas or "count" in term.ideas for term in slot.own)
        plain: dict[str, Entry] = {"on": "1", "off": "0"} if writing.words else {}
        if not kind:
            return plain, []
        return plain, [f"{number} may be a kind or a number and not a switch; say which texts mean on and off."]
    return {"on_when": "> 0", "on": number, "off": "0"}, [f"{number} is taken for on, 0 for off: is it a kind?"]


def _other(
    text: str, state: bool, slot: Slot, reading: ProposedReading, writing: Writing, lexicon: Lexicon
) -> tuple[str, bool]:
    """The counterpart of a word, and whether this text shows it: on a key of the same words, else anywhere."""
    mine = {term.text for term in slot.own}
    same: Counter[str] = Counter()
    for other in reading.slots:
        if other.number is None and is_on(other.text, lexicon) is (not state) and other.text not in writing.words:
            usual = any(other.text.casefold() in family for family in SWITCH_WORDS)
            alike = bool(mine & {term.text for term in other.own})
            if alike or not usual:
                same[other.text] += 2 if alike else 1
    if same:
        return max(sorted(same), key=lambda word: same[word]), True
    if writing.words:
        return writing.words[1 if state else 0], True
    for other in reading.slots:
        folded = other.text.casefold()
        for family in SWITCH_WORDS:
            if folded in family and other.number is None:
                return _cased(family[1 if state else 0], other.text), True
    return ("off" if state else "on"), False


def _cased(word: str, like: str) -> str:
    return word.upper() if like.isupper() and len(like) > 1 else word.capitalize() if like[:1].isupper() else word
