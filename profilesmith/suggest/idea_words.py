"""Ideas as a maker says them: ``least`` of a name is a minimum."""

SPOKEN = {
    "first": "first layer",
    "later": "the layers above the first",
    "outer": "outer wall",
    "inner": "inner wall",
    "bead": "bead",
    "on": "on or off",
    "off": "left off",
    "least": "minimum",
    "most": "maximum",
    "side": "sideways",
    "upright": "upward",
    "melt": "flow of molten plastic",
    "count": "number",
    "contact": "contact layer",
    "print": "printing",
    "rest": "at rest",
    "turned": "turned by",
}


def spoken(idea: str) -> str:
    """The idea in words."""
    return SPOKEN.get(idea, idea)
