"""Words on how stiff the part is: its plastic, how hard it pushes back, how soft it was asked to be, and its bend."""

from collections.abc import Iterator, Mapping

from profilesmith.checks.amounts import few, mm, span_mm
from profilesmith.checks.softness import LAW_HOLDS_A, LEAST_FILLING, LEAST_LAYERS, LEAST_WALLS
from profilesmith.checks.wanted import ASKED, FACES, LIKE, THICKNESSES_MM, tried
from profilesmith.foundation.words import plural
from profilesmith.review.findings import Numbers, Say, Words, fixed, not_told, sentences

STIFFNESS, MASS, SOFTER = "Stiffness from walls and filling", "Plastic used", "What would make it softer"
FEW_CELLS = "Fewer than three cells of the filling fit in, so mainly walls and closing layers count."
ALONE = "Thickness is all that there is: fewer faces and less filling hardly count, or would not close."
FACE_WORDS = {"lying": "Closing layers", "standing": "Walls"}


def _strip(numbers: Numbers) -> str:
    """``A strip 2.4 mm thick that lies flat``."""
    lies, stands = ("lying" in numbers.also), ("standing" in numbers.also)
    placed = "(lying or standing)" if lies and stands else "that stands upright" if stands else "that lies flat"
    return f"A strip {numbers['thickness']} thick {placed}"


def _as_before(numbers: Numbers) -> str:
    if "thickness-alone" in numbers.also:
        return f"{_strip(numbers)} bends as before: its faces fill it, and thickness is all that is left to change."
    return f"{_strip(numbers)} bends as before, as far as walls, closing layers and filling go."


def _harder(numbers: Numbers) -> str:
    times = numbers.span("after", 1 / 100, "")
    return f"{_strip(numbers)} becomes {times} times as stiff by its walls, closing layers and filling."


def _easier(numbers: Numbers) -> str:
    left = f"{_strip(numbers)} has {numbers['after']} of the bending stiffness"
    return f"{left} that walls, closing layers and filling gave it."


def _why(numbers: Numbers) -> Iterator[str]:
    """Why the filling does or does not count."""
    wanted = "only a thinner part" if "thickness-alone" in numbers.also else "fewer of them"
    for pose, faces in FACE_WORDS.items():
        if f"{pose}-filled" in numbers.also:
            left = numbers[f"{pose}-left"] if numbers.number(f"{pose}-left") else ""
            fill = f"all but {left} of it" if left else "all of it"
            yield f"{faces} fill {fill}, so the filling hardly counts: {wanted} would make it softer."
        elif f"{pose}-few-cells" in numbers.also:
            yield FEW_CELLS


def _material(numbers: Numbers) -> str:
    if not numbers.names:
        return ""
    softer = f"{numbers.names[0]} is {numbers['softer-than-rigid']} times softer than rigid PLA."
    return f"The plastic itself is another matter: {softer}"


def _stiffness(first: Say) -> Say:
    return lambda n: sentences(first(n), *dict.fromkeys(_why(n)), _material(n))


def _levers(numbers: Numbers) -> str:
    stands, lies = ("standing" in numbers.also), ("lying" in numbers.also)
    faces = [plural(LEAST_WALLS, "wall")] if stands else []
    faces += [f"{LEAST_LAYERS} closing layers"] if lies else []
    levers = {
        "fewest-faces": " or ".join(faces),
        "least-filling": f"{LEAST_FILLING * 100:.0f} % of filling",
        "thinner": f"a thickness of {numbers['thinner-part']}",
    }
    left = "; with ".join(f"{words}: {numbers[name]}" for name, words in levers.items() if numbers.get(name))
    return f"Of its bending stiffness there would be left, each alone, with {left}."


_STIFFNESS: Mapping[tuple[str, str], Words] = {
    ("stiffness", "thickness-not-said"): Words(STIFFNESS, fixed("nobody said how thick the part is"), asked=True),
    ("stiffness", "bar-not-told"): Words(STIFFNESS, not_told),
    ("stiffness", "filling-alone-not-known"): Words(
        STIFFNESS,
        fixed("walls and closing layers carry nothing, and the filling alone is not known well enough"),
    ),
    ("stiffness", "bends-as-before"): Words(STIFFNESS, _stiffness(_as_before)),
    ("stiffness", "bends-harder"): Words(STIFFNESS, _stiffness(_harder)),
    ("stiffness", "bends-easier"): Words(STIFFNESS, _stiffness(_easier)),
    ("mass", "plastic-used"): Words(
        MASS, lambda n: f"A strip of the part takes {n['after']} of the plastic that it took."
    ),
    ("softness", "levers"): Words(SOFTER, _levers),
    ("softness", "thickness-alone"): Words(SOFTER, lambda n: f"{_levers(n)} {ALONE}"),
}


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


_FELT: Mapping[tuple[str, str], Words] = {
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


BEND, TRIAL = "Stretch at the bend", "How does a trial bend of the part come out?"
NOT_SAID, FILAMENT = "nobody said how thick the part is and how tightly it is bent", "nobody said which filament it is"
SHARP = "the bend is sharper than the part is thick, where the middle no longer keeps its length"


def _stretched(numbers: Numbers) -> str:
    return f"Bent to {numbers['radius']}, a part of {numbers['part']} is stretched by {numbers['after']}."


def _bend(word: str = "") -> Say:
    def say(numbers: Numbers) -> str:
        text = f"The outside is stretched by {numbers['after']}; {numbers.names[0]} breaks at {numbers.ends('breaks')}."
        if not word:
            return text
        radius = numbers.get("safe-radius") and numbers.rounded("safe-radius")
        return f"{text} {word}." + (f" A radius of {radius} or a thinner part would be safe." if radius else "")

    return say


_BEND: Mapping[tuple[str, str], Words] = {
    ("bending", "bend-not-said"): Words(BEND, fixed(NOT_SAID), asked=True),
    ("bending", "filament-not-said"): Words(BEND, fixed(FILAMENT), asked=True, known=_stretched),
    ("bending", "folded-flat"): Words(BEND, fixed("the part is folded flat"), ask=TRIAL),
    ("bending", "bend-too-sharp"): Words(BEND, fixed(SHARP), ask=TRIAL),
    ("bending", "bend-stands"): Words(BEND, _bend()),
    ("bending", "bend-may-crack"): Words(BEND, _bend("It may crack there")),
    ("bending", "bend-breaks"): Words(BEND, _bend("It will break")),
}


WORDS: Mapping[tuple[str, str], Words] = {**_STIFFNESS, **_FELT, **_BEND}
