"""What all lines of a text have besides key and value, and tables of more than two columns: forms of lines.

Comes in: lines that are no headings and remarks. Goes out: sets of forms for ``[text] lines``, each a guess at how the
text is to be read; others judge which is best. Knows no settings.
"""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import find_unit
from profilesmith.suggest.detect_columns import column_forms
from profilesmith.suggest.detect_delimiters import NUMBER, find_layout, is_value
from profilesmith.suggest.detect_enclosed import enclosed_forms, tick_forms
from profilesmith.suggest.detect_marks import find_marks_behind
from profilesmith.text.cuts import BEFORE_NUMBER, COLUMNS
from profilesmith.text.line_forms import is_line_form

MOST = 0.6  # the share of lines that begin or end alike where that is no part of a key or a value
FEWEST = 8  # lines of a form
FEWEST_OF_WORD = 2  # lines that a word parts
_NUMBERED = re.compile(r"[#(\[]?(\d+)[.):\]]?(?=\s+\S)")
_BULLETS = re.compile(r"(?:[-*•·–—+>o▪◦‣]|\[[ xX✓]?\]|\([ xX✓]?\)|[☐☑☒□■✓✗])(?=\s+\S)")
_LAST = re.compile(r"\s+([^\W\d_]{2,12}\.?)$|\s*([;.,|])$")
_SIGN_BEHIND = re.compile(
    rf".{{1,60}}?(?P<border>\s*(?:->|=>|:=|[=:|;–—])\s*|\s{{2,}}|\t)(?:{NUMBER}|[^\W\d_]\w*)"
    r"(?P<sign> ?[\[({^]\d{1,3}[\])}]?|[*†‡]{1,3}| [^\s\d]{1,3})(?=\s|\Z)"
)
_FURTHER = re.compile(rf"\s*[/,;|&+]?\s*{NUMBER}(?:\s|\Z)")
_WORD = r"[^\W\d_][\w'-]*"
_KEY_BEHIND = re.compile(rf"(?P<value>{NUMBER}|[^\W\d_]\w*) (?P<sign>{_WORD}) (?P<key>{_WORD}.*)")
_VALUE_BEHIND = re.compile(rf"(?P<key>[^\d]*[^\W\d_]) (?P<value>{NUMBER})(?:\s.*)?")
_ASIDE = re.compile(r"\w {2,}\S.*\w")
_ASKED = re.compile(r"\w\? +[^\W\d_]{1,8}\b")
_ODD_FOR_FORMS = frozenset((BEFORE_NUMBER,))


class LineGuess(NamedTuple):
    """Forms of lines, and the marks of remarks behind values in them. framed: lines begin or end with what is no part
    of a key or a value, and would else be taken for one.
    """

    forms: tuple[str, ...]
    marks: tuple[str, ...] = ()
    framed: bool = False


class Framed(NamedTuple):
    """Lines without what they all begin and end with, and the forms of that."""

    cores: list[str]
    before: tuple[str, ...]
    behind: str


def line_form_guesses(lines: Sequence[str]) -> Iterator[LineGuess]:
    """Sets of forms, the likelier first; none where the lines have nothing besides keys, signs and values."""
    bodies = [line.strip() for line in lines if line.strip()]
    if len(bodies) < FEWEST:
        return
    for guess in _guesses(bodies):
        yield guess._replace(forms=(*guess.forms, *tick_forms(bodies, guess.forms)))


def _guesses(bodies: list[str]) -> Iterator[LineGuess]:
    yield from map(LineGuess, column_forms(bodies))
    framed = _framed(bodies)
    words = _word_signs(framed.cores)
    yield from _with_signs(framed)
    yield from _led(framed)
    yield from (LineGuess(forms, framed=True) for forms in enclosed_forms(framed.cores, framed.before))
    layout = find_layout(framed.cores)
    if framed.before == ("",) and not framed.behind and not words and not layout.value_first:
        return
    signs = [sign for sign in layout.delimiters if sign not in _ODD_FOR_FORMS]
    backward = words[:1] == ["<"]
    places = ("{value}", "{key}") if layout.value_first or backward else ("{key}", "{value}")
    signs = words[1:] if backward else list(dict.fromkeys([*(one for one in signs if one != " " or not words), *words]))
    forms = tuple(
        f"{head}{places[0]}{_spaced(sign)}{places[1]}{framed.behind}" for sign in signs for head in framed.before
    )
    if places[0] == "{value}" and sum(bool(_ASIDE.search(core)) for core in framed.cores) >= FEWEST_OF_WORD:
        forms = (*(f"{form}  {{any}}" for form in forms), *forms)
    elif framed.before == ("",) and not framed.behind and not words:
        return
    if forms and all(map(is_line_form, forms)):
        yield LineGuess(
            forms, find_marks_behind(framed.cores, (), tuple(signs)), framed.before != ("",) or bool(framed.behind)
        )


def _with_signs(framed: Framed) -> Iterator[LineGuess]:
    """Lines with a short sign behind most values, such as a letter that stands for the unit."""
    signs: Counter[str] = Counter()
    borders: Counter[str] = Counter()
    several = 0
    for core in framed.cores:
        match = _SIGN_BEHIND.match(core)
        several += bool(match and _FURTHER.match(core, match.end()))
        if match and (find_unit(match["sign"].strip()) is None or len(match["sign"].strip()) == 1):
            signs[match["sign"].strip()] += 1
            borders[match["border"].strip()] += 1
    if several >= FEWEST_OF_WORD:  # values of further tools are no remarks
        return
    total = sum(signs.values())
    noted = sum(times for sign, times in signs.items() if not sign[0].isalpha()) * 2 > total
    if total >= FEWEST and total * 2 >= len(framed.cores) * MOST and (noted or len(signs) * 3 <= total):
        border = borders.most_common(1)[0][0]
        behind = next((f"{one}{{any}}" for one in "[({" if noted and next(iter(signs))[0] == one), " {any}")
        yield LineGuess(tuple(f"{head}{{key}}{_spaced(border)}{{value}}{behind}" for head in framed.before))


def _led(framed: Framed) -> Iterator[LineGuess]:
    """Rows of dots to a value, and a further column behind it."""
    for dots in ("..", "__", "--", "··"):
        row = re.compile(rf".*?\w *{re.escape(dots[0])}{{3,}} *{NUMBER}\S* {{2,}}\S")
        if sum(bool(row.match(core)) for core in framed.cores) >= FEWEST:
            forms = [f"{head}{{key}} {dots} {{value}}" for head in framed.before]
            yield LineGuess((*(f"{form}  {{any}}" for form in forms), *forms))


def _spaced(sign: str) -> str:
    """A sign as it stands in a form: words and dashes keep their blanks."""
    if sign == COLUMNS or not sign.strip():
        return COLUMNS if sign == "\t" else sign
    return f" {sign} " if sign[0].isalnum() or sign in ("-", "–", "—", "~", ">") else sign


def _framed(bodies: list[str]) -> Framed:
    numbered = [int(match[1]) for body in bodies if (match := _NUMBERED.match(body))]
    rising = sum(one < other for one, other in pairwise(numbered))
    bullets = Counter(match[0] for body in bodies if (match := _BULLETS.match(body)))
    more = sum(any(map(str.isdigit, body[match.end() :])) for body in bodies if (match := _NUMBERED.match(body)))
    if len(numbered) >= MOST * len(bodies) and more * 3 >= len(bodies) and rising >= 0.9 * (len(numbered) - 1):
        bodies = [body[match.end() :].strip() for body in bodies if (match := _NUMBERED.match(body))]
        before: tuple[str, ...] = ("{number} ",)
    elif sum(bullets.values()) >= MOST * len(bodies) or sum(bullets.values()) >= 3 * FEWEST:
        bodies = [body[match.end() :].strip() for body in bodies if (match := _BULLETS.match(body))]
        before = tuple(f"{bullet} " for bullet, times in bullets.most_common(3) if times > 1)
    else:
        before = ("",)
    ends = Counter(match[1] or match[2] for body in bodies if (match := _LAST.search(body)))
    end, times = ends.most_common(1)[0] if ends else ("", 0)
    if times < max(MOST * sum(any(map(str.isdigit, body)) for body in bodies), FEWEST):
        return Framed(bodies, before, "")
    cores = [body.removesuffix(end).strip() for body in bodies if body.endswith(end)]
    return Framed(cores, before, f" {end}" if end[0].isalpha() else end)


def _word_signs(cores: Sequence[str]) -> list[str]:
    """The words that part keys from values, as signs do; "<" first where the key stands behind its value."""
    behind = Counter(match["sign"] for core in cores if (match := _KEY_BEHIND.fullmatch(core)))
    sign, times = behind.most_common(1)[0] if behind else ("", 0)
    if times >= max(FEWEST, len(cores) // 3):
        return ["<", sign]
    before: Counter[str] = Counter()
    for match in (_VALUE_BEHIND.fullmatch(core) for core in cores if not _signed(core)):
        words = match["key"].split() if match else []
        before.update({" ".join(words[-1:]), " ".join(words[-2:])} if len(words) > 2 else ())
    longer = {word for word in before if " " in word and before[word] == before[word.rpartition(" ")[2]]}
    tails = {word.rpartition(" ")[2] for word in longer}
    signs = [word for word, times in before.most_common(8) if times >= FEWEST_OF_WORD and word.islower()]
    asked = sum(bool(_ASKED.search(core)) for core in cores) >= FEWEST_OF_WORD
    return [*["?"] * asked, *(word for word in signs if word in longer or (word not in tails and " " not in word))]


def _signed(core: str) -> bool:
    return bool(re.search(r"\s(?:=|->|=>|\.\.\.?|–|—)\s|:\s|\?\s", core)) and is_value(core)
