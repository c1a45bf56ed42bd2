"""Words on flow and speed, what the features need beside what spool, hot end and label give; and on pushing and
pulling the filament: buckling below the gears, stretch and play in a tube.
"""

from collections.abc import Callable, Mapping

from profilesmith.checks.amounts import apart, few, shown
from profilesmith.checks.beads import FEATURES, feature_code
from profilesmith.checks.flow import MACHINE, SPOOL, UNIT
from profilesmith.foundation.words import listed
from profilesmith.review.findings import Numbers, Say, Words, begun, fixed, not_told, sentences

PUSH, PULL, PLAY = "Pushing the filament", "Retraction through the tube", "Retraction and the tube's play"
FILAMENT = "nobody said which filament it is"
VERY_SOFT = "So soft a strand may not pass a long tube at all: a direct drive is safer."
SQUEEZE = "Soft strands squeeze out of such gaps all the same (common practice): see that the path from gear to nozzle"


def _buckles(numbers: Numbers) -> str:
    return (
        f"Where nothing guides it, {numbers.names[0]} buckles at {numbers['after']} of the force that rigid PLA "
        "withstands."
    )


def _push(more: Say) -> Words:
    return Words(PUSH, lambda n: sentences(_buckles(n), more(n)), short=_push_short)


def _push_short(numbers: Numbers) -> dict[str, str]:
    return {"after": f"{numbers['after']} of rigid PLA"}


def _room(numbers: Numbers) -> str:
    return f"In your gap of {numbers['gap']} it has room to do so: close the path, or lay slowly."


def _stretches(numbers: Numbers) -> str:
    text = f"In the same tube {numbers.names[0]} stretches {numbers['times']} times as far as rigid PLA"
    tube = f"It grows with the tube's length ({numbers['tube']})." if numbers.get("tube") else ""
    return sentences(f"{text}, so part of each pull never reaches the melt; a longer pull only stretches it.", tube)


def _pull(say: Say) -> Words:
    return Words(PULL, lambda n: sentences(VERY_SOFT if "very-soft" in n.also else "", say(n)))


def _play(more: Say) -> Words:
    def say(numbers: Numbers) -> str:
        first = f"The filament first changes sides in the bends, which takes up about {numbers['play']} of a pull."
        return sentences(first, more(numbers))

    return Words(PLAY, say, short=lambda n: {"limit": f"more than about {n['play']}"})


def _adds(numbers: Numbers) -> str:
    left = f"Of a pull of {numbers['after']} it leaves {numbers['left']}"
    return f"{left}, and from that the stretch of the strand comes off too."


_ON_ITS_WAY: Mapping[tuple[str, str], Words] = {
    ("buckling", "filament-not-said"): Words(PUSH, fixed(FILAMENT), asked=True),
    ("buckling", "stands-as-rigid"): Words(
        PUSH, lambda n: begun(f"{n.names[0]} stands about the push of rigid PLA."), short=_push_short
    ),
    ("buckling", "buckles-unguided"): _push(fixed("Slow, even laying keeps the push small.")),
    ("buckling", "no-gap"): _push(fixed("Your machine leaves it no gap in which it could.")),
    ("buckling", "gap-to-buckle-in"): _push(_room),
    ("buckling", "gap-too-short"): Words(
        PUSH,
        lambda n: f"a gap of {n['gap']} is too short for the theory of a slender column",
        known=lambda n: f"{_buckles(n)} {SQUEEZE} is closed.",
        short=_push_short,
    ),
    ("retraction-stretch", "drive-not-said"): Words(PULL, fixed("nobody said how the filament is driven"), asked=True),
    ("retraction-stretch", "filament-not-said"): Words(PULL, fixed(FILAMENT), asked=True),
    ("retraction-stretch", "stretches-as-rigid"): _pull(
        lambda n: f"In the same tube {n.names[0]} stretches about as far as rigid PLA."
    ),
    ("retraction-stretch", "stretches-more"): _pull(_stretches),
    ("retraction-stretch", "stretches-much-more"): _pull(_stretches),
    ("retraction-slack", "filament-wider-than-tube"): Words(
        PLAY, fixed("the filament is thicker than the inside of the tube")
    ),
    ("retraction-slack", "play-leaves-a-pull"): _play(fixed("")),
    ("retraction-slack", "play-and-stretch-add"): _play(_adds),
    ("retraction-slack", "play-takes-the-pull"): _play(
        fixed("The whole pull is lost: a tube that is bored closer loses less.")
    ),
}


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
    assumed = f"The nozzle is taken for one of {numbers.get('nozzle')}: nobody said how wide it is."
    doubt = "That limit itself is far from what is usual for the material, so this clears nothing."
    words = {"nozzle-not-said": assumed, "limit-far-from-usual": doubt}
    return sentences(*(text for code, text in words.items() if code in numbers.also))


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


_FLOW_AND_SPEED: Mapping[tuple[str, str], Words] = {**_FLOW, **_SPEED}
WORDS: Mapping[tuple[str, str], Words] = {**_FLOW_AND_SPEED, **_ON_ITS_WAY}
