"""Words that one explanation borrows from another: "same, first layer", "as B23", "of the bottom" behind "pace of the
top".

Comes in: explanations as texts. Goes out: texts that stand for themselves. Knows no settings.
"""

import re

from profilesmith.suggest.key_words import split_words

_DETERMINED = r"(?:the |die |das |der |le |la |l')?"
_SAME = re.compile(
    rf"{_DETERMINED}(?:same(?: again)?|ditto|do\.|idem|likewise|as above|as "
    r"before|dito|ebenso|desgl\.|desgleichen|dasselbe"
    r"|dieselbe|gleiche[rs]?|wie oben|wie vor|même(?: chose)?|pareil|comme "
    r"ci-dessus|[\"″〃]|'')(?=[\s,;:/.)]|\Z)[\s,;:]*",
    re.I,
)
_SAME_SEVERAL = re.compile(
    rf"{_DETERMINED}(?:same|gleichen?|mêmes?) (?:two|three|four|both|pair|zwei|drei|beiden?|deux|trois)\b[\s,;:]*", re.I
)
PREPOSITION = re.compile(
    r"\b(?:when|while|for|on|of|in|at|over|under|to|during|after|before|between|behind|from|with|without|once|through"
    r"|für|bei|beim|der|des|auf|im|am|nach|vor|während|über|unter|zwischen|wenn|an"
    r"|pour|sur|de|du|des|dans|à|au|aux|pendant|après|avant|entre|sous|quand|lors)\b",
    re.I,
)
_PRONOUN = re.compile(r"\b(?:it|them|this|that|its|their)\b(?=\s*\Z)", re.I)
_OWNER = re.compile(r"^(?:its|their|the same's|dessen|deren|sein|ihr|son|sa|leur)\b", re.I)


def is_same(text: str) -> re.Match[str] | None:
    """Whether an explanation begins with "same"."""
    return _SAME_SEVERAL.match(text) or _SAME.match(text)


def resolved(text: str, before: str) -> str:
    """An explanation with what "same" in it points at: the one before, less the words that its own take the place
    of.
    """
    same = is_same(text)
    if same is None or not before:
        return text
    own = text[same.end() :].strip()
    if not own:
        return before
    if _SAME_SEVERAL.match(text):
        return f"{_modifiers(before)} {own}".strip()
    head = _without(before, own) if PREPOSITION.match(own) or "," in text[: same.end()] else before
    kept = head if PREPOSITION.match(own) else _bare(before)
    return f"{kept}, {own}"


def completed(part: str, first: str) -> str:
    """One of several parts of an explanation, with the head of the first where it cannot stand alone."""
    sign = PREPOSITION.match(part)
    if sign:
        alike = [match for match in PREPOSITION.finditer(first) if match[0].casefold() == sign[0].casefold()]
        place = (alike or list(PREPOSITION.finditer(first)))[-1:] if first else []
        head = first[: place[0].start()] if place else first.rpartition(" ")[0]
        last = PREPOSITION.search(first)
        noun = first[last.end() :] if last else ""
        return f"{head.strip(' ,')} {_PRONOUN.sub(lambda match: noun, part)}".strip()
    if _OWNER.match(part):
        return f"{_bare(first)} {part}"
    return part


def lent_head(part: str, first: str) -> str:
    """What the first part's head may say of a part that stands without it: all but its last word."""
    return "" if PREPOSITION.match(part) else first.rpartition(" ")[0]


def _bare(text: str) -> str:
    """The head of a phrase, before what modifies it."""
    clause = re.split(r"[,;:(]", text)[0]
    place = PREPOSITION.search(clause, 1)
    return (clause[: place.start()] if place else clause).strip()


def _modifiers(text: str) -> str:
    place = PREPOSITION.search(text)
    return text[place.start() :] if place else ""


def _without(before: str, own: str) -> str:
    """A phrase without those of its modifiers that share a word with what is said anew."""
    words = set(split_words(own))
    pieces = _pieces(before)
    kept = [piece for at, piece in enumerate(pieces) if at == 0 or words.isdisjoint(_content(piece))]
    return " ".join(piece.strip(" ,;:") for piece in kept)


def _pieces(text: str) -> list[str]:
    places = [0, *(match.start() for match in PREPOSITION.finditer(text) if match.start())]
    return [text[start:end] for start, end in zip(places, [*places[1:], len(text)], strict=True)]


def _content(piece: str) -> set[str]:
    return {word for word in split_words(piece) if len(word) > 3}
