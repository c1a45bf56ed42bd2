"""Lines in which a blank is filled in, a key stands in brackets, or something in brackets stands before the sign.

``tip opening ____0.4____ mm``, ``« height of a layer » ‹II› 0,2``, ``fill, pace /mm/s/ : 66. Formerly 72.``

Comes in: lines without what all begin with, and what that is. Goes out: forms of lines. Knows no settings.
"""

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from profilesmith.suggest.detect_delimiters import NUMBER
from profilesmith.text.line_forms import LineForms

FEWEST = 8  # lines of a form
_BLANK = re.compile(r"\S.*?\s*_{2,}\s*[^_\s][^_]*?\s*_{2,}.*")
_PAIRS = {"‹": "›", "<": ">", "«": "»", "(": ")", "[": "]", "{": "}", "<<": ">>", "|": "|", "/": "/"}
_OPEN, _CLOSE = r"(?P<open><<|[‹<«(\[{|/])", r"(?P<close>>>|[›>»)\]}|/])"
_BRACKETED_KEY = re.compile(
    rf"(?P<before>.*?){_OPEN}\s*(?P<key>[^\s‹›<>«»()\[\]{{}}|]{{1,8}})\s*{_CLOSE}"
    rf"(?P<sign>\s*[:=]?)\s*(?:{NUMBER}|[^\W\d_]+)(?P<behind>.*)"
)
_BEFORE_SIGN = re.compile(
    rf"[^:=]*?\S\s*{_OPEN}[^()\[\]{{}}<>:=]{{1,40}}?{_CLOSE}\s*(?P<sign>[:=]|->)\s*(?:{NUMBER}|[^\W\d_]+)(?P<behind>.*)"
)
_SENTENCE = re.compile(r".{0,12}?(?:\.\s+|\s+(?=[A-ZÄÖÜÉ]))\S")
_TICK = r"(?:\[[ xX✓]?\]|\([ xX✓]?\)|[☐☑☒])"
_BOX = re.compile(rf"(?P<number>\d*)(?P<border>[.:)]?\s*[|;]?)\s*{_TICK}\s+[^\W\d_].*[^\W\d_]")
_TICKED = re.compile(rf"{_TICK}(?:\s|\Z)")


def enclosed_forms(cores: Sequence[str], before: Sequence[str]) -> Iterator[tuple[str, ...]]:
    """Sets of forms, where enough lines have one."""
    if sum(bool(_BLANK.fullmatch(core)) for core in cores) >= FEWEST:
        forms = [f"{head}{{key}} __{{value}}__{{any}}" for head in before]
        ticks = any(_TICKED.match(head) for head in before)
        yield (*forms, *(("{tick} {key}",) if ticks else ()))
    yield from _bracketed_keys(cores)
    yield from _before_signs(cores, before)


def tick_forms(bodies: Sequence[str], forms: Sequence[str]) -> tuple[str, ...]:
    """Forms of lines that hold a box and words alone, besides those that a text has anyway."""
    known = LineForms(tuple(forms))
    matches = [match for body in bodies if (match := _BOX.fullmatch(body)) and known.spans(body) is None]
    signs = []
    for match in matches:
        border = match["border"].strip() if match["number"] else ""
        signs.append(f"{{number}}{border} " if match["number"] else "")
    return tuple(dict.fromkeys(f"{sign}{{tick}} {{key}}" for sign in signs))


def _bracketed_keys(cores: Sequence[str]) -> Iterator[tuple[str, ...]]:
    matches = [match for core in cores if (match := _BRACKETED_KEY.fullmatch(core)) and _paired(match)]
    pairs = Counter((match["open"], match["close"], match["sign"].strip()) for match in matches)
    for (left, right, sign), times in pairs.most_common(1):
        mine = [match for match in matches if (match["open"], match["close"]) == (left, right)]
        if times < FEWEST or len({match["key"] for match in mine}) * 10 < 9 * len(mine):
            continue
        head = "{any} " if sum(bool(match["before"].strip()) for match in mine) * 2 > len(mine) else ""
        form = f"{head}{left}{{key}}{right}{f' {sign} ' if sign else ' '}{{value}}"
        aside = next((one for one in "([{~" if sum(f" {one}" in match["behind"] for match in mine) > 1), "")
        yield (*((f"{form} {aside}{{any}}",) if aside else ()), form)


def _before_signs(cores: Sequence[str], before: Sequence[str]) -> Iterator[tuple[str, ...]]:
    matches = [match for core in cores if (match := _BEFORE_SIGN.fullmatch(core)) and _paired(match)]
    if len(matches) * 2 < len(cores) or len(matches) < FEWEST:
        return
    (left, right, sign), _ = Counter((match["open"], match["close"], match["sign"]) for match in matches).most_common(
        1
    )[0]
    said = sum(bool(_SENTENCE.match(match["behind"])) for match in matches) * 2 > len(matches)
    forms = [f"{head}{{key}} {left}{{any}}{right} {sign} {{value}}" for head in before]
    yield (*([f"{form}. {{any}}" for form in forms] if said else ()), *forms)


def _paired(match: re.Match[str]) -> bool:
    return _PAIRS.get(match["open"]) == match["close"]
