"""What divides keys from values, and lines from one another, where nobody says it: found from the text."""

PAIRS = (":=", "=>", "==", "::")


def find_delimiter(lines: list[str], comments: tuple[str, ...]) -> str:
    """Whichever of "=" and ":" comes first on more lines; with the sign that follows it on most of them."""
    equals = colons = 0
    pairs = dict.fromkeys(PAIRS, 0)
    for line in lines:
        body = line.lstrip()
        if not body or body.startswith((*comments, "[")):
            continue
        equal, colon = body.find("="), body.find(":")
        first = min(at for at in (equal, colon, len(body)) if at >= 0)
        if first and body[first : first + 2] in pairs:  # a line of signs divides nothing
            pairs[body[first : first + 2]] += 1
        if equal > 0 and (colon < 0 or equal < colon):
            equals += 1
        elif colon > 0:
            colons += 1
    best = max(pairs, key=lambda sides: pairs[sides])
    if pairs[best] * 2 > equals + colons:
        return best
    return ":" if colons > equals else "="


def find_newline(text: str) -> str:
    crlf = text.count("\r\n")
    counts = {"\n": text.count("\n") - crlf, "\r\n": crlf, "\r": text.count("\r") - crlf}
    best = max(counts, key=lambda newline: counts[newline])
    return best if counts[best] else "\n"
