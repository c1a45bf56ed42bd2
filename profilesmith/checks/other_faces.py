"""The same part with other numbers of walls or closing layers: which are its faces, and in which thicknesses."""

from fractions import Fraction

from profilesmith.checks.bar import Pose, poses
from profilesmith.checks.case import Case
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.profile.profile import Profile

THICKNESSES_MM = (1.2, 1.6, 2.0, 2.4, 2.8, 3.2, 3.6, 4.0)


class Kind(NamedTuple):
    """A pose with what its faces are: walls where it stands, closing layers where it lies."""

    pose: Pose
    setting: str

    def faces(self, profile: Profile, faces: int) -> Profile:
        """The profile with so many of them, where it says how many it has."""
        names = (self.setting,) if self.pose.standing else ("top.layers", "bottom.layers")
        there = [profile.entries[name] for name in names if name in profile.entries]
        changed = {entry.setting: entry._replace(values=(Fraction(faces),)) for entry in there}
        return profile._replace(entries={**profile.entries, **changed})


def kinds_of(case: Case) -> list[Kind]:
    """One for each pose that the facts leave open."""
    return [Kind(pose, "wall.count" if pose.standing else "top.layers") for pose in poses(case)]
