"""What a text says, key by key, for tests that compare two texts."""

from collections import Counter

from profilesmith.text.document import Document


def raw_entries(document: Document) -> dict[tuple[str, str, int], str]:
    """Every assignment's raw text by section and key, and how many such keys came before."""
    seen: Counter[tuple[str, str]] = Counter()
    entries = {}
    for item in document.assignments:
        entries[item.section, item.key, seen[item.section, item.key]] = document.value(item)
        seen[item.section, item.key] += 1
    return entries
