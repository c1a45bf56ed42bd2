"""Pairs of settings texts, each through its own map and facts, as samples to learn from."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction
from pathlib import Path

from profilesmith.distil.raw_difference import RawDifference, RawKind
from profilesmith.distil.sample import Sample
from profilesmith.evidence.file_name import safe_stem
from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.number import written_decimals
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.foundation.quantity import split_quantity, unit_before_words
from profilesmith.ledger import Line
from profilesmith.ledger.line_edit import ValueEdited
from profilesmith.merge.other_keys import other_keys_edited
from profilesmith.review.line_edit_words import LONGEST
from profilesmith.review.reading_notes import unread_lines
from profilesmith.review.wording import visible
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.translation.key_map import KeyMap
from profilesmith.translation.spot import Spot
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.read import read_documents, read_facts, read_key_map

NUMBERED = re.compile(r"(\d+(?:,\d+)*)=(.+)", re.S)


class PairsRequest(NamedTuple):
    """pairs: base and tuned file. key_maps: one for all, or one a pair. facts: "FILE" for all pairs, "2=FILE" for
    one.
    """

    pairs: tuple[tuple[str, str], ...]
    key_maps: tuple[str, ...]
    facts: tuple[str, ...] = ()
    library: Path | None = None


class PairTexts(NamedTuple):
    """A pair as read. raw: differences in keys that the map does not know; files: all that was read."""

    sample: Sample
    raw: tuple[RawDifference, ...]
    files: tuple[str, ...]


def pairs_of(bases: Sequence[str], tuned: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """Bases and tuned versions side by side. Raises Refused where one has no partner."""
    if len(bases) != len(tuned):
        message = f"{len(bases)} bases and {len(tuned)} tuned versions make no pairs."
        refuse_if([Problem("no-pair", message, Place("--pair"), "Name both for each pair: --pair BASE TUNED.")])
    return tuple(zip(bases, tuned, strict=True))


def read_pairs(request: PairsRequest) -> list[PairTexts]:
    """All pairs. Raises Refused with the problems of all files."""
    problems = _wrong_call(request)
    facts = _facts_by_pair(request, problems)
    refuse_if(problems)
    maps = request.key_maps if len(request.key_maps) > 1 else request.key_maps * len(request.pairs)
    read_maps = {word: read_key_map(word, request.library, problems) for word in dict.fromkeys(maps)}
    known = {word: key_map for word, key_map in read_maps.items() if key_map is not None}
    machines = _machines(
        {word: safe_stem(key_map.name) if key_map.name else Path(word).stem for word, key_map in known.items()},
        maps,
        facts,
    )
    read = [
        _read(request, number, known[maps[number]], facts[number], machines[number], problems)
        for number in range(len(request.pairs))
        if maps[number] in known
    ]
    refuse_if(problems)
    return [text for text in read if text is not None]


def _wrong_call(request: PairsRequest) -> list[Problem]:
    count, maps = len(request.pairs), len(request.key_maps)
    problems = []
    if not count:
        problems.append(
            Problem(
                "no-pair", "There is no pair.", Place("--pair"), "Name a base and its tuned version: --pair BASE TUNED."
            )
        )
    if count and maps not in (1, count):
        message = f"{count} pairs and {maps} maps do not go together."
        problems.append(
            Problem(
                "keymaps", message, Place("--keymap"), "Name one map for all pairs, or one for each in their order."
            )
        )
    return problems


def _facts_by_pair(request: PairsRequest, problems: list[Problem]) -> list[tuple[str, ...]]:
    """The facts files of each pair."""
    by_pair: list[list[str]] = [[] for _ in request.pairs]
    for text in request.facts:
        numbered = NUMBERED.fullmatch(text)
        if numbered is None:
            for names in by_pair:
                names.append(text)
            continue
        for number in map(int, numbered[1].split(",")):
            if not 1 <= number <= len(by_pair):
                message = f"There is no pair {number}."
                problems.append(
                    Problem("facts-pair", message, Place("--facts"), f"Pairs count from 1 to {len(by_pair)}.")
                )
            else:
                by_pair[number - 1].append(numbered[2])
    return [tuple(names) for names in by_pair]


def _machines(names: Mapping[str, str], maps: Sequence[str], facts: Sequence[tuple[str, ...]]) -> list[str]:
    """A name for each pair's machine: pairs with the same map and the same facts are one machine's.

    names: of the maps, as they may stand in a file's name.
    """
    keys = [(maps[number], facts[number]) for number in range(len(maps))]
    named: dict[tuple[str, tuple[str, ...]], str] = {}
    for key in dict.fromkeys(keys):
        stem = names.get(key[0], "")
        alone = sum(names.get(other[0], "") == stem for other in dict.fromkeys(keys)) == 1
        more = "-".join(Path(name).stem for name in key[1])
        name = stem if alone or not more else f"{stem}-{more}"
        while name in named.values():
            name += "-other"
        named[key] = name
    return [named[key] for key in keys]


def _read(
    request: PairsRequest,
    number: int,
    key_map: KeyMap,
    fact_names: tuple[str, ...],
    machine: str,
    problems: list[Problem],
) -> PairTexts | None:
    base, tuned = request.pairs[number]
    facts: Facts = read_facts(fact_names, request.library, problems)
    documents = [read_documents([name], key_map.habits, problems) for name in (base, tuned)]
    if not all(documents):
        return None
    before, after = (translate(side, key_map, load_vocabulary()) for side in documents)
    problems += [*before.problems, *after.problems]
    sample = Sample(_pair_name(request, number), machine, before.profile, after.profile, facts, written_steps(after))
    files = (base, tuned, key_map.file, *(fact.place.file for fact in facts.values()))
    return PairTexts(sample, tuple(_raw(before, after)), files)


def _pair_name(request: PairsRequest, number: int) -> str:
    """Names of files only, since a recipe is handed round; with the pair's number where two pairs have the same
    names.
    """
    names = [f"{Path(base).name} → {Path(tuned).name}" for base, tuned in request.pairs]
    return names[number] if names.count(names[number]) == 1 else f"{names[number]} (pair {number + 1})"


def _raw(before: Translation, after: Translation) -> list[RawDifference]:
    """Lines that differ and that no rule can be learnt from: keys that the map does not know, lines that are no
    setting.
    """
    differences = list(map(_of_other_key, other_keys_edited(before, after)))
    read = {line.text for line in unread_lines(before)}
    return differences + [_no_setting(line) for line in unread_lines(after) if line.text not in read]


def _of_other_key(edit: ValueEdited) -> RawDifference:
    kind: RawKind = "gone" if edit.now is None else "changed"
    text = (edit.now if edit.now is not None else edit.was or "")[:LONGEST]
    return RawDifference(Path(edit.file).name, edit.line, visible(edit.key), visible(text), kind)


def _no_setting(line: Line) -> RawDifference:
    return RawDifference(Path(line.file).name, line.line, line.key, line.text, "no setting")


def written_steps(translation: Translation) -> dict[str, tuple[Fraction, ...]]:
    """For each setting the step of the decimals that its text is written with, in canonical units or in shares."""
    return {name: _steps(name, translation) for name, spot in translation.spots.items() if spot.spans}


def _steps(name: str, translation: Translation) -> tuple[Fraction, ...]:
    spot: Spot = translation.spots[name]
    line = spot.lines[0]
    document = translation.documents[line.document]
    raw = document.value(line.assignment)
    entry = translation.profile.entries.get(name)
    steps = []
    for tool, span in enumerate(spot.spans):
        number, suffix = split_quantity(span.of(raw), translation.decimal)
        unit = unit_before_words(suffix)[0] or spot.binding.own_unit
        if number is None or entry is None or unit is None:
            steps.append(Fraction(0))
            continue
        decimals = written_decimals(span.of(raw)[: len(span.of(raw)) - len(suffix)].strip(), translation.decimal)
        share = bool(entry.shares) and entry.shares[tool] is not None
        steps.append(abs(unit.factor) / (100 if share else 1) / 10**decimals)
    return tuple(steps)
