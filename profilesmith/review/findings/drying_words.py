"""Words on drying a spool."""

from collections.abc import Mapping

from profilesmith.review.findings.said import Words, fixed

TITLE = "Drying temperature"

WORDS: Mapping[tuple[str, str], Words] = {
    ("drying", "drying-not-said"): Words(
        TITLE,
        fixed("nobody said how warm the spool is to be dried"),
        asked=True,
        known=fixed("Soft filament takes up moisture."),
    ),
    ("drying", "softening-not-said"): Words(
        TITLE,
        fixed("nobody said at which temperature the filament softens"),
        asked=True,
        known=lambda n: f"{n['after']} may be too warm.",
    ),
    ("drying", "below-softening"): Words(TITLE, lambda n: f"Cool enough: the filament softens at {n['softens']}."),
    ("drying", "near-softening"): Words(
        TITLE, lambda n: f"Less than 10 °C below where the filament softens ({n['softens']})."
    ),
    ("drying", "close-to-softening"): Words(
        TITLE,
        lambda n: (
            f"Close to where the filament softens ({n['softens']}): a dryer is seldom exact, and windings may stick "
            "together."
        ),
    ),
    ("drying", "windings-stick"): Words(
        TITLE,
        lambda n: (
            f"The filament softens at {n['softens']}: the windings stick together and the spool is "
            "lost. Do not dry it so "
            "warm."
        ),
    ),
    ("drying", "dried-as-usual"): Words(
        TITLE, lambda n: f"Not warmer than {n.names[0]} is usually dried ({n.ends('usual')})."
    ),
    ("drying", "warmer-than-usual"): Words(
        TITLE,
        lambda n: (
            f"Warmer than {n.names[0]} is usually dried ({n.ends('usual')}). The spool's own label goes "
            "before that: look "
            "in early."
        ),
    ),
}
