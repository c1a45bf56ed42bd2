"""Where a remark begins behind a value on its line."""


def comment_at(value: str, comments: tuple[str, ...], inline: bool) -> int | None:
    """Where an inline comment begins: at the start or behind a blank, never inside quotes.

    inline: the map says that there are such comments. Without it a mark that begins the value and has no blank behind
    it is part of the value: ``#ff0000`` is a colour. A quote that the map names as a mark opens no text behind a value.
    """
    quote = ""
    for at, char in enumerate(value):
        if quote:
            quote = "" if char == quote else quote
        elif char in "\"'" and (at == 0 or value[at - 1] in " \t,") and not (at and inline and char in comments):
            quote = char
        elif (
            (at == 0 or value[at - 1] in " \t")
            and value.startswith(comments, at)
            and (at or inline or _spaced(value, comments))
        ):
            return at
    return None


def _spaced(value: str, comments: tuple[str, ...]) -> bool:
    """Whether a blank, or nothing, stands behind the mark that a value begins with."""
    mark = next(mark for mark in comments if mark and value.startswith(mark))
    return value[len(mark) : len(mark) + 1].strip() == ""
