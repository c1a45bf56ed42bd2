"""Two profiles side by side, or one that is judged, to a Review."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from profilesmith.ledger import Line
from profilesmith.ledger.file import CheckFile, ComparisonFile, MotionFile
from profilesmith.ledger.judgement import Judgement
from profilesmith.ledger.line_edit import ValueEdited
from profilesmith.profile.compare_profiles import Difference
from profilesmith.review.consequences import caution_sources, cautions, consequences
from profilesmith.review.review import AreaChanges, Review, StandingValues, ValueChange
from profilesmith.review.wording import relative_change, show_values, signs_shown, visible
from profilesmith.vocabulary.setting import Setting, Vocabulary

NO_SHARES: Mapping[str, tuple[str, str]] = MappingProxyType({})

WHAT_DIFFERS = "What differs"
WHAT_THEY_DO = "What these settings do"
JUDGED_ALONE = (
    "This text was judged alone. What it does against another one (time, plastic, stiffness) is judged in a derivation "
    "or a comparison, so their counts differ."
)


def comparison_review(
    differences: Sequence[Difference],
    vocabulary: Vocabulary,
    title: str,
    subject: str,
    notes: Sequence[str],
    file: ComparisonFile | CheckFile | MotionFile,
    others: Sequence[ValueEdited] = (),
    places: Mapping[str, Line] | None = None,
    held: StandingValues = StandingValues(),
    shares: Mapping[str, tuple[str, str]] = NO_SHARES,
) -> Review:
    """Arrange what differs. others: in keys without a setting; held: all values of the new or only text; shares: of
    what settings are written as shares, old and new."""
    judgement = Judgement(file.findings, file.cautions, file.figures)
    return Review(
        title=title,
        subject=visible(subject),
        recipes=(),
        groups=_groups(differences, vocabulary, places or {}, shares),
        by_hand=(),
        questions=(),
        kept=(),
        idle=(),
        overruled=(),
        conflicts=(),
        literals=(),
        unmapped=(),
        unread=(),
        notes=tuple(notes),
        assumed=(),
        cautions=cautions(judgement, ()),
        kind="comparison" if isinstance(file, ComparisonFile) else "check",
        file=file,
        figures=file.figures,
        values=held,
        consequences=consequences(judgement),
        caution_sources=caution_sources(judgement),
        others=tuple(map(_visible, others)),
    )


def _visible(edit: ValueEdited) -> ValueEdited:
    """With strangers' text made visible."""
    was, now = (None if text is None else signs_shown(text) for text in (edit.was, edit.now))
    return edit._replace(key=visible(edit.key), was=was, now=now, file=visible(edit.file))


def _groups(
    differences: Sequence[Difference],
    vocabulary: Vocabulary,
    places: Mapping[str, Line],
    shares: Mapping[str, tuple[str, str]],
) -> tuple[AreaChanges, ...]:
    by_area: dict[str, list[ValueChange]] = {area: [] for area in vocabulary.areas}
    for difference in differences:
        setting = vocabulary.settings[difference.setting]
        by_area[setting.area].append(_difference(difference, setting, places.get(setting.id), shares))
    return tuple(AreaChanges(vocabulary.areas[area], tuple(changes)) for area, changes in by_area.items() if changes)


def _difference(
    difference: Difference, setting: Setting, place: Line | None, shares: Mapping[str, tuple[str, str]]
) -> ValueChange:
    old, new = shares.get(setting.id, ("", ""))
    status = "changed" if difference.old and difference.new else "only new" if difference.new else "only old"
    return ValueChange(
        setting=setting.id,
        words=setting.meaning,
        status=status,
        base=_with_share(show_values(setting, difference.old), old),
        derived=_with_share(show_values(setting, difference.new), new),
        relative=relative_change(difference.old, difference.new, setting),
        file=place.file if place else "",
        line=place.line if place else 0,
        key=place.key if place else "",
    )


def _with_share(value: str, share: str) -> str:
    """``24 mm/s (60 % of outer_wall.speed)``: what it comes to, and the share that stands in the text."""
    return f"{value} ({share})" if value and share else value
