"""What may be done with a key whose raw text was edited, and why that of the hand cannot always stand."""

from collections.abc import Callable

MAPPED, CARRIED, RAW = "mapped", "carried", "raw"
SPELLED, BESIDE, MOVED = "spelled", "beside", "moved"
WHY = {
    SPELLED: "spelled-its-own-way",
    BESIDE: "beside-its-values",
    MOVED: "another-value-now",
}
KindOf = Callable[[str, str], str]
"""(section, key) -> ``mapped`` (its value is merged as settings), ``carried`` (the hand's line is to be taken, it was
decided so), ``raw`` (its text is merged here). Of a mapped key whose values are settled, and are those of the hand, the
text is merged here too: ``spelled`` (it says the same) or ``beside`` (more than its values changed); ``moved``: its
values are others now, so that the hand's text cannot stand."""
