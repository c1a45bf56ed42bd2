"""What a text says of its codes, wherever it says it: behind values, above runs of them, in lists, in numbered notes.

Comes in: the lines of a text and where its keys stand. Goes out: key -> words that explain it. Knows no settings, and
nothing of how lines divide.
"""

import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.suggest.borrowed_words import completed, is_same, lent_head, resolved
from profilesmith.suggest.code_parts import ending_of, is_no_word, parts_of, with_heads
from profilesmith.suggest.numbered_notes import NumberedNote, note_numbers, numbered_notes
from profilesmith.suggest.remark_names import legend_in

LONGEST = 320  # signs of an explanation
_EDGES = " \t|#*~{}<>«»/\\()[]"
_ORDER = re.compile(r",?\s*\b(?:in (?:that|this|the same) order|in dieser Reihenfolge|dans cet ordre)\b\s*[:.]?", re.I)
_REFERS = re.compile(
    r"(?:\b(?:as|like|than|of|with|for|under|see|at|in|to|wie|von|zu|bei|siehe|comme|que|de|pour|voir|note)\s+|%\s?)\Z",
    re.I,
)
_LIKE = re.compile(r"\b(?:as|like|wie|comme)\s+(?:in |at |for |under |with |bei |unter |pour |à )?", re.I)
_LEGEND_OF = re.compile(
    r"\b(?:letters?|numbers?|figures?|words?|kinds?|signs?|codes?|shapes?|abbreviations?"
    r"|buchstaben?|zahlen|ziffern|zeichen|wörter|lettres?|chiffres?|mots?|numéros?|signes?)\b[^;]{0,24}?\Z",
    re.I,
)
_AND = re.compile(r"\s*(?:,|&|\+|/|\band\b|\bund\b|\bet\b|\bto\b)\s*")


class Saying(NamedTuple):
    """Words of a text, the line that they stand in, and the keys that they stand beside."""

    line: int
    text: str
    keys: tuple[str, ...]


class KeyPlace(NamedTuple):
    """A key, its line, and what stands behind its value in that line."""

    line: int
    key: str
    behind: str


class Explained(NamedTuple):
    """Words for a key; aside: words that may belong to it too. borrowed: not all of it stands beside the key."""

    text: str
    aside: str = ""
    borrowed: bool = False


def explanations(
    lines: Sequence[str], places: Sequence[KeyPlace], free: set[int], names: Mapping[str, str]
) -> dict[str, Explained]:
    """Key -> what is said of it. free: the numbers of the lines that hold no value and head nothing.

    names: what a table says of keys.
    """
    notes = numbered_notes(lines, free)
    same = Counter(place.behind.strip() for place in places)
    places = [  # what stands behind most values is a part of the lines
        place._replace(behind="") if same[place.behind.strip()] * 2 > len(places) else place for place in places
    ]
    places = [  # an old value, or a range, explains nothing
        place if any(map(str.isalpha, place.behind)) or note_numbers(place.behind, notes) else place._replace(behind="")
        for place in places
    ]
    codes = {place.key for place in places if len(place.key) > 2 and is_no_word(place.key)}
    sayings = [*_behind(places, notes), *_above(lines, places, free), *_elsewhere(lines, free, codes)]
    reader = _Listener({place.key for place in places}, notes)
    for key, name in names.items():
        reader.tell([(key, name)], reader.with_references(name) != name)
    for saying in sorted(sayings, key=lambda one: one.line):
        reader.hear(saying)
    return reader.explained


def _behind(places: Iterable[KeyPlace], notes: Mapping[str, NumberedNote]) -> list[Saying]:
    """What stands behind values; a number of a note is that note, which may tell of several keys."""
    noted = defaultdict[str, list[KeyPlace]](list)
    sayings = []
    for place in places:
        numbers = note_numbers(place.behind, notes)
        if numbers:
            noted[numbers[0]].append(place)
        elif place.behind.strip(_EDGES):
            sayings.append(Saying(place.line, place.behind.strip(_EDGES), (place.key,)))
    for number, mine in noted.items():
        sayings.append(Saying(notes[number].line, notes[number].text, tuple(place.key for place in mine)))
    return sayings


def _elsewhere(lines: Sequence[str], free: set[int], keys: set[str]) -> list[Saying]:
    """Lines without values that name keys, with what goes on below."""
    sayings: list[Saying] = []
    taken = 0
    for number in sorted(free):
        text = lines[number - 1]
        indent = len(text) - len(text.lstrip())
        if number <= taken or not text.strip():
            continue
        taken = number
        while taken + 1 in free and _indent(lines[taken]) > indent and lines[taken].strip():
            text, taken = f"{text} {lines[taken].strip()}", taken + 1
        if any(word.strip(".,;:()") in keys for word in text.split()):
            sayings.append(Saying(number, text.strip(_EDGES), ()))
    return sayings


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip())


def _above(lines: Sequence[str], places: Sequence[KeyPlace], free: set[int]) -> list[Saying]:
    """Lines right above runs of keys that nothing stands behind."""
    runs: dict[int, list[KeyPlace]] = {}
    for place in places:
        above = place.line - 1
        while above and above not in free and lines[above - 1].strip():
            above -= 1
        if above in free and not place.behind.strip(_EDGES) and lines[above - 1].strip():
            runs.setdefault(above, []).append(place)
    sayings = []
    for above, run in runs.items():
        text = re.sub(r"^\s*\d+[.):]?\s+", "", lines[above - 1]).strip(_EDGES)
        if text and len(run) <= 8:
            sayings.append(Saying(above, text[:LONGEST], tuple(place.key for place in run)))
    return sayings


class _Listener:
    """Hears what a text says in its order, and keeps what each key means."""

    def __init__(self, keys: set[str], notes: Mapping[str, NumberedNote]) -> None:
        self.keys, self.notes = keys, notes
        self.explained: dict[str, Explained] = {}
        self.last: tuple[str, ...] = ()  # the parts of what was said last
        self.token = re.compile(r"[^\s,;:()\[\]/]+(?:/[^\s,;:()\[\]/]+)?")

    def hear(self, saying: Saying) -> None:
        text = saying.text
        mentioned = self.mentions(text, saying.keys)
        if len(mentioned) > 1 or (mentioned and mentioned[0][2] not in saying.keys):
            self.tell(self.by_mention(text, mentioned), True)
        elif not saying.keys:
            return
        elif len(saying.keys) > 1:
            parts = parts_of(text, len(saying.keys))
            head, sign, own = parts[0].rpartition(": ") if parts else ("", "", "")
            if sign and not any(":" in part for part in parts[1:]):
                parts = [f"{head}, {part}" for part in (own, *parts[1:])]
            if len(parts) == len(saying.keys):
                self.tell(list(zip(saying.keys, parts, strict=True)), True)
        else:
            if mentioned:
                text = text[mentioned[0][1] :].strip(" :=–—-") or text
            self.tell([(saying.keys[0], text)], self.with_references(text) != saying.text)

    def tell(self, words_of: list[tuple[str, str]], borrowed: bool) -> None:
        """Keep words for keys. The first's head lends itself to those that cannot stand alone."""
        first = ""
        parts: list[str] = []
        for at, (key, words) in enumerate(words_of):
            words = self.with_references(words)
            if is_same(words):
                before = self.last[min(at, len(self.last) - 1)] if self.last and not parts else first
                text = resolved(words, before or first)
                parts.append(before or text)  # a further "same" points there too
            else:
                text = completed(words, first) if first else words
                parts.append(text)
            first = first or text
            aside = lent_head(words, first) if at and text == words else ""
            self.explained.setdefault(key, Explained(text[:LONGEST], aside, borrowed or text != words))
        self.last = tuple(parts) or self.last

    def mentions(self, text: str, owners: Sequence[str]) -> list[tuple[int, int, str]]:
        """Where a text names keys to say something of them: by their whole name, or by the ending that tells those that
        it stands beside apart.
        """
        endings = {ending_of(key): key for key in owners} if len(owners) > 1 else {}
        endings = endings if len(endings) == len(owners) else {}
        places = []
        for match in self.token.finditer(text):
            word = match[0].strip(".'\"")
            begins = text[: match.start()].rstrip()[-1:] in ("", ";", ":", ",", ".")
            key = word if word in self.keys and is_no_word(word) else endings.get(word, "") if begins else ""
            if key and not _REFERS.search(text[: match.start()]):
                places.append((match.start(), match.end(), key))
        return places

    def by_mention(self, text: str, mentioned: list[tuple[int, int, str]]) -> list[tuple[str, str]]:
        """The words for each key that a text names: behind it, or in the order in which they are listed."""
        listed = [mentioned[0]]
        for one in mentioned[1:]:
            if _AND.fullmatch(text[listed[-1][1] : one[0]]) is None:
                break
            listed.append(one)
        if len(listed) == len(mentioned) > 1:
            before, behind = text[: listed[0][0]].strip(" ,;:."), text[listed[-1][1] :]
            parts = parts_of(_ORDER.sub("", behind).strip(" ,;:=–—-"), len(listed))
            if len(parts) != len(listed):
                parts = parts_of(_ORDER.sub("", behind).strip(" ,;:="), 1) * len(listed)
            head = f"{before}, " if before else ""
            return [(one[2], f"{head}{part}") for one, part in zip(listed, with_heads(parts), strict=True)]
        head = text[: mentioned[0][0]].strip(" ,;:.–—-")
        ends = [*(one[0] for one in mentioned[1:]), len(text)]
        words_of = []
        for (_, stop, key), end in zip(mentioned, ends, strict=True):
            words = text[stop:end].strip(" ,;:.=·–—-")
            if words:
                words_of.append((key, f"{head}, {words}" if head and not is_same(words) else words))
        return words_of

    def with_references(self, text: str) -> str:
        """A text with the words of the keys and notes in place of "as B23", and the legend of "letters as in B23"."""
        for match in self.token.finditer(text):
            word = match[0].strip(".'\"")
            before = text[: match.start()]
            like = next((one for one in _LIKE.finditer(before) if one.end() == len(before)), None)
            legend = _LEGEND_OF.search(before)
            words = self.words_of(word, before)
            if not words or not (like or legend):
                continue
            if legend:
                meaning = legend_in(words)
                return f"{before[: legend.start()].strip(' ,;:')} ; {meaning}" if meaning else text
            assert like is not None
            rest = text[match.end() :].strip(" ,;:.")
            rest = re.sub(r"^(?:but|only|just|aber|nur|mais)\b\s*(?:only|nur)?\s*", "", rest)
            return f"{before[: like.start()]}{resolved(f'same, {rest}' if rest else 'same', words)}".strip()
        return text

    def words_of(self, word: str, before: str) -> str:
        if word in self.explained and is_no_word(word):
            return self.explained[word].text
        note = self.notes.get(word)
        return (
            note.text if note and (word[0].isalpha() or before.rstrip().casefold().endswith(("note", "anm."))) else ""
        )
