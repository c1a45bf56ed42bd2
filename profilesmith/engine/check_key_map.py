"""Key map check: every binding read, and what does not fit."""

from __future__ import annotations

from collections.abc import Sequence

from profilesmith.engine.read import Source, translation_of
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.review.findings.facts_words import far_off_settings
from profilesmith.review.key_map_report import AlikeSetting, map_json, map_text, unknown_lines
from profilesmith.review.unread_lines import unread_settings
from profilesmith.review.wording import visible
from profilesmith.translation.document_to_profile import Translation


class MapReport(NamedTuple):
    """text: to print. code: 0 when all is well, 1 when something is to be looked at, 2 when it cannot be used."""

    text: str
    code: int


def check_key_map(bases: Sequence[Source], key_map: Source, form: str) -> MapReport:
    """Read the texts through the map. Raises Refused when map or texts cannot be read at all."""
    return report(translation_of(bases, key_map), form)


def report(translation: Translation, form: str) -> MapReport:
    """What texts read as, and what is wrong with it. form: ``terminal`` or ``json``."""
    gone = [absent for absent in translation.profile.absent.values() if absent.code != "only proposed"]
    look = (gone, far_off_settings(translation.profile), unread_settings(translation.documents))
    code = 2 if translation.problems else 1 if any(look) else 0
    alike = _lookalikes(translation)
    return MapReport(map_json(translation, alike) if form == "json" else map_text(translation, alike), code)


def _lookalikes(translation: Translation) -> dict[str, AlikeSetting]:
    """Key as shown -> the setting that it looks like, the likeliest first."""
    if not unknown_lines(translation):
        return {}
    from profilesmith.suggest.lookalikes import lookalikes  # only where some key is unknown

    unknown = ((line.assignment.section, line.assignment.key) for line in translation.unmapped)
    places = {place for place in unknown if not translation.key_map.leaves_alone(*place)}
    alike = lookalikes(translation.documents, translation.key_map, places)
    return {
        visible(f"[{section}] {key}" if section else key): AlikeSetting(like.setting, like.bound)
        for (section, key), like in alike.items()
    }
