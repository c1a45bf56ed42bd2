"""After the print: a derived text with its ledger, its review as it stands now, what to change, and the motion file.

Everything comes as bytes: the derived text, the ledger beside it, and for a mend the text that it was derived from.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from profilesmith.browser import shown, shown_advice
from profilesmith.browser.laid_files import LaidFiles, lay, recipes_of
from profilesmith.browser.offer import LEDGER, Offer
from profilesmith.engine.advice import advice_json
from profilesmith.engine.call_again import call_again
from profilesmith.engine.derive import Derivation
from profilesmith.engine.derived_file import answers_then, facts_then, followed_then, shares_then
from profilesmith.engine.judge_motion import Known, judge_motion, spool_of
from profilesmith.engine.ledger_file import ledger_bytes
from profilesmith.engine.mend import Said, mend
from profilesmith.engine.mended import laid_for, mended_road, mends_first, road_back, undoable, with_road
from profilesmith.engine.read import Ingredients, Source, document_of, ingredients
from profilesmith.engine.rederive import DerivedThen, How, rederive
from profilesmith.engine.review import review_again
from profilesmith.foundation.digest import sha256_hex
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger.json_text import json_text
from profilesmith.ledger.not_as_then import NotAsThen
from profilesmith.mend.load_troubles import parse_troubles, shipped_troubles
from profilesmith.mend.road import RoadStep, road_of
from profilesmith.motion.practice import Practice
from profilesmith.motion.words_map import read_words_map
from profilesmith.review.consequences import alarming, headline
from profilesmith.review.motion.report import motion_review
from profilesmith.review.render import render
from profilesmith.review.wording import visible
from profilesmith.text.document import Document
from profilesmith.translation.document_to_profile import translate
from profilesmith.translation.key_map import KeyMap
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

Json = dict[str, Any]
Answer = tuple[Json, list[bytes]]


class AfterPrint:
    """laid: the files on the table; made: the derivation that a mend has made ready to be taken along."""

    def __init__(self, offer: Offer) -> None:
        self.offer = offer
        self.known, problems = parse_troubles(offer.trouble_files, load_vocabulary(), shipped_troubles())
        refuse_if(problems)
        self.laid: LaidFiles | None = None
        self.made: Derivation | None = None
        self.advice = b""

    def troubles(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """What may be said of a print."""
        return shown_advice.troubles(self.known), []

    def open(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """Take files in, in any order, and tell what they are, what is missing, and how the derived text stands."""
        sources = [Source(name, bytes(raw)) for name, raw in zip(asked["names"], raws, strict=True)]
        self.laid = laid = lay(sources, self.offer)
        self.made, file = None, laid.file
        missing = [text.name for text in file.texts if not text.there]
        answer = {
            "name": visible(file.name),
            "outputs": [visible(text.name) for text in file.texts],
            "missing": missing,
            "bases": [] if laid.bases else [visible(item.name) for item in laid.stored.file.files],
            "map": "" if laid.key_map else visible(laid.map_name),
            "road": len(undoable(road_of(laid.stored.file.mends, load_vocabulary()))),
            "proposed": shown.next_name(file.name),
        }
        if missing:
            return answer, []
        again = review_again(file)
        answer |= {"edited": list(again.edited), "headline": headline(again.review)}
        return answer, [_page(again.review)]

    def advise(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """What to change after what the print showed; where it is a setting, the mended texts are made ready."""
        laid, said = self._whole(), _said(asked)
        given = self._given(laid, ())
        now = translate(_edited(laid), given.translation.key_map, load_vocabulary())
        refuse_if(now.problems)
        mended = mend(laid.file.name, laid.stored, now.profile, given, said, self.known)
        self.advice = json_text(advice_json(mended)).encode()
        self.made = self._carried_on(laid, mended_road(mended, said)) if mended.chosen or said.last else None
        return {**shown_advice.advice(mended, self.known), "writes": self.made is not None}, [self.advice]

    def undo(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """The last mend taken back, made ready."""
        laid = self._whole()
        self.made = self._carried_on(laid, road_back(laid.file.name, laid.stored, _said(asked)))
        return {"writes": True}, []

    def take_mended(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """The mended texts with their ledger, and the review of them. name: of the text, where there is but one."""
        if self.laid is None or self.made is None:
            raise Refused([Problem("no-mend", "There is no setting to change.", hint="Say what the print showed.")])
        names = [text.name for text in self.laid.file.texts]
        names = [asked["name"]] if len(names) == 1 else names
        raw = ledger_bytes(self.made, names, self.laid.stored.file.key_map_file)
        files = [*zip(names, self.made.outputs, strict=True), (f"{names[0]}{LEDGER}", raw)]
        files.append((f"{shown.stem(names[0])}-review.html", _page(self.made.review)))
        return {"names": [name for name, _ in files]}, [raw for _, raw in files]

    def motion(self, asked: Json, raws: Sequence[bytes]) -> Answer:
        """A motion file held against the ledger that lies on the table, if one does. raws: it in pieces, in order.

        words: the text of a words map, "" for none.
        """
        stored = self.laid.stored if self.laid else None
        practice, problems = read_words_map(asked["words"].encode(), "words") if asked["words"] else (Practice(), [])
        refuse_if(problems or ([] if any(map(len, raws)) else [_empty(asked["name"])]))
        known = Known(stored.ledger if stored else None, practice or Practice(), {}, stored)
        figures, judged = judge_motion(map(bytes, raws), asked["name"], known)
        against = self.laid.file.name if self.laid else ""
        spool = spool_of(known, figures)
        review = motion_review(asked["name"], against, figures, judged, spool, load_vocabulary())
        return {"headline": headline(review), "alarming": alarming(review)}, [_page(review)]

    def _whole(self) -> LaidFiles:
        """All that a mend needs. Raises Refused with what is missing."""
        laid = self.laid
        assert laid is not None
        gone = [text.name for text in laid.file.texts if not text.there]
        problems = [Problem("no-text", f"The derived text {name} is missing.", hint="Choose it, too.") for name in gone]
        if laid.key_map is None:
            problems.append(Problem("no-map", f"The key map {laid.map_name} is missing.", hint="Choose it, too."))
        if not laid.bases:
            names = ", ".join(item.name for item in laid.stored.file.files)
            hint = "Choose it, too: how far a value may go is worked out from it."
            problems.append(Problem("no-base", f"The text that this was derived from is missing: {names}.", hint=hint))
        refuse_if(problems)
        return laid

    def _given(self, laid: LaidFiles, over: Sequence[Source]) -> Ingredients:
        """What was derived from, read again. over: the recipes of this profile alone. Raises Refused."""
        assert laid.file.key_map is not None
        problems: list[Problem] = []
        answers, _ = answers_then(laid.stored, laid.named)
        documents = _documents(laid.bases, laid.file.key_map, problems)
        key_map = laid.file.key_map.with_shares(shares_then(laid.stored))
        recipes = [*laid.named, *recipes_of(over)]
        return ingredients(documents, key_map, recipes, facts_then(laid.stored), answers, problems)

    def _carried_on(self, laid: LaidFiles, steps: tuple[RoadStep, ...]) -> Derivation:
        """The derivation made again with all mends as a recipe of its own, hand edits kept."""
        over = laid_for(laid.stored, steps)
        _, left_out = answers_then(laid.stored, laid.named)
        before = DerivedThen(laid.stored, sha256_hex(laid.raw), _edited(laid))
        how = How(followed_then(laid.stored), not_as_then=NotAsThen(left_out))
        made = rederive(before, self._given(laid, over), mends_first(steps), how).derivation
        return with_road(made._replace(call=call_again(laid.stored, laid.named, over)), steps)


def _page(review: Any) -> bytes:
    return render(review, "page").encode("utf-8", "backslashreplace")


def _empty(name: str) -> Problem:
    return Problem("empty", f"{name} is empty.", hint="Choose the motion file itself.")


def _said(asked: Json) -> Said:
    """What somebody says of a print, as the page sends it."""
    return Said(
        asked.get("seen", {}),
        asked.get("looks", {}),
        tuple(asked.get("did", ())),
        asked.get("last", ""),
        asked.get("rest_good", False),
        date=asked.get("date", ""),
    )


def _edited(laid: LaidFiles) -> tuple[Document, ...]:
    """The derived texts as they are now. Raises Refused."""
    assert laid.file.key_map is not None
    problems: list[Problem] = []
    sources = [Source(text.name, text.raw or b"") for text in laid.file.texts]
    documents = _documents(sources, laid.file.key_map, problems)
    refuse_if(problems)
    return documents


def _documents(sources: Iterable[Source], key_map: KeyMap, problems: list[Problem]) -> tuple[Document, ...]:
    return tuple(document_of(source, key_map.habits, problems) for source in sources)
