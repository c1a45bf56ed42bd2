"""Pieces of TOML text. What strangers wrote stands in it as text only."""

import json

WIDTH = 118


def quoted(text: str) -> str:
    """A TOML basic string. JSON's escapes are TOML's, but for the one control character that JSON leaves alone."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def harmless(text: str) -> str:
    """Control characters and direction marks shown, not written."""
    return "".join(char if char.isprintable() else f"\\u{ord(char):04x}" for char in text)


def comment_lines(text: str, width: int = WIDTH, hanging: str = "#") -> list[str]:
    """A remark as comment lines, control characters shown, wrapped at blanks. hanging: what further lines begin
    with.
    """
    lines, line = [], "#"
    for word in harmless(text).split(" "):
        if len(line) + 1 + len(word) > width and line != "#":
            lines.append(line)
            line = hanging
        line = f"{line} {word}"
    return [*lines, line]
