"""The texts of switches and choices: what is to be said of one that no map names, and how a state is written."""

from profilesmith.foundation.problem import nearest
from profilesmith.foundation.toml_text import quoted
from profilesmith.translation.key_map import SWITCH_WORDS, Binding
from profilesmith.vocabulary.setting import Setting


def unnamed(text: str, binding: Binding, words: tuple[str, ...], state: bool) -> str:
    """What is to be said of a switch's text that the map does not name; "" for one that it names."""
    on, off = binding.on or words[:1], binding.off or words[1:]
    if binding.on_when is not None or not (binding.on or binding.off) or text in (*on, *off):
        return ""
    near = nearest(text, (*on, *off))
    meant = f" (did you mean {near!r}?)" if near else ""
    named = " nor ".join(
        f"{' or '.join(map(repr, texts))} ({word})" for texts, word in ((on, "on"), (off, "off")) if texts
    )
    here, other = ("on", "off") if state else ("off", "on")
    return f"{text!r}{meant} is neither {named}: it reads as {here}, and is written over when this is turned {other}"


def unnamed_choice(text: str, binding: Binding, setting: Setting) -> str:
    """What is to be said of a choice's text that no entry of the map stands for; "" for one that has its entry."""
    known = {text for texts in binding.choices.values() for text in texts} if binding.choices else {*setting.values}
    if text in known:
        return ""
    left = [word for word in setting.values if word not in binding.choices]
    words = f" (a word of {', '.join(left)})" if left else ""
    return (
        f"{text!r} has no entry in choices and is kept as it is: to name it, write choices = {{ ... "
        f"= {quoted(text)} }}{words}"
    )


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
