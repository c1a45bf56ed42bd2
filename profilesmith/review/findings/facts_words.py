"""Words on facts and settings that contradict each other or cannot be used, and on values far from usual."""

from collections.abc import Mapping
from fractions import Fraction

from profilesmith.checks.contradictions import FarOff, unusual
from profilesmith.foundation.number import decimal_text, plain_text
from profilesmith.foundation.words import listed
from profilesmith.ledger.judgement import Finding
from profilesmith.profile.profile import Profile
from profilesmith.review.findings import Numbers, Say, Words, begun, fixed, show
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import Setting

_SAID: tuple[tuple[str, str, Say], ...] = (
    (
        "fan",
        "The fan's least power is above its usual one",
        lambda n: f"The least is {n['least']}, the usual one {n['usual']}.",
    ),
    ("raft-brim", "Raft and brim are both on", fixed("A part on a raft needs no brim.")),
    (
        "raft-gap",
        "The raft has no gap to the part",
        fixed("The two fuse, and a soft part tears when the raft is pulled off."),
    ),
    (
        "raft-layers",
        "The raft is on but has no layers",
        fixed("A raft of no layers is none. Give it layers, or turn it off."),
    ),
    (
        "support-gap",
        "Support has no gap to the part",
        fixed("The two fuse. That is meant for support of another plastic only."),
    ),
    (
        "support-density",
        "Support is on but has a density of 0 %",
        fixed("It holds nothing up. Give it a density, or turn it off."),
    ),
    (
        "support-contact",
        "The support's contact layers are open",
        lambda n: f"With {n['contact']} they are more open than the support below ({n['below']}).",
    ),
    ("brim-width", "The brim is on but has a width of 0 mm", fixed("A brim of no width is none.")),
    ("retraction", "Retraction is on but pulls 0 mm", fixed("So nothing is pulled back.")),
    ("hollow", "No walls and no filling", fixed("Only closing layers are laid.")),
    (
        "support-layer",
        "The support's gap is less than half a layer",
        lambda n: f"A gap of {n['gap']} with layers of {n['layer']} may be rounded to nothing.",
    ),
)
_TOGETHER: Mapping[tuple[str, str], Words] = {
    ("together", "together"): Words(
        "Settings that do not go together", fixed("No two settings contradict each other.")
    ),
    **{(f"together-{name}", f"together-{name}"): Words(title, say) for name, title, say in _SAID},
}


CONTRADICT, UNUSABLE, FLOW = "Facts that contradict", "A fact that cannot be used", "Flow limit in the text"
USUAL, SHARES = "Values far from usual", "Share above 100 %"
MOST = 5  # values far from usual that are named
EXACT = 10**6  # what a number of six digits was before it became one


def unusable(what: str, ask: str) -> Finding:
    """A fact that a file holds and that is left out. what: the start of a sentence, with the fact's name."""
    return Finding("facts", "not judged", UNUSABLE, f"{what}: it was left out.", ask=ask, reason="fact-left-out")


def far_off(item: FarOff) -> str:
    """A sentence without its end: what is far from usual, and the unit in which it would not be."""
    low, high = item.setting.usual or (Fraction(0), Fraction(0))
    there = f"; as {item.unit} it is {item.setting.show(item.there)}" if item.there is not None else ""
    usual = f"{plain_text(low)} to {item.setting.show(high)}"
    return f"{item.setting.id}: {item.setting.show(item.value)} is far from usual ({usual}){there}"


def far_off_settings(profile: Profile) -> dict[str, str]:
    """Each setting with a value far from usual, and its sentence."""
    return {item.setting.id: far_off(item) for item in unusual(profile)}


def _far(numbers: Numbers) -> str:
    settings = load_vocabulary().settings
    named = [_far_off(numbers, number, settings[name]) for number, name in enumerate(numbers.settings, 1)]
    more = len(named) - MOST
    also = f" There are {more} more: 'profilesmith keymap check' names them." if more > 0 else ""
    return f"{'; '.join(map(far_off, named[:MOST]))}.{also} If a unit is wrong, say the right one in the key map."


def _far_off(numbers: Numbers, number: int, setting: Setting) -> FarOff:
    held = {name: numbers.amounts.get(f"{name}-{number}") for name in ("value", "there")}
    value, there = (None if item is None else Fraction(item.low).limit_denominator(EXACT) for item in held.values())
    return FarOff(setting, value or Fraction(0), numbers.names[number - 1], there)


def _shares(numbers: Numbers) -> str:
    words = listed(
        f"{name} is now {decimal_text(_share(numbers, number), 1)} % of {reference}"
        for number, (name, reference) in enumerate(zip(numbers.settings, numbers.names, strict=True), 1)
    )
    return (
        f"{words}: written so that the value stays where it was. Some software takes a share above "
        "100 % for a slip, or holds it at 100 %: look at what it shows for these keys before you print."
    )


def _share(numbers: Numbers, number: int) -> Fraction:
    return Fraction(numbers.number(f"share-{number}")).limit_denominator(EXACT)


def _left_out(fault: Say) -> Words:
    return Words(UNUSABLE, lambda n: f"{n.names[0]} {fault(n)}: it was left out.", whole=True)


def _label(numbers: Numbers) -> str:
    low, high = (numbers.amounts["label"]._replace(low=end, high=end) for end in _ends(numbers, "label"))
    return (
        f"The label's {show(low)} to {show(high)} has nothing in common with what is usual for "
        f"{numbers.names[0]} ({numbers.ends('usual')}): before you heat to it, see that label, material and numbers "
        "are this spool's."
    )


def _magnitude(numbers: Numbers) -> str:
    usual = f"what {numbers.names[0]} usually gives ({numbers.ends('usual')})"
    mend = "see what the spool's label or your own trial says, and derive again."
    if numbers.get("meant"):
        mend = f"did you mean {numbers['meant']}? {begun(mend)}"
    return f"The largest flow of {numbers['given']} is far from {usual}: {mend}"


def _ends(numbers: Numbers, name: str) -> tuple[float, float]:
    return numbers.amounts[name].low, numbers.amounts[name].high


_OF_FACTS: Mapping[tuple[str, str], Words] = {
    ("facts-nozzle", "two-nozzles"): Words(
        CONTRADICT,
        lambda n: (
            f"The text is for a nozzle of {n['after']}, the facts name one of {n['fitted']}. Flow, layers and beads "
            "fit one of them only."
        ),
        short=lambda n: {"limit": n["fitted"]},
    ),
    ("facts-wall", "part-thinner-than-wall"): Words(
        CONTRADICT, lambda n: f"The part is {n['part']} thick, but is to keep a wall of {n['wall']}."
    ),
    ("facts-heat", "spool-too-hot-for-machine"): Words(
        CONTRADICT,
        lambda n: (
            f"The spool wants at least {n['wanted']}, the machine gives at most {n['given']}: this spool is not for "
            "this machine."
        ),
    ),
    ("facts-spool", "another-spools-label"): Words(CONTRADICT, _label),
    ("facts-spool-flow", "flow-of-another-magnitude"): Words(CONTRADICT, _magnitude),
    ("facts-hardness", "hardness-and-name-differ"): Words(
        CONTRADICT,
        lambda n: (
            f"The label's hardness means a plastic of {n['by-hardness']}, the name {n.names[0]} one of "
            f"{n['by-name']}. A modulus from the data sheet would settle it."
        ),
    ),
    ("facts-flow", "text-allows-more-flow"): Words(
        FLOW,
        lambda n: (
            f"The text lets the flow go up to {n['after']}, but the spool gives {n['given']}: lower it, so that your "
            "slicing software slows down where it must."
        ),
        short=lambda n: {"limit": n["given"]},
    ),
    ("facts", "fact-not-known"): _left_out(lambda n: "is not a fact that this version knows"),
    ("facts", "fact-of-another-kind"): _left_out(lambda n: f"is {n.names[1]!r}, which is no {n.names[2]}"),
    ("facts", "window-upside-down"): _left_out(lambda n: f"is wrong: {n.names[1]} begins above its end"),
    ("facts", "fact-out-of-range"): _left_out(
        lambda n: f"is wrong: {n.names[1]} is outside the plausible {n.names[3]} to {n.names[4]}"
    ),
    ("usual", "far-from-usual"): Words(USUAL, _far),
    ("large-shares", "share-above-whole"): Words(SHARES, _shares),
}
WORDS: Mapping[tuple[str, str], Words] = {**_OF_FACTS, **_TOGETHER}
