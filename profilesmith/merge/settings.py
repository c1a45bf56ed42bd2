"""Three-way merge of what the map knows: setting by setting, tool by tool, in canonical units."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.ledger import Decision
from profilesmith.ledger.history import Outcome
from profilesmith.merge.decision import AGREED, CONFLICT, DERIVED, KEPT, Choose, settle
from profilesmith.merge.held import HeldValue, Holding, agreed, same, stayed
from profilesmith.merge.three_way import Verdict, alike, meet_all
from profilesmith.vocabulary.setting import Vocabulary

LONGEST = 40  # of a text that is shown


class SettingMerge(NamedTuple):
    """A setting that a hand edited.

    holding: what it is to hold in the new text; () to take it out. None: what the new base and its recipes make of it.
    by_text: the new text cannot take the values one by one (its key is missing, or it has other tools or shares), so
    the line itself is carried over.
    """

    setting: str
    decision: Decision
    holding: Holding | None = None
    by_text: bool = False

    @property
    def texts(self) -> tuple[str, ...]:
        """How a switch or a choice that is carried by value is to be written; () for numbers."""
        texts = tuple(held.text for held in self.holding or ())
        return texts if not self.by_text and any(texts) else ()


class ProfileSides(NamedTuple):
    """old: as derived then; mine: as edited since; theirs: as derived from the new base."""

    old: Mapping[str, Holding]
    mine: Mapping[str, Holding]
    theirs: Mapping[str, Holding]


def merge_settings(
    sides: ProfileSides, riders: Mapping[str, str], vocabulary: Vocabulary, choose: Choose
) -> list[SettingMerge]:
    """One entry for each setting that a hand edited; the others are as the new base and its recipes make them.

    riders: switch -> the number that it is read off, or the first switch of the same key. It goes with that one, so
    that one key is one decision.
    """
    merges: dict[str, SettingMerge] = {}
    for name in vocabulary.settings:
        number = riders.get(name, "")
        if number in sides.old or number in sides.mine or number in sides.theirs:
            continue
        merged = _merge(name, sides, vocabulary, choose)
        if merged is not None:
            merges[name] = merged
    for switch, first in riders.items():
        if first in merges and merges[first].holding is not None:
            held = tuple(
                item._replace(text="") for item in sides.mine.get(switch, ())
            )  # the first one's text is its own
            merges[switch] = SettingMerge(switch, merges[first].decision, held, merges[first].by_text)
    return list(merges.values())


def _merge(name: str, sides: ProfileSides, vocabulary: Vocabulary, choose: Choose) -> SettingMerge | None:
    old, mine, theirs = (side.get(name, ()) for side in sides)
    if alike(mine, old, same):
        return None
    verdicts = meet_all(old, mine, theirs, same, stayed, agreed)
    was, hand, new = _shown(name, (old, mine, theirs), vocabulary)
    decision = Decision(name, "setting", _outcome(verdicts), was=was, hand=hand, new=new, chosen=DERIVED)
    if decision.outcome == AGREED:
        return SettingMerge(name, decision._replace(why="comes-to-the-same"))
    if decision.outcome == CONFLICT:
        decision = settle(decision, choose)
    takes = [verdict == "mine" or (verdict == "conflict" and decision.chosen == DERIVED) for verdict in verdicts]
    if not any(takes):
        return SettingMerge(name, decision)
    return _taken(name, decision, takes, mine, theirs)


def _outcome(verdicts: list[Verdict]) -> Outcome:
    if "conflict" in verdicts:
        return CONFLICT
    return KEPT if "mine" in verdicts else AGREED


def _taken(name: str, decision: Decision, takes: list[bool], mine: Holding, theirs: Holding) -> SettingMerge:
    """The holding with the hand edit in it."""
    if len(takes) == len(theirs) == len(mine):
        holding = tuple(
            _onto(one, other) if take else other for take, one, other in zip(takes, mine, theirs, strict=True)
        )
    else:
        holding = mine
        if mine and theirs and len(mine) != len(theirs) and alike(mine, mine[:1] * len(theirs), same):
            holding = mine[:1] * len(theirs)
    fits = len(holding) == len(theirs) > 0 and all(
        (one.share is None, one.of) == (other.share is None, other.of)
        for one, other in zip(holding, theirs, strict=True)
    )
    return SettingMerge(name, decision, holding, by_text=not fits)


def _onto(mine: HeldValue, theirs: HeldValue) -> HeldValue:
    """A share that follows keeps its share, of whatever it is a share of in the new text; one that keeps its value,
    that.
    """
    whole, share = theirs.value, mine.share
    if (
        mine.keeps
        and theirs.keeps
        and theirs.share
        and isinstance(whole, Fraction)
        and isinstance(mine.value, Fraction)
    ):
        return mine._replace(share=theirs.share * mine.value / whole) if whole else mine
    if share is None or not theirs.share or mine.of != theirs.of or not isinstance(whole, Fraction):
        return mine
    return mine._replace(value=share * whole / theirs.share)


def _shown(name: str, three: Sequence[Holding], vocabulary: Vocabulary) -> list[str]:
    """All three in words; with how they are written where the words alone would not tell them apart."""
    shown = [_show(name, holding, vocabulary) for holding in three]
    pairs = ((0, 1), (1, 2), (0, 2))
    alone = all(shown[one] != shown[other] or alike(three[one], three[other], same) for one, other in pairs)
    return shown if alone else [_show(name, holding, vocabulary, written=True) for holding in three]


def _show(name: str, holding: Holding, vocabulary: Vocabulary, written: bool = False) -> str:
    """``40 mm/s``; one for each tool where they differ; the share where it is one. written: ``on ("4")``."""
    setting = vocabulary.settings[name]
    texts = []
    for held in holding:
        share = (
            "" if held.share is None else f" ({vocabulary.settings['bead.flow'].show(held.share * 100)} of {held.of})"
        )
        texts.append(
            setting.show(held.value) + share + (f' ("{held.text[:LONGEST]}")' if written and held.text else "")
        )
    return texts[0] if len(set(texts)) == 1 else " | ".join(texts)
