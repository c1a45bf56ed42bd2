"""Words on temperatures against the spool's label, or what is usual for its material."""

from collections.abc import Mapping

from profilesmith.review.findings.said import Numbers, Say, Words, fixed

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
        return " ".join(off) or f"Inside {whose}."

    return say


def _is_off(numbers: Numbers, side: str) -> bool:
    return bool(numbers.get(side) or numbers.get(f"first-{side}"))


def _where(numbers: Numbers, side: str) -> str:
    """``It is 15 °C``, ``The first layer is 10 °C``, ``It is 15 °C (the first layer 10 °C)``."""
    main, first = numbers.get(side), numbers.get(f"first-{side}")
    if not main:
        return f"The first layer is {first}"
    return f"It is {main}" + (f" (the first layer {first})" if first and first != main else "")


WORDS: Mapping[tuple[str, str], Words] = {
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
