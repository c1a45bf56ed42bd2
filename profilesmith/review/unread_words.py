"""Lines that look like settings and could not be read, in words."""

import re
from collections.abc import Iterator, Sequence

from profilesmith.foundation.words import plural
from profilesmith.ledger import Line
from profilesmith.review.wording import visible

LIKE_A_SETTING = r"\w\W{0,3}[:=]\s*\S"
MOST_LINES = 3  # that are shown


def unread_words(unread: Sequence[Line]) -> Iterator[tuple[str, str]]:
    """How many there are and the first of them, and in which file; nothing where there are none."""
    likely = [line for line in unread if re.search(LIKE_A_SETTING, line.text)]
    if likely:
        first = ", ".join(f"{line.line} {visible(line.text)}" for line in likely[:MOST_LINES])
        more = f" and {len(likely) - MOST_LINES} more" if len(likely) > MOST_LINES else ""
        looks = plural(len(likely), "line looks", "lines look")
        yield f"{looks} like settings and could not be read: {first}{more}", likely[0].file
