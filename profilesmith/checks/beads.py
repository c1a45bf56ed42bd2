"""The beads that a profile lays: which feature, how wide, how high, how fast, and how much plastic that takes."""

from profilesmith.checks.amounts import count, number, size, switch
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.physics.bead import flow_mm3_s, speed_at_flow_mm_s, wall_thickness_mm
from profilesmith.profile.profile import Profile

# feature, and its name for a person. Bridges are laid in the air, but of the same amount of plastic.
FEATURES: tuple[tuple[str, str], ...] = (
    ("first_layer", "first layer"),
    ("outer_wall", "outer wall"),
    ("inner_wall", "inner wall"),
    ("top", "top layers"),
    ("bottom", "bottom layers"),
    ("infill", "infill"),
    ("bridge", "bridges"),
    ("support", "support"),
    ("raft", "raft"),
)


class Bead(NamedTuple):
    """share: of the computed material that is fed (1 is all of it), counted in the flow. setting: the one that holds
    the speed.
    """

    feature: str
    name: str
    setting: str
    speed_mm_s: float
    width_mm: float
    height_mm: float
    share: float
    flow_mm3_s: float

    @property
    def code(self) -> str:
        """``outer-wall``."""
        return feature_code(self.feature)

    def speed_at(self, flow: float) -> float:
        """The speed at which this bead needs that flow [mm/s]."""
        return speed_at_flow_mm_s(flow / self.share, self.width_mm, self.height_mm)


class LaidBeads:
    """The beads of the profiles that one judgement looks at: its checks ask for those of the same two many times."""

    def __init__(self) -> None:
        self.known: list[tuple[Profile, list[Bead]]] = []

    def of(self, profile: Profile) -> list[Bead]:
        """As ``beads``; of the very same profile worked out once."""
        for known, every in self.known:
            if known is profile:
                return every
        every = beads(profile)
        self.known.append((profile, every))
        return every


def beads(profile: Profile) -> list[Bead]:
    """The beads whose speed, width and height are known and that are flat (wider than high)."""
    every = []
    for feature, name in FEATURES:
        speed, width, height = (
            size(profile, f"{feature}.speed"),
            bead_width(profile, feature),
            bead_height(profile, feature),
        )
        if speed and width and height and width >= height and is_laid(profile, feature):
            share = (size(profile, "bead.flow") or 100.0) / 100
            flow = flow_mm3_s(speed, width, height) * share
            every.append(Bead(feature, name, f"{feature}.speed", speed, width, height, share, flow))
    return every


def feature_code(feature: str) -> str:
    """As findings name it: ``outer-wall``."""
    return feature.replace("_", "-")


def unseen(profile: Profile) -> list[str]:
    """The codes of the features that may be laid and whose speed was not read."""
    unread = (feature for feature, _ in FEATURES if not size(profile, f"{feature}.speed") and is_laid(profile, feature))
    return [feature_code(feature) for feature in unread]


def bead_width(profile: Profile, feature: str) -> float | None:
    return size(profile, f"{feature}.bead_width") or size(profile, "bead.width")


def bead_height(profile: Profile, feature: str) -> float | None:
    return (size(profile, "first_layer.height") if feature == "first_layer" else None) or size(profile, "layer.height")


def is_laid(profile: Profile, feature: str) -> bool:
    """Whether a feature is printed at all, as far as the settings tell."""
    if feature in ("support", "raft"):
        return switch(profile, f"{feature}.on") is not False
    if feature == "infill":
        return number(profile, "infill.density") != 0
    layers = {"top": "top.layers", "bottom": "bottom.layers"}.get(feature)
    if layers:
        return number(profile, layers) != 0
    walls = count(profile, "wall.count")
    needed = {"outer_wall": 1, "inner_wall": 2}.get(feature, 0)
    return walls is None or walls >= needed


def missing_for_beads(profile: Profile) -> str:
    """The first setting without which no bead can be worked out; "" when all are there."""
    if not bead_width(profile, "outer_wall"):
        return "bead.width"
    if not size(profile, "layer.height"):
        return "layer.height"
    return "" if any(size(profile, f"{feature}.speed") for feature, _ in FEATURES) else "outer_wall.speed"


def wall_mm(profile: Profile) -> float | None:
    """Thickness of a wall: all its beads at the spacing that leaves no void, the outer one with its own width [mm].

    ``w1 + (n - 1) s`` as in ``physics.bead``, where the outer bead's extra width counts once. None when not known, or
    when a bead is narrower than its layer is high.
    """
    walls, height = count(profile, "wall.count"), size(profile, "layer.height")
    outer, width = bead_width(profile, "outer_wall"), size(profile, "bead.width")
    if walls is None or height is None or outer is None:
        return None
    width = width or outer
    if min(width, outer) < height:
        return None
    return wall_thickness_mm(walls, width, height) + (outer - width if walls else 0.0)
