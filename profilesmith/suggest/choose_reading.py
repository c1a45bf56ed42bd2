"""Which of several ways of dividing a text's lines is the best: the one in which most lines come out as settings.

Comes in: documents as they are read first. Goes out: the habits that they should be read with, and where ways were
compared, what the best one came to.
"""

from collections.abc import Iterator, Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.suggest.detect_habits import find_habits, writing_of
from profilesmith.suggest.detect_line_forms import line_form_guesses
from profilesmith.suggest.lexicon import Lexicon
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.propose import ProposedReading, propose
from profilesmith.text.document import Document, Habits
from profilesmith.text.heading_forms import HeadingForms
from profilesmith.text.read_document import read_document

FEWEST_READ = 8  # lines that a way of reading must read at all
CLEARLY = 1.03  # how much better another way must be than the usual one
ALIKE = 0.97  # so good it must be where the usual one takes what all lines begin with for a part of their keys
MOST_LINES = 2000  # of a text whose lines may have forms of their own


class BestReading(NamedTuple):
    """The habits, and what is proposed where nothing is known of the machine and no map exists; None where no other way
    was tried.
    """

    habits: Habits
    reading: ProposedReading | None


def best_reading(documents: Sequence[Document]) -> BestReading:
    """How some files that belong together are read."""
    usual = find_habits(document.text for document in documents)
    others = dict(other_habits(documents, usual))
    if not others:
        return BestReading(usual, None)
    lexicon = load_lexicon()
    readings = {habits: _reading(documents, habits, lexicon) for habits in (usual, *others)}
    worth = {habits: _worth(reading) for habits, reading in readings.items()}
    needed = {habits: ALIKE if framed else CLEARLY for habits, framed in others.items()}
    best = max(others, key=lambda habits: worth[habits])
    chosen = best if worth[best] > needed[best] * worth[usual] + (not others[best]) else usual
    return BestReading(chosen, readings[chosen])


def other_habits(documents: Sequence[Document], usual: Habits) -> Iterator[tuple[Habits, bool]]:
    """Other ways of dividing the lines, for what they have besides keys, signs and values; and whether that is no
    part of them.
    """
    lines = [line for document in documents for line in _lines_of(document, usual)]
    if len(lines) > MOST_LINES:
        return
    for guess in line_form_guesses(lines):
        laid_out = usual._replace(lines=guess.forms, next_key="", value_first=False)
        yield laid_out._replace(comments=guess.marks, inline=bool(guess.marks)), guess.framed
        further = tuple(mark for mark in usual.comments or () if mark not in guess.marks)
        if further and not guess.framed:
            yield laid_out._replace(comments=(*guess.marks, *further), inline=bool(guess.marks)), False


def _lines_of(document: Document, usual: Habits) -> Iterator[str]:
    """The lines that head nothing."""
    forms = HeadingForms(usual.headings, ())
    for line in document.lines():
        body = line.strip()
        if body and forms.span(body, True) is None:
            yield line


def _reading(documents: Sequence[Document], habits: Habits, lexicon: Lexicon) -> ProposedReading | None:
    """What is proposed for one way of reading; None where it reads hardly a line."""
    read = tuple(read_document(one.codec.encode(one.text), one.name, habits) for one in documents)
    if sum(len(document.assignments) for document in read) < FEWEST_READ:
        return None
    return propose(read, writing_of(read, habits, lexicon), lexicon, {})


def _worth(reading: ProposedReading | None) -> float:
    """How much all proposals together speak for a way of reading."""
    if reading is None:
        return 0.0
    return sum(max(0.0, reading.scores[index][name].score) for name, index in reading.chosen.items())
