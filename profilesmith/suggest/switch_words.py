"""The words for on and off that a text's switches have: what its remarks say, else what its values show."""

from collections import Counter
from collections.abc import Iterator

from profilesmith.suggest.key_words import fold
from profilesmith.suggest.lexicon import Lexicon
from profilesmith.suggest.said_switch_words import said_switch_words
from profilesmith.suggest.short_value import SAMPLE, short_value
from profilesmith.text.document import Document
from profilesmith.translation.key_map import SWITCH_WORDS

LONGEST_SWITCH = 12  # letters of a word for on or off
YES_NO = frozenset({"yes", "no", "ja", "nein", "oui", "non", "aye", "nay"})  # what may have a courtesy behind it
KNOWN = {word for family in SWITCH_WORDS for word in family}
PAIRS = frozenset(
    {
        ("ja", "nein"),
        ("oui", "non"),
        ("an", "aus"),
        ("ein", "aus"),
        ("up", "down"),
        ("with", "without"),
        ("mit", "ohne"),
        ("avec", "sans"),
        ("wahr", "falsch"),
        ("vrai", "faux"),
        ("y", "n"),
        ("active", "inactive"),
    }
)


def find_switch_words(documents: tuple[Document, ...], lexicon: Lexicon) -> tuple[str, ...]:
    """The commonest word for on and the commonest for off, where both are met and no known family holds them."""
    said = said_switch_words(documents, lexicon)
    if said:
        return said
    on, off, strange = _counted(documents, lexicon)
    if bool(on) != bool(off):  # one of the two is known: the other is the word that is met again and again
        for word, times in strange.most_common(1):
            if times >= 2:
                (off if on else on)[word] = times
    pairs = [
        (min(on[yes], off[no]), yes, no)
        for yes in on
        for no in off
        if (yes.casefold(), no.casefold()) in PAIRS or (yes.casefold(), no.casefold()) in SWITCH_WORDS
    ]
    if pairs:
        _, yes, no = max(pairs)
    elif on and off:
        yes, no = on.most_common(1)[0][0], off.most_common(1)[0][0]
    else:
        return ()
    return () if {yes.casefold(), no.casefold()} <= KNOWN else (yes, no)


def _counted(documents: tuple[Document, ...], lexicon: Lexicon) -> tuple[Counter[str], Counter[str], Counter[str]]:
    """How often each word for on is met, each for off, and each that is neither."""
    on: Counter[str] = Counter()
    off: Counter[str] = Counter()
    strange: Counter[str] = Counter()
    for text in _texts(documents):
        folded, plain = text.casefold(), fold(text)
        head = plain.split()[0]
        plain = head if head in YES_NO else plain
        if plain in lexicon.on or (folded in KNOWN and any(folded == family[0] for family in SWITCH_WORDS)):
            on[text] += 1
        elif plain in lexicon.off or folded in KNOWN:
            off[text] += 1
        elif text.isalpha() and len(text) <= LONGEST_SWITCH and plain not in lexicon.patterns:
            strange[text] += 1
    return on, off, strange


def _texts(documents: tuple[Document, ...]) -> Iterator[str]:
    """All values that are no numbers."""
    for document in documents:
        for item in document.assignments[:SAMPLE]:
            text = short_value(document, item)
            if text and not text.isdigit():
                yield text
