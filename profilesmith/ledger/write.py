"""A ledger and what belongs to it as the file that holds them, and a file as text.

The change stands in it a second time as an RFC 6902 patch over the neutral profile.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from profilesmith.facts.facts import Facts
from profilesmith.ledger.file import FORMAT, FactSaid, File, LedgerFile, MotionFile, PatchOperation
from profilesmith.ledger.form import form_of, member_texts
from profilesmith.ledger.history import FileHash
from profilesmith.ledger.json_text import bytes_of, json_bytes
from profilesmith.ledger.judgement import Judgement
from profilesmith.ledger.ledger import Ledger, Line, StartCommand, Values
from profilesmith.ledger.plain_forms import Texts
from profilesmith.profile.compare_profiles import Difference, compare_profiles
from profilesmith.profile.profile import Profile


def file_json(file: File) -> dict[str, Any]:
    """A file as JSON data."""
    if isinstance(file, MotionFile):
        return _motion_json(file)
    data: dict[str, Any] = form_of(type(file)).write(file)  # type: ignore[arg-type]
    return data


def _motion_json(file: MotionFile) -> dict[str, Any]:
    """Its own members stand among the others."""
    members = form_of(MotionFile).write(file)
    head = {"format": 1, "kind": "profilesmith check", "written_by": file.written_by, **file.more}
    return {**head, **{name: members[name] for name in ("findings", "cautions", "figures")}}


def file_text(file: File) -> str:
    """A file as it is written: one line for each row."""
    return file_bytes(file).decode()


def file_bytes(file: File, texts: Texts | None = None) -> bytes:
    """The same in bytes. Quicker than by way of data, and the same. texts: those of the run's ledgers so far."""
    if isinstance(file, MotionFile):
        return json_bytes(_motion_json(file))
    raw = bytes_of(member_texts(file, texts or Texts()))
    return json_bytes(file_json(file)) if raw is None else raw


def values_of_profile(profile: Profile) -> dict[str, Values]:
    """The neutral profile: setting -> canonical values."""
    return {name: entry.values for name, entry in profile.entries.items()}


def patch(base: Profile, derived: Profile) -> tuple[PatchOperation, ...]:
    """RFC 6902 operations that turn the base's neutral profile into the derived one."""
    return tuple(_operation(difference) for difference in compare_profiles(base, derived))


def _operation(difference: Difference) -> PatchOperation:
    path = "/" + difference.setting.replace("~", "~0").replace("/", "~1")  # RFC 6901 pointer
    if not difference.new:
        return PatchOperation("remove", path)
    return PatchOperation("replace" if difference.old else "add", path, difference.new)


def facts_said(facts: Facts) -> Mapping[str, FactSaid]:
    """Facts without where they were written."""
    return {name: FactSaid(fact.said, fact.value) for name, fact in facts.items()}


def ledger_file(
    ledger: Ledger,
    files: Sequence[FileHash],
    key_map: str,
    literals: Sequence[StartCommand],
    unmapped: Sequence[Line],
    version: str,
    judgement: Judgement = Judgement(),
) -> LedgerFile:
    """All that can be said of a derivation before it is written. files: the bases."""
    return LedgerFile(
        format=FORMAT,
        kind="profilesmith ledger",
        written_by=f"profilesmith {version}",
        files=tuple(files),
        key_map=key_map,
        facts=facts_said(ledger.facts),
        recipes=ledger.recipes,
        rows=ledger.rows,
        base=values_of_profile(ledger.base),
        derived=values_of_profile(ledger.derived),
        patch=patch(ledger.base, ledger.derived),
        conflicts=ledger.problems,
        literals=tuple(literals),
        unmapped=tuple(unmapped),
        findings=judgement.findings,
        cautions=judgement.cautions,
        figures=judgement.figures,
    )
