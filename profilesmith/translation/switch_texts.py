"""The texts of switches and choices: those that no map names, and how a state is written."""

from profilesmith.profile.profile import Departure
from profilesmith.translation.key_map import SWITCH_WORDS, Binding
from profilesmith.vocabulary.setting import Setting


def unnamed(text: str, binding: Binding, words: tuple[str, ...], state: bool) -> tuple[Departure, ...]:
    """A switch's text that the map does not name; () for one that it names."""
    on, off = binding.on or words[:1], binding.off or words[1:]
    if binding.on_when is not None or not (binding.on or binding.off) or text in (*on, *off):
        return ()
    return (Departure("reads-as-on" if state else "reads-as-off", text, names=on, others=off),)


def unnamed_choice(text: str, binding: Binding, setting: Setting) -> tuple[Departure, ...]:
    """A choice's text that no entry of the map stands for; () for one that has its entry."""
    known = {text for texts in binding.choices.values() for text in texts} if binding.choices else {*setting.values}
    if text in known:
        return ()
    return (Departure("no-choice", text, names=tuple(word for word in setting.values if word not in binding.choices)),)


def write_switch(old: str, value: bool, binding: Binding, words: tuple[str, ...], like: str = "") -> str:
    """A switch's text. like: a switch of the same text, for one that is added and has no text of its own."""
    texts = binding.on if value else binding.off
    if texts:
        return texts[0]
    if words:
        return words[0 if value else 1]
    folded = (old or like).casefold()
    old = old or like
    family = next((family for family in SWITCH_WORDS if folded in family), SWITCH_WORDS[0])
    word = family[0 if value else 1]
    return word.upper() if old.isupper() else word.capitalize() if old[:1].isupper() else word
