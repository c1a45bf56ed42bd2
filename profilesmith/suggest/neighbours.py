"""Keys that stand together belong together: how much the keys around a slot look like one thing, and one area."""

from profilesmith.suggest.ideas import Schemas
from profilesmith.suggest.slot import Slot

REACH = 3  # keys before and behind
THING, AREA, NOBODY = 2.0, 1.5, -0.5


class Neighbours:
    """What stands around each slot, as likely as it is by now."""

    def __init__(self, slots: list[Slot], weights: list[dict[str, float]], schemas: Schemas) -> None:
        self.things = {name: name.partition(".")[0] for name in schemas.named}
        self.areas = {name: f"area {schema.setting.area}" for name, schema in schemas.named.items()}
        self.slots = slots
        self.sums = [self._sum(row) if row else {} for row in weights]

    def _sum(self, row: dict[str, float]) -> dict[str, float]:
        result: dict[str, float] = {}
        for name, weight in row.items():
            if weight >= 0.05:
                for word in (self.things[name], self.areas[name]):
                    result[word] = result.get(word, 0.0) + weight
        result[""] = 1.0 - min(1.0, sum(row.values()))
        return result

    def around(self, index: int) -> dict[str, float]:
        """For each thing and area the share that it has of the slots around one; nearer ones count for more."""
        slot = self.slots[index]
        result: dict[str, float] = {}
        full = 0.0
        for other in range(max(0, index - REACH), min(len(self.slots), index + REACH + 1)):
            far = abs(other - index)
            near = self.slots[other]
            if other == index or near.document != slot.document or near.assignment.section != slot.assignment.section:
                continue
            full += 1 / far
            for word, weight in self.sums[other].items():
                result[word] = result.get(word, 0.0) + weight / far
        return {word: weight / full for word, weight in result.items()} if full else {}

    def bonus(self, name: str, around: dict[str, float]) -> float:
        """What the neighbours add to a setting's score."""
        return (
            THING * around.get(self.things[name], 0.0)
            + AREA * around.get(self.areas[name], 0.0)
            + NOBODY * around.get("", 0.0)
        )
