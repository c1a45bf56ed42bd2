"""What one machine alone shows: a law for that machine, laid over the rule that it departs from."""

from collections.abc import Sequence

from profilesmith.distil.finding import DistilledRule, NoRule, Tweak
from profilesmith.distil.fit import fits
from profilesmith.distil.law import Law, predict
from profilesmith.distil.sample import SampleWorld, Seen
from profilesmith.recipe.operations import LEARNED, SET


def leftovers(
    setting: str,
    seen: tuple[Seen, ...],
    left: tuple[Seen, ...],
    world: SampleWorld,
    finding: DistilledRule | None,
    unsound: bool = False,
) -> tuple[list[Tweak], list[NoRule]]:
    """Tweaks of single machines for the values that a rule (or none) leaves unexplained, and what is no tweak.

    unsound: whether a rule was dropped that had as many exceptions as cases.
    """
    machines = list(dict.fromkeys(world.machine(item) for item in left))
    several = len(world.machines()) > 1
    if not left or not several or (finding is None and len(machines) > 1):
        return [], [NoRule(setting, left, _why(seen, left, unsound))] if left and finding is None else []
    return [tweak_of(machine, setting, seen, world, finding) for machine in machines], []


def _why(seen: tuple[Seen, ...], left: tuple[Seen, ...], unsound: bool) -> str:
    pairs = len({item.pair for item in left})
    if pairs == 1:
        others = len({item.pair for item in seen}) > 1
        return "one pair changed it, the others did not" if others else "one pair changed it"
    if unsound:
        return f"{pairs} pairs changed it; the shortest rule would have as many exceptions as cases"
    return f"{pairs} pairs changed it, each in its own way; no rule says it shorter than the list of values"


def tweak_of(
    machine: str, setting: str, seen: tuple[Seen, ...], world: SampleWorld, finding: DistilledRule | None
) -> Tweak:
    """The gentlest law that, over the rule, gives all that this machine shows; else one that cannot be laid over it."""
    mine = tuple(item for item in seen if world.machine(item) == machine)
    others = len({world.machine(item) for item in seen}) > 1
    over = [finding.law] if finding is not None else []
    laws = sorted(fits(world.vocabulary.settings[setting], mine, world), key=lambda law: LEARNED.index(law.does))
    laws.append(Law(SET.name, (mine[0].after,)))
    law = next((law for law in laws if all(_gives([*over, law], item, world) for item in mine)), None)
    if finding is not None:
        reason = f"{machine} departs from the rule"
    else:
        reason = "no other machine changed it" if others else "no other machine has this setting"
    return Tweak(machine, setting, law or laws[0], mine, reason, fits=law is not None)


def _gives(laws: Sequence[Law], seen: Seen, world: SampleWorld) -> bool:
    predicted = predict(laws, seen, world)
    if predicted == seen.after:
        return True
    numbers = not isinstance(predicted, bool | str | None) and not isinstance(seen.after, bool | str)
    return numbers and abs(predicted - seen.after) <= seen.slack  # type: ignore[operator]
