"""Words on the part in use, and on moisture in the strand."""

from collections.abc import Mapping

from profilesmith.checks.amounts import few, shown
from profilesmith.review.findings.said import Numbers, Words, begun, fixed, sentences

MOISTURE, WARMTH, BENDS = "Moisture in the strand", "Warmth and cold", "Many bends"
KEEP = "Keep the spool in a bag with desiccant, and print from a dry box."
SET = "Stored bent, it stays bent: store it as it is worn."
CREEP = "How much it creeps in an hour is not published: wear a scrap as long, and look at it the day after."
HOUR_S = 3600
BESIDE = {"below-growth": "stays below", "above-growth": "is above", "among-growth": "lies among"}


def _moisture(more: str = "") -> Words:
    def say(numbers: Numbers) -> str:
        half = numbers["half-wet"]
        text = f"At room temperature an open strand takes {half} to take up half of what it can hold; a spool longer."
        dried = ""
        if numbers.get("left"):
            hours, warm = few(numbers.number("dried-for")), numbers["dried-at"]
            dried = f"Dried for {hours} h at {warm}, {numbers['left']} is left in it; on a spool more."
        return sentences(text, dried, more, KEEP)

    return Words(MOISTURE, say, short=lambda n: {"after": n.get("left") or n["half-wet"]})


def _above_glass(numbers: Numbers) -> str:
    return (
        f"{begun(numbers.names[0])} is above its glass transition ({numbers.ends('after')}) in use: warmth changes "
        "its feel little. Stored bent for long, it keeps some of the bend."
    )


def _passes_glass(numbers: Numbers) -> str:
    text = f"{begun(numbers.names[0])} passes its glass transition somewhere from {numbers.ends('after')}"
    text = f"{text}: it stiffens in the cold, and sags in a closed car in the sun."
    return sentences(text, _on_skin(numbers) if "softens-on-skin" in numbers.also else "", SET)


def _on_skin(numbers: Numbers) -> str:
    soon = f"within {numbers['warm-within']}" if numbers.get("warm-within") else "within minutes"
    rest = ""
    if numbers.get("worn"):
        worn = _hours(numbers.number("worn"))
        rest = f"For the rest of {worn} it may creep into the pose in which it is worn."
    return sentences(f"On skin of {numbers['skin']} it is warm right through {soon} and softens.", rest, CREEP)


def _hours(seconds: float) -> str:
    return shown(seconds / HOUR_S, "h") if seconds >= HOUR_S else shown(seconds / 60, "min")


def _warmth_short(numbers: Numbers) -> dict[str, str]:
    return {"after": numbers.ends("after"), "limit": numbers.get("skin")}


def _bends(numbers: Numbers) -> str:
    share = f", {numbers['of-break']} of what breaks the plastic at once" if numbers.get("of-break") else ""
    return sentences(
        f"Each bend stretches the outside by {numbers['stretch']}{share}.",
        _groove(numbers),
        "A bigger radius or a thinner part is the only sure help.",
    )


def _groove(numbers: Numbers) -> str:
    """Beside what a groove as deep as those between layers would do in a rubber as stiff."""
    if not numbers.also:
        return ""
    beside = BESIDE[numbers.also[0]]
    return (
        f"That {beside} the {numbers['groove-grows']} from which a groove of half a layer grows in a moulded rubber "
        "as stiff (from memory); welded layers bear less."
    )


WORDS: Mapping[tuple[str, str], Words] = {
    ("moisture", "uptake-not-published"): Words(
        MOISTURE,
        lambda n: f"how fast {n.names[0]} takes up moisture is not published",
        known=fixed(KEEP),
    ),
    ("moisture", "takes-up-moisture"): _moisture(),
    ("moisture", "dried-too-short"): _moisture("That is too short: dry it longer."),
    ("in-use-warmth", "soft-at-any-warmth"): Words(WARMTH, _above_glass, short=_warmth_short),
    ("in-use-warmth", "softens-when-warm"): Words(WARMTH, _passes_glass, short=_warmth_short),
    ("in-use-bends", "bends-not-known"): Words(
        BENDS,
        fixed("no published law tells how many bends a printed part stands"),
        known=_bends,
        ask="How does a printed strip stand a day of bending?",
    ),
}
