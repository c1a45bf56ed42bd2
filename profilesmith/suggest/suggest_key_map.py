"""Texts to a Suggestion: the whole of this room behind one class."""

from collections.abc import Sequence

from profilesmith.facts.facts import Facts
from profilesmith.suggest.certainty import judge
from profilesmith.suggest.detect_habits import Writing
from profilesmith.suggest.doubts import ProposedSlot, told
from profilesmith.suggest.evidence import evidence_for
from profilesmith.suggest.form import form_of, usual_list
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.suggest.proposal import CHECK, SURE, Alternative, Entry, Proposal, Suggestion
from profilesmith.suggest.propose import ProposedReading, propose
from profilesmith.suggest.reasons import reasons_for
from profilesmith.text.document import Document
from profilesmith.translation.check_key_map import is_one_line
from profilesmith.translation.key_map import KeyMap

MOST_ALTERNATIVES, WORST_ALTERNATIVE, FARTHEST_ALTERNATIVE = 6, -4.0, 6.0
SHOWN_ALTERNATIVES = 3
LONGEST_TEXT = 80
MANY_LINES, FEW_SURE, MOST_SURE = 30, 8, 0.6
"""Of a text that is hardly recognised: lines, sure proposals, and the share of all proposals that they are."""


class Suggester:
    """One reading of some texts, asked for proposals: first for the best of all, later for what a person would rather
    have.
    """

    def __init__(
        self,
        documents: Sequence[Document],
        writing: Writing,
        facts: Facts | None = None,
        key_map: KeyMap | None = None,
        reading: ProposedReading | None = None,
    ) -> None:
        """key_map: the map so far, which may name keys that are to be left alone. reading: of these documents, where
        they were read so already, without facts and without a map.
        """
        self.documents, self.writing, self.key_map = documents, writing, key_map
        self.lexicon = load_lexicon()
        if reading is None or facts or key_map is not None:
            reading = propose(tuple(documents), writing, self.lexicon, facts or {}, self.left_alone)
        self.reading = reading

    def left_alone(self, section: str, key: str) -> bool:
        """Whether the map so far says that a key holds none of the settings."""
        return self.key_map is not None and self.key_map.leaves_alone(section, key)

    def suggestion(self, name: str) -> Suggestion:
        """Proposals for every setting that some key may hold."""
        chosen = self.reading.chosen
        settings = [setting for setting in self.reading.schemas.named if setting in chosen]
        proposals = without_loose_references([self.proposal(setting, chosen[setting]) for setting in settings])
        proposals = doubtful_where_little_is_read(proposals, sum(len(one.assignments) for one in self.documents))
        proposals = self._less_taken_alternatives(proposals)
        proposals = [item for item in proposals if is_one_line(item.key + item.section + _words_of(item))]
        taken = {item.place[:2] for item in proposals}
        places = dict.fromkeys((item.section, item.key) for document in self.documents for item in document.assignments)
        left_alone = {place for place in places if self.left_alone(*place)}
        held = {item.setting for item in proposals}
        missing = tuple(setting for setting in self.reading.schemas.named if setting not in held)
        return Suggestion(
            name=name,
            language=self._language(),
            text=self._text_entries(),
            proposals=tuple(proposals),
            missing=missing,
            leftover=tuple(_pointed_at(place) for place in places if place not in taken | left_alone),
            left_alone=tuple(_pointed_at(place) for place in places if place in left_alone),
        )

    def _less_taken_alternatives(self, proposals: list[Proposal]) -> list[Proposal]:
        """A key that surely holds something else is no alternative."""
        sure = {self.reading.chosen[item.setting] for item in proposals if item.certainty == SURE}
        return [
            item._replace(
                alternatives=tuple(other for other in item.alternatives if other.slot not in sure)[:SHOWN_ALTERNATIVES]
            )
            for item in proposals
        ]

    def proposal(self, setting: str, index: int) -> Proposal:
        """A slot for a setting, with how certain that is."""
        reading = self.reading
        slot = reading.slots[index]
        way = reading.ways[setting] if reading.chosen.get(setting) == index else reading.scores[index][setting].way
        form = form_of(setting, slot, way, reading, self.writing, self.lexicon)
        evidence = evidence_for(setting, index, reading)
        missed = judge(evidence, reading.odd.get(setting, ""), bool(form.doubts))
        doubts = (*form.doubts, *told(missed, ProposedSlot(setting, index, way, evidence, reading)))
        return Proposal(
            setting=setting,
            section=slot.assignment.section,
            key=slot.assignment.key,
            binding=form.entries,
            certainty=CHECK if doubts else SURE,
            reasons=(*reasons_for(setting, slot, way, evidence, reading), *form.notes),
            doubts=doubts,
            alternatives=self._alternatives(setting, index, evidence.score),
            file=self.documents[slot.document].name,
            line=slot.assignment.line,
            text=slot.raw[:LONGEST_TEXT],
            founded=evidence.founded,
        )

    def _alternatives(self, setting: str, index: int, score: float) -> tuple[Alternative, ...]:
        """The next best slots, nearest first."""
        reading = self.reading
        others = sorted(
            (
                (options[setting].score, -at)
                for at, options in enumerate(reading.scores)
                if at != index and setting in options
            ),
            reverse=True,
        )
        bar = max(WORST_ALTERNATIVE, score - FARTHEST_ALTERNATIVE)
        return tuple(
            Alternative(slot.name, slot.text, slot.assignment.line, -at)
            for value, at in others[:MOST_ALTERNATIVES]
            if value > bar
            for slot in (reading.slots[-at],)
        )

    def _text_entries(self) -> dict[str, Entry]:
        """The ``[text]`` table: everything that was detected, so that a later version reads the text alike."""
        writing = self.writing
        delimiters = writing.habits.delimiters
        entries: dict[str, Entry] = {
            "comments": list(writing.habits.comments or ()),
            "inline_comments": bool(writing.habits.inline),
            "delimiter": list(delimiters) if len(delimiters) > 1 else writing.habits.delimiter or "=",
            "decimal": writing.decimal,
        }
        if writing.habits.headings:
            entries["headings"] = list(writing.habits.headings)
        if writing.habits.next_key:
            entries["next_key"] = writing.habits.next_key
        if writing.habits.value_first:
            entries["value_first"] = True
        if writing.habits.lines:
            entries["lines"] = list(writing.habits.lines)
        if writing.words:
            entries |= {"on": writing.words[0], "off": writing.words[1]}
        entries["list"] = usual_list(self.reading, writing)
        if writing.duplicates:
            entries["duplicates"] = writing.duplicates
        return entries

    def _language(self) -> str:
        """The language that most words of the chosen keys are of."""
        slots = (self.reading.slots[index] for index in self.reading.chosen.values())
        return self.lexicon.language_of(term.text for slot in slots for term in slot.own if not term.small)


def _pointed_at(place: tuple[str, str]) -> str:
    section, key = place
    return f"[{section}] {key}" if section else key


def _words_of(item: Proposal) -> str:
    """Every text of a binding that comes from the base."""
    entries = item.binding.values()
    return "".join(
        [
            *(one for one in entries if isinstance(one, str)),
            *(word for one in entries if isinstance(one, dict) for word in one.values()),
        ]
    )


def doubtful_where_little_is_read(proposals: list[Proposal], lines: int) -> list[Proposal]:
    """Nothing is sure where next to nothing of many lines is: they may be divided otherwise than they are read."""
    sure = sum(item.certainty == SURE for item in proposals)
    if lines < MANY_LINES or sure >= FEW_SURE or sure > MOST_SURE * len(proposals):
        return proposals
    doubt = "Little of this text is recognised: its lines may be divided in another way."
    return [
        item._replace(certainty=CHECK, doubts=(*item.doubts, doubt)) if item.certainty == SURE else item
        for item in proposals
    ]


def without_loose_references(proposals: list[Proposal]) -> list[Proposal]:
    """A sure binding that is relative to a setting that is not sure would not load alone: it is to be checked too."""
    while True:
        sure = {item.setting for item in proposals if item.certainty == "sure"}
        loose = [
            item
            for item in proposals
            if item.certainty == "sure" and item.binding.get("relative_to") not in (None, *sure)
        ]
        if not loose:
            return proposals
        names = {item.setting for item in loose}
        proposals = [
            item._replace(
                certainty="check",
                doubts=(*item.doubts, f"It is a share of {item.binding['relative_to']}, which is to be checked."),
            )
            if item.setting in names
            else item
            for item in proposals
        ]
