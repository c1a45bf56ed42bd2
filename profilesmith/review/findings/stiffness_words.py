"""Words on the stiffness of a strip of the part, on its plastic, and on what would make it softer."""

from collections.abc import Iterator, Mapping

from profilesmith.checks.softness import LEAST_FILLING, LEAST_LAYERS, LEAST_WALLS
from profilesmith.foundation.words import plural
from profilesmith.review.findings.said import Numbers, Say, Words, fixed, not_told, sentences

TITLE, MASS, SOFTER = "Stiffness from walls and filling", "Plastic used", "What would make it softer"
FEW_CELLS = "Fewer than three cells of the filling fit in, so mainly walls and closing layers count."
ALONE = "Thickness is all that there is: fewer faces and less filling hardly count, or would not close."
FACES = {"lying": "Closing layers", "standing": "Walls"}


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
    for pose, faces in FACES.items():
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


WORDS: Mapping[tuple[str, str], Words] = {
    ("stiffness", "thickness-not-said"): Words(TITLE, fixed("nobody said how thick the part is"), asked=True),
    ("stiffness", "bar-not-told"): Words(TITLE, not_told),
    ("stiffness", "filling-alone-not-known"): Words(
        TITLE,
        fixed("walls and closing layers carry nothing, and the filling alone is not known well enough"),
    ),
    ("stiffness", "bends-as-before"): Words(TITLE, _stiffness(_as_before)),
    ("stiffness", "bends-harder"): Words(TITLE, _stiffness(_harder)),
    ("stiffness", "bends-easier"): Words(TITLE, _stiffness(_easier)),
    ("mass", "plastic-used"): Words(
        MASS, lambda n: f"A strip of the part takes {n['after']} of the plastic that it took."
    ),
    ("softness", "levers"): Words(SOFTER, _levers),
    ("softness", "thickness-alone"): Words(SOFTER, lambda n: f"{_levers(n)} {ALONE}"),
}
