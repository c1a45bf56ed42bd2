"""What one machine alone shows: a law for that machine, laid over the rule that it departs from."""

from collections.abc import Sequence
from typing import Literal

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
        return [], [_no_rule(setting, seen, left, unsound)] if left and finding is None else []
    return [tweak_of(machine, setting, seen, world, finding) for machine in machines], []


def _no_rule(setting: str, seen: tuple[Seen, ...], left: tuple[Seen, ...], unsound: bool) -> NoRule:
    if len({item.pair for item in left}) == 1:
        return NoRule(setting, left, "one pair alone" if len({item.pair for item in seen}) > 1 else "one pair")
    return NoRule(setting, left, "as many exceptions" if unsound else "each its way")


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
    alone: Literal["others left it", "others lack it"] = "others left it" if others else "others lack it"
    reason = alone if finding is None else "departs"
    return Tweak(machine, setting, law or laws[0], mine, reason, fits=law is not None)


def _gives(laws: Sequence[Law], seen: Seen, world: SampleWorld) -> bool:
    predicted = predict(laws, seen, world)
    if predicted == seen.after:
        return True
    numbers = not isinstance(predicted, bool | str | None) and not isinstance(seen.after, bool | str)
    return numbers and abs(predicted - seen.after) <= seen.slack  # type: ignore[operator]
