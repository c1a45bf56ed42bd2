"""Words on how hard the part pushes back, and whether it is as soft as asked."""

from collections.abc import Mapping

from profilesmith.checks.amounts import few, mm, span_mm
from profilesmith.checks.felt import LAW_HOLDS_A
from profilesmith.checks.other_faces import THICKNESSES_MM
from profilesmith.checks.wanted import ASKED, FACES, LIKE, tried
from profilesmith.review.findings.said import Numbers, Words, fixed, not_told, sentences

FELT = "How hard it pushes back"
TITLES = {LIKE: "As soft as the rubber sheet", ASKED: "As soft as asked"}
CLOSE_MM = 0.05  # nearer ends are one
OUTSIDE = f"A hardness outside {LAW_HOLDS_A[0]} to {LAW_HOLDS_A[1]} Shore A tells the modulus less well."
SIZE, SOFTNESS = "the size of the strip that bends is not known", "nobody said how soft the filament is"
THICKNESS = "nobody said how thick the part is"


def _felt(numbers: Numbers) -> str:
    length, push = numbers["length"], numbers["push"]
    return sentences(
        f"Held at one end and pushed at the other, {length} away, it gives by a tenth of that under {push}.",
        f"In rigid PLA the old profile made a strip of {numbers['before']}." if numbers.get("before") else "",
        OUTSIDE if "hardness-outside-law" in numbers.also else "",
    )


def _stubby(numbers: Numbers) -> str:
    return f"a strip of {numbers['length']} that is {numbers['thickness']} thick is too stubby for the beam formula"


def _asked(numbers: Numbers) -> str:
    """What was asked for, behind "as"."""
    if numbers.check == ASKED:
        return f"{few(numbers.number('asked'))} N/mm"
    hardness = numbers.amounts["sheet-hardness"]
    return f"{numbers['sheet']} of rubber of {few(hardness.low)} {hardness.unit}"


def _wanted(numbers: Numbers) -> str:
    solid = ""
    if numbers.check == LIKE:
        solid = f"Printed solid in {numbers.names[0]}, {numbers.span('solid')} would feel like it."
    text = f"It bends {numbers['after']} times as hard as {_asked(numbers)}."
    return sentences(text, solid, _ways(numbers) if len(numbers.also) == 1 else "")


def _ways(numbers: Numbers) -> str:
    """Which thickness and faces may give it, the nearest named."""
    standing = "standing" in numbers.also
    span, faces = f"{few(THICKNESSES_MM[0])} to {mm(THICKNESSES_MM[-1])}", tried(standing)
    ways = [_way(numbers, count, standing) for count in faces if numbers.get(f"with-{count}")]
    if not ways:
        off, word = "harder" if numbers.number("after") > 1 else "softer", "walls" if standing else "closing layers"
        return f"Nothing of {span} with {faces[0]} to {FACES[-1]} {word} reaches it: all of it is {off}."
    return f"Of {span} it may be reached with {'; '.join(ways)}."


def _way(numbers: Numbers, faces: int, standing: bool) -> str:
    word, ends = "wall" if standing else "closing layer", numbers.amounts[f"with-{faces}"]
    around = f" ({span_mm(round(ends.low, 1), round(ends.high, 1))})" if ends.high - ends.low > CLOSE_MM else ""
    return f"{faces} {word}{'s' if faces > 1 else ''} and {numbers.rounded(f'nearest-with-{faces}')}{around}"


def _short(numbers: Numbers) -> dict[str, str]:
    return {"after": f"{numbers['after']} times", "limit": "1 times"}


WORDS: Mapping[tuple[str, str], Words] = {
    ("felt-stiffness", "strip-size-not-known"): Words(FELT, fixed(SIZE)),
    ("felt-stiffness", "filament-softness-not-said"): Words(FELT, fixed(SOFTNESS), asked=True),
    ("felt-stiffness", "strip-too-stubby"): Words(FELT, _stubby, ask="How does a printed strip feel?"),
    ("felt-stiffness", "bar-not-told"): Words(FELT, not_told),
    ("felt-stiffness", "felt-stiffness"): Words(FELT, _felt),
    (LIKE, "sheet-known-by-half"): Words(TITLES[LIKE], fixed("the rubber sheet is known by half only")),
    (LIKE, "no-law-reaches"): Words(TITLES[LIKE], fixed("no law reaches that hardness")),
    (ASKED, "strip-size-not-known"): Words(TITLES[ASKED], fixed(SIZE)),
    **{
        (check, reason): Words(title, fixed(text), asked=True)
        for check, title in TITLES.items()
        for reason, text in (("filament-softness-not-said", SOFTNESS), ("thickness-not-said", THICKNESS))
    },
    **{(check, "bar-not-told"): Words(title, not_told) for check, title in TITLES.items()},
    **{
        (check, reason): Words(title, _wanted, short=_short)
        for check, title in TITLES.items()
        for reason in ("as-soft-as-asked", "harder-than-asked", "softer-than-asked")
    },
}
