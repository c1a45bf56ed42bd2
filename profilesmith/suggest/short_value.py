"""A value as a person would say it, and how many of a text's are looked at for its habits."""

from profilesmith.text.document import Assignment, Document

SAMPLE = 4000  # lines: a habit shows itself early


def short_value(document: Document, item: Assignment) -> str:
    """A value without quotes; "" for one that is too long to be a setting's."""
    if item.end - item.start > 80:
        return ""
    return document.text[item.start : item.end].strip().strip("\"'„“”«»").strip()
