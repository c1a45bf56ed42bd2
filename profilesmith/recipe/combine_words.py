"""All demands on one switch or choice: unequal sets are a conflict; without a set the last aim counts."""

from collections.abc import Sequence

from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.recipe.combine import Verdict
from profilesmith.recipe.operations import Demand
from profilesmith.vocabulary.setting import Value


class CombinedWord(NamedTuple):
    """As ``Combined``, for switches and choices. value: "" in a conflict."""

    value: Value
    verdicts: tuple[Verdict, ...]
    conflict: tuple[int, ...] = ()


def combine_words(present: Value | None, demands: Sequence[Demand]) -> CombinedWord | None:
    """Combine demands in the order of recipes. None: there is neither a value nor a demand."""
    sets = [index for index, demand in enumerate(demands) if demand.exact is not None]
    aims = [index for index, demand in enumerate(demands) if demand.aim is not None]
    other = next((index for index in sets if demands[index].exact != demands[sets[0]].exact), None)
    if other is not None:
        clashing = (sets[0], other)
        verdicts = tuple(Verdict("refused" if index in clashing else "kept") for index in range(len(demands)))
        return CombinedWord("", verdicts, clashing)
    decider = sets[0] if sets else aims[-1] if aims else -1
    if decider < 0:
        return None if present is None else CombinedWord(present, ())
    wanted = _wanted(demands[decider])
    assert wanted is not None
    verdicts = tuple(_verdict(demand, wanted, present, decider) for demand in demands)
    return CombinedWord(wanted, verdicts)


def _wanted(demand: Demand) -> Value | None:
    return demand.exact if demand.exact is not None else demand.aim


def _verdict(demand: Demand, wanted: Value, present: Value | None, decider: int) -> Verdict:
    if _wanted(demand) != wanted:
        return Verdict("overruled", decider, "other value")
    return Verdict("kept" if wanted == present else "changed")
