"""All targets by name."""

from tests.fuzz.engine import Target
from tests.fuzz.targets import document, facts, key_map, ledger, pipeline, recipe, words

TARGETS: dict[str, Target] = {
    item.TARGET.name: item.TARGET for item in (document, key_map, recipe, facts, ledger, pipeline, words)
}
