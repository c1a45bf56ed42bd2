"""Words on settings that contradict each other."""

from collections.abc import Mapping

from profilesmith.review.findings.said import Say, Words, fixed

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
WORDS: Mapping[tuple[str, str], Words] = {
    ("together", "together"): Words(
        "Settings that do not go together", fixed("No two settings contradict each other.")
    ),
    **{(f"together-{name}", f"together-{name}"): Words(title, say) for name, title, say in _SAID},
}
