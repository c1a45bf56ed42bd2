"""What may hurt someone, from ``knowledge/cautions.toml``: the cautions that a change makes apply, each once."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache
from typing import Any

from profilesmith.checks.amounts import at_most
from profilesmith.checks.case import Case
from profilesmith.checks.materials import flexible, spool_range
from profilesmith.checks.print_time import time_bracket
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.quantity import read_quantity
from profilesmith.ledger.judgement import Caution
from profilesmith.vocabulary.load_vocabulary import knowledge


class KnownCaution(NamedTuple):
    """A caution of this version, with what makes it apply. said: words by which a recipe's own caution is known to say
    the same.
    """

    id: str
    text: str
    source: str
    trigger: str
    said: tuple[str, ...] = ()
    above_c: float = 0.0
    factor: float = 0.0


@cache
def known_cautions() -> tuple[KnownCaution, ...]:
    """All that this version knows, in the order in which they are told."""
    return tuple(_caution(table) for table in knowledge("cautions.toml")["caution"])


def cautions_of(cases: Iterable[Case]) -> tuple[KnownCaution, ...]:
    """Those that apply to any of the cases (one for each tool)."""
    listed = list(cases)
    apply = (item for item in known_cautions() if any(TRIGGERS[item.trigger](case, item) for case in listed))
    return tuple(_with_numbers(item, listed) for item in apply)


def _with_numbers(item: KnownCaution, cases: list[Case]) -> KnownCaution:
    if item.trigger != "long_print":
        return item
    most = max(whole.high for case in cases if (whole := time_bracket(case)) is not None)
    return item._replace(text=item.text.format(most=at_most(most)))


def merged(cautions: Sequence[Caution], recipes: Iterable[str]) -> tuple[str, ...]:
    """Ours, and what the recipes say beyond them: a caution that repeats one of ours is left out, unless it has a
    number.

    Ours always stay: a recipe is a stranger's text and cannot talk a caution away. What says more of the same stands
    behind ours.
    """
    texts: dict[str, list[str]] = {item.text: [] for item in cautions}
    words = {item.id: item.said for item in known_cautions()}
    said = {item.text: words.get(item.id, ()) for item in cautions}
    last: list[str] = []
    for text in recipes:
        folded = text.casefold()
        same = next((ours for ours, words in said.items() if sum(word in folded for word in words) >= 2), None)
        if same is None:
            last.append(text)
        elif any(char.isdigit() for char in text):
            texts[same].append(text)
    return tuple(dict.fromkeys([*(text for ours, more in texts.items() for text in (ours, *more)), *last]))


def _hottest(case: Case) -> float:
    temperatures = (case.number(name) for name in ("nozzle.temperature", "first_layer.nozzle_temperature"))
    return max((value for value in temperatures if value is not None), default=0.0)


def _heat(case: Case, item: KnownCaution) -> bool:
    return _hottest(case) > item.above_c


def _liner(case: Case, item: KnownCaution) -> bool:
    return case.word("machine.liner") != "all-metal" and _heat(case, item)


def _long_print(case: Case, item: KnownCaution) -> bool:
    whole = time_bracket(case)
    return whole is not None and whole.high > item.factor


def _drying(case: Case, item: KnownCaution) -> bool:
    of_spool = case.quantity("spool.drying_temperature") is not None or case.quantity("spool.drying_time") is not None
    return of_spool or flexible(case) is True or spool_range(case, "moisture") is not None


def _sanding(case: Case, item: KnownCaution) -> bool:
    return bool(case.quantity("part.sanding_allowance"))


def _painting(case: Case, item: KnownCaution) -> bool:
    return case.word("part.coating") in ("elastic", "rigid")


def _skin(case: Case, item: KnownCaution) -> bool:
    contact = case.word("part.skin_contact")
    return contact == "yes" or (not contact and flexible(case) is True)


TRIGGERS: Mapping[str, Callable[[Case, KnownCaution], bool]] = {
    "always": lambda case, item: True,
    "heat": _heat,
    "liner": _liner,
    "long_print": _long_print,
    "drying": _drying,
    "sanding": _sanding,
    "painting": _painting,
    "skin": _skin,
}


def _caution(table: dict[str, Any]) -> KnownCaution:
    above = read_quantity(table.get("above", "0 °C"), "temperature")
    assert not isinstance(above, str)  # the data are ours, and tested
    return KnownCaution(
        table["id"],
        table["text"],
        table["source"],
        table["trigger"],
        tuple(table.get("said", ())),
        float(above),
        float(table.get("factor", "0")),
    )
