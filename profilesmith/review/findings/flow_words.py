"""Words on flow and speed: what the features need, beside what spool, hot end and label give."""

from collections.abc import Callable, Mapping

from profilesmith.checks.amounts import apart, few, shown
from profilesmith.checks.beads import FEATURES, feature_code
from profilesmith.checks.flow import MACHINE, SPOOL, UNIT
from profilesmith.foundation.words import listed
from profilesmith.review.findings.said import Numbers, Words, fixed, not_told, sentences

TITLES = {SPOOL: "Flow the spool gives", MACHINE: "Flow the hot end melts"}
NAMES = {feature_code(feature): name for feature, name in FEATURES}
NEEDS = "needs-"
TOO_FAST = "Too fast, gears slip or the strand buckles, and walls have gaps."


def _feature(numbers: Numbers) -> str:
    """The feature that needs most."""
    return dict(FEATURES)[numbers.settings[0].partition(".")[0]]


def _needs(numbers: Numbers) -> str:
    return f"The {_feature(numbers)} needs {numbers['needs']}."


def _ends(numbers: Numbers) -> tuple[float, float]:
    limit = numbers.amounts["limit"]
    return limit.low, limit.high


def _limit(numbers: Numbers) -> str:
    low, high = _ends(numbers)
    return f"{few(low)} to {few(high)}" if high > low else few(low)


def _other_nozzle(numbers: Numbers) -> str:
    return (
        f"the limit of {_limit(numbers)} {UNIT} is that of a nozzle of {numbers['nozzle']}, and {numbers['fitted']} "
        "is fitted"
    )


def _pressure(numbers: Numbers) -> str:
    less = "less" if numbers.get("less-pressure") else "more"
    return f"{_needs(numbers)} At one flow it needs {numbers[f'{less}-pressure']} times {less} pressure."


def _given(numbers: Numbers) -> str:
    """``what`` is given, as a clause."""
    if numbers.check == MACHINE:
        return "the hot end melts"
    return f"{numbers.names[0]} usually gives" if numbers.names else "the spool gives"


def _nozzle(numbers: Numbers) -> str:
    if "nozzle-not-said" not in numbers.also:
        return ""
    return f"The nozzle is taken for one of {numbers['nozzle']}: nobody said how wide it is."


def _below(numbers: Numbers) -> str:
    unread = [NAMES[code.removeprefix("no-speed-")] for code in numbers.also if code.startswith("no-speed-")]
    # Never "all features": a line that was not read may hold one more.
    stay = "all that was read stay below" if numbers.reason == "flow-below-limit" else "it is at the limit of"
    text = f"The {_feature(numbers)} needs the most, at {numbers['speed']}; {stay} what {_given(numbers)}."
    hidden = f"No speed was read for {listed(unread)}: not judged." if unread else ""
    return sentences(text, hidden, _nozzle(numbers))


def _over(more: Callable[[Numbers], str]) -> Callable[[Numbers], str]:
    def say(numbers: Numbers) -> str:
        needs = listed(
            f"{NAMES[name.removeprefix(NEEDS)]} {few(item.low)}"
            for name, item in numbers.amounts.items()
            if name.startswith(NEEDS)
        )
        text = f"More than {_given(numbers)}: {needs} {UNIT}. Slowed to {_slowed(numbers)}, they would stay below."
        return sentences(text, more(numbers), _nozzle(numbers))

    return say


def _slowed(numbers: Numbers) -> str:
    """Whole numbers, rounded down; of the slowest a fraction."""
    item = numbers.amounts["slowed"]
    low, high = int(item.low), int(item.high)
    return f"{low} to {high} mm/s" if high > low else f"{few(item.low)} mm/s" if low < 1 else f"{low} mm/s"


def _held(numbers: Numbers) -> str:
    own = f"The text's own flow limit of {numbers['text-limit']} has to slow them down:"
    return f"{own} see that your slicing software does so."


def _some_give(numbers: Numbers) -> str:
    return f"Some spools give up to {shown(_ends(numbers)[1], UNIT)}."


def _line(numbers: Numbers) -> str:
    after, most = apart(numbers.number("after"), numbers.number("limit"))
    text = f"The fastest line of the motion file needs {after} {UNIT}; {_given(numbers)} {most} {UNIT}."
    return sentences(text, _nozzle(numbers))


def _short(numbers: Numbers) -> dict[str, str]:
    """Both as exactly as keeps them apart."""
    low, high = _ends(numbers)
    after, most = apart(numbers.number("after"), low)
    return {"after": f"{after} {UNIT}", "limit": f"{most} to {few(high)} {UNIT}" if high > low else f"{most} {UNIT}"}


NOT_JUDGED: Mapping[str, tuple[Callable[[Numbers], str], bool, Callable[[Numbers], str] | None]] = {
    "bead-not-told": (not_told, False, None),
    "beads-narrower-than-high": (fixed("every bead is narrower than its layer is high"), False, None),
    "flow-not-said": (fixed("nobody said how much this spool gives"), True, _needs),
    "two-nozzles": (
        fixed("the text and the facts name different nozzles, and a largest flow belongs to a nozzle"),
        False,
        _needs,
    ),
    "limit-of-another-nozzle": (_other_nozzle, False, _pressure),
}
JUDGED: Mapping[str, Callable[[Numbers], str]] = {
    "flow-below-limit": _below,
    "flow-at-limit": _below,
    "line-below-limit": _line,
    "line-above-limit": _line,
    "flow-held-by-text": _over(_held),
    "flow-above-lower-limit": _over(_some_give),
    "flow-above-limit": _over(fixed(TOO_FAST)),
}
_FLOW: Mapping[tuple[str, str], Words] = {
    **{
        (SPOOL, reason): Words(TITLES[SPOOL], say, asked=asked, known=known)
        for reason, (say, asked, known) in NOT_JUDGED.items()
    },
    **{
        (check, reason): Words(title, say, short=_short)
        for check, title in TITLES.items()
        for reason, say in JUDGED.items()
    },
}


SPEED = "Printing speed"


def _above(numbers: Numbers) -> str:
    many = len(numbers.names)
    who = f"Faster than the spool's label allows: {listed(numbers.names)}."
    return f"{who} Slow {'them' if many > 1 else 'it'} to {numbers['most']}, or try a small piece first."


def _within(numbers: Numbers) -> str:
    unread = [NAMES[code.removeprefix("no-speed-")] for code in numbers.also if code.startswith("no-speed-")]
    text = "Nothing that was read is faster than the spool's label allows."
    return sentences(text, f"No speed was read for {listed(unread)}: not judged." if unread else "")


_SPEED: Mapping[tuple[str, str], Words] = {
    ("label-speed", "above-label-speed"): Words(SPEED, _above),
    ("label-speed", "within-label-speed"): Words(SPEED, _within),
}


WORDS: Mapping[tuple[str, str], Words] = {**_FLOW, **_SPEED}
