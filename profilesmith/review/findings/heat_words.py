"""Words on temperatures: what may harm the machine and those beside it, the spool's label, drying and moisture, the
part in use.
"""

from collections.abc import Mapping

from profilesmith.checks.amounts import few, shown
from profilesmith.review.findings import Numbers, Say, Words, begun, fixed, sentences

NOZZLE, BED, LINER = "Nozzle temperature and machine", "Bed temperature and machine", "PTFE liner"
HARM = {
    "nozzle-maximum": "the hot end can be damaged, give off harmful fumes or start a fire",
    "bed-maximum": "its heater, glue or cables can be damaged and catch fire",
}
NOT_SAID = "nobody said what the machine's instructions allow"
LINER_HARM = {
    "liner-not-said": "were yours lined, PTFE fumes would make people ill and could kill birds, so find out, and stay "
    "below unless it is all metal. Nobody said what the hot end is lined with.",
    "liner-hot": "PTFE fumes make people ill and can kill birds, so stay below what the printer's instructions name.",
    "liner-breaks-down": "PTFE fumes make people ill and can kill birds, so do not print with it.",
}


def _lined(harm: str) -> Say:
    """Limit, consequence and what to do in one sentence: the terminal shows the first."""
    return lambda n: f"{n['after']} is above the {n['most']} that hot ends lined with PTFE commonly allow: {harm}"


def _above(check: str) -> Words:
    def say(numbers: Numbers) -> str:
        return f"{numbers['above']} above what the machine's instructions allow: {HARM[check]}. Do not print with it."

    return Words(NOZZLE if check == "nozzle-maximum" else BED, say)


_MACHINE: Mapping[tuple[str, str], Words] = {
    ("nozzle-maximum", "above-instructions"): _above("nozzle-maximum"),
    ("bed-maximum", "above-instructions"): _above("bed-maximum"),
    **{
        (check, reason): Words(title, fixed(text))
        for check, title in (("nozzle-maximum", NOZZLE), ("bed-maximum", BED))
        for reason, text in (("within-instructions", "Within what the machine's instructions allow."),)
    },
    **{
        (check, "instructions-not-said"): Words(title, fixed(NOT_SAID), asked=True)
        for check, title in (("nozzle-maximum", NOZZLE), ("bed-maximum", BED))
    },
    ("liner", "liner-cool"): Words(LINER, fixed("Cool enough for a hot end that is lined with PTFE.")),
    **{("liner", reason): Words(LINER, _lined(harm)) for reason, harm in LINER_HARM.items()},
}


# Check, title, what happens below and above.
_SUBJECTS = (
    (
        "nozzle-temperature",
        "Nozzle temperature",
        "the plastic flows badly, needs more push and bonds weakly",
        "it strings, and gives off more fumes",
    ),
    ("bed-temperature", "Bed temperature", "the part may come loose", "the lowest layers stay soft and bulge"),
)
_STATES = ("inside", "cold", "hot", "cold-and-hot")


def _off(cold: str, hot: str, usual: bool) -> Say:
    def say(numbers: Numbers) -> str:
        whose = f"what is usual for {numbers.names[0]}" if usual else "the spool's label"
        sides = (("below", cold), ("above", hot))
        off = [f"{_where(numbers, side)} {side} {whose}: {harm}." for side, harm in sides if _is_off(numbers, side)]
        return sentences(" ".join(off) or f"Inside {whose}.", _doubtful_label(numbers))

    return say


def _doubtful_label(numbers: Numbers) -> str:
    if "label-far-from-usual" not in numbers.also:
        return ""
    usual = f"what is usual for {numbers.names[0]} ({numbers.ends('usual')})"
    return f"The label itself contradicts {usual}, so this clears nothing: read it again."


def _is_off(numbers: Numbers, side: str) -> bool:
    return bool(numbers.get(side) or numbers.get(f"first-{side}"))


def _where(numbers: Numbers, side: str) -> str:
    """``It is 15 °C``, ``The first layer is 10 °C``, ``It is 15 °C (the first layer 10 °C)``."""
    main, first = numbers.get(side), numbers.get(f"first-{side}")
    if not main:
        return f"The first layer is {first}"
    return f"It is {main}" + (f" (the first layer {first})" if first and first != main else "")


_LABEL: Mapping[tuple[str, str], Words] = {
    **{
        (check, f"{state}{usual}"): Words(title, _off(cold, hot, bool(usual)))
        for check, title, cold, hot in _SUBJECTS
        for state in _STATES
        for usual in ("", "-usual")
    },
    **{
        (check, "label-not-said"): Words(title, fixed("nobody said what the spool's label allows"), asked=True)
        for check, title, _, _ in _SUBJECTS
    },
}


DRYING = "Drying temperature"

_DRYING: Mapping[tuple[str, str], Words] = {
    ("drying", "drying-not-said"): Words(
        DRYING,
        fixed("nobody said how warm the spool is to be dried"),
        asked=True,
        known=fixed("Soft filament takes up moisture."),
    ),
    ("drying", "softening-not-said"): Words(
        DRYING,
        fixed("nobody said at which temperature the filament softens"),
        asked=True,
        known=lambda n: f"{n['after']} may be too warm.",
    ),
    ("drying", "below-softening"): Words(DRYING, lambda n: f"Cool enough: the filament softens at {n['softens']}."),
    ("drying", "near-softening"): Words(
        DRYING, lambda n: f"Less than 10 °C below where the filament softens ({n['softens']})."
    ),
    ("drying", "close-to-softening"): Words(
        DRYING,
        lambda n: (
            f"Close to where the filament softens ({n['softens']}): a dryer is seldom exact, and windings may stick "
            "together."
        ),
    ),
    ("drying", "windings-stick"): Words(
        DRYING,
        lambda n: (
            f"The filament softens at {n['softens']}: the windings stick together and the spool is "
            "lost. Do not dry it so "
            "warm."
        ),
    ),
    ("drying", "dried-as-usual"): Words(
        DRYING, lambda n: f"Not warmer than {n.names[0]} is usually dried ({n.ends('usual')})."
    ),
    ("drying", "warmer-than-usual"): Words(
        DRYING,
        lambda n: (
            f"Warmer than {n.names[0]} is usually dried ({n.ends('usual')}). The spool's own label goes "
            "before that: look "
            "in early."
        ),
    ),
}


_HEAT: Mapping[tuple[str, str], Words] = {**_MACHINE, **_LABEL, **_DRYING}


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


_IN_USE: Mapping[tuple[str, str], Words] = {
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
WORDS: Mapping[tuple[str, str], Words] = {**_HEAT, **_IN_USE}
