"""The findings as lines for a terminal, and as data."""

from collections import Counter
from collections.abc import Sequence
from textwrap import wrap
from typing import Any

from profilesmith.distil.bound import bound_of
from profilesmith.distil.finding import Distilled, DistilledRule
from profilesmith.distil.raw_difference import RawDifference
from profilesmith.distil.replay import Replay
from profilesmith.foundation.toml_text import harmless
from profilesmith.foundation.words import plural
from profilesmith.review.distilled.reasons import (
    as_tuned,
    counted,
    doubt_text,
    no_rule_reason,
    raw_text,
    settle_text,
    tweak_reason,
    way_text,
)
from profilesmith.review.distilled.remarks import (
    doubts,
    evidence,
    exceptions,
    heading,
    machine_tweaks,
    meaning,
    miss_text,
    no_rule_text,
    not_seen_text,
    tweak_text,
)
from profilesmith.review.distilled.write_recipe import law_text
from profilesmith.vocabulary.setting import Vocabulary

NARROWEST = 40


def report(
    distilled: Distilled,
    alone: Replay,
    together: Replay,
    raw: Sequence[RawDifference],
    vocabulary: Vocabulary,
    width: int = 100,
) -> str:
    """Everything in one text."""
    sure = [item for item in distilled.findings if not item.doubts]
    unsure = [item for item in distilled.findings if item.doubts]
    lines = [_counted(distilled, len(unsure)), *_one_pair(distilled), *_taken_for_one(distilled)]
    lines += _section("Rules", [line for item in sure for line in _finding(item, distilled, vocabulary)])
    lines += _section("Ambiguous rules", [line for item in unsure for line in _finding(item, distilled, vocabulary)])
    for machine, tweaks in machine_tweaks(distilled).items():
        lines += _section(
            f"Tweaks of {machine} alone, not in the recipe",
            [f"  {tweak_text(item, distilled.samples, vocabulary)}" for item in tweaks],
        )
    lines += _section(
        "No rule found",
        [f"  {no_rule_text(item, distilled.samples, vocabulary)}" for item in distilled.no_rule],
    )
    lines += _section("Shares", [f"  {way_text(way)}" for way in distilled.ways])
    missed = [f"  {not_seen_text(item, distilled.samples)}" for item in distilled.not_seen]
    lines += _section("Nothing to learn from", missed + [f"  no setting of the map: {raw_text(line)}" for line in raw])
    lines += _section("Replay", _replay(distilled, alone, together, vocabulary))
    if not distilled.findings:
        lines += [
            "",
            (
                "No rule was found: there is no recipe to "
                f"write{', only tweaks' if any(tweak.fits for tweak in distilled.tweaks) else ''}."
            ),
        ]
    return "\n".join(part for line in lines for part in _wrapped(harmless(line), width)) + "\n"


def _counted(distilled: Distilled, unsure: int) -> str:
    machines = len({sample.machine for sample in distilled.samples})
    ambiguous = f", {unsure} of them ambiguous" if unsure else ""
    return (
        f"{plural(len(distilled.samples), 'pair')} of {plural(machines, 'machine')}: "
        f"{plural(len(distilled.findings), 'rule')}{ambiguous}"
    )


def _one_pair(distilled: Distilled) -> list[str]:
    """What one pair is worth, said before its rules."""
    longer = sum(item.longer for item in distilled.findings)
    if len(distilled.samples) > 1 or not longer:
        return []
    none = (
        "no rule here is"
        if longer == len(distilled.findings)
        else f"{longer} of the rules {'is' if longer == 1 else 'are'} not"
    )
    return [
        (
            f"One pair: {none} shorter than the plain list of the values. Take the rules for guesses "
            "until a second pair settles them."
        )
    ]


def _taken_for_one(distilled: Distilled) -> list[str]:
    """Which pairs count as one machine's: two printers with one map would else be one unnoticed."""
    counts = Counter(sample.machine for sample in distilled.samples)
    return [
        f"{count} pairs count as those of one machine, {machine}: they have the same map and the "
        "same facts. If these are several printers,"
        " give each its own facts: --facts 1=FILE --facts 2=FILE."
        for machine, count in counts.items()
        if count > 1
    ]


def _section(title: str, lines: list[str]) -> list[str]:
    return ["", title, *lines] if lines else []


def _finding(item: DistilledRule, distilled: Distilled, vocabulary: Vocabulary) -> list[str]:
    more = [
        *meaning(item, distilled.samples, vocabulary),
        *doubts(item, vocabulary),
        *exceptions(item, distilled.samples, vocabulary),
    ]
    return [
        f"  {heading(item)}: {law_text(item.law, item.settings[0], vocabulary)}",
        f"      {evidence(item)}",
        *(f"      {line}" for line in more),
    ]


def _replay(distilled: Distilled, alone: Replay, together: Replay, vocabulary: Vocabulary) -> list[str]:
    lines = [f"  the recipe alone: {_counts(alone)}"] if distilled.findings or not distilled.tweaks else []
    if distilled.tweaks:
        lines.append(
            f"  with each machine's tweaks{' over it' if distilled.findings else ' alone'}: {_counts(together)}"
        )
    last = together if distilled.tweaks else alone
    lines += [f"  exception: {miss_text(miss, distilled.samples, vocabulary)}" for miss in last.misses]
    return lines + [f"  {distilled.samples[number].name}: {problem.message}" for number, problem in last.problems]


def _counts(result: Replay) -> str:
    values = counted(result)
    if result.passed:
        return f"{as_tuned(result)} ({values})"
    return f"{plural(len(result.misses), 'value')} otherwise than tuned ({values})"


def _wrapped(line: str, width: int) -> list[str]:
    indent = " " * (len(line) - len(line.lstrip()) + 4)
    return wrap(
        line,
        max(width, NARROWEST),
        subsequent_indent=indent,
        break_long_words=False,
        break_on_hyphens=False,
        drop_whitespace=True,
    ) or [""]


def report_json(
    distilled: Distilled, alone: Replay, together: Replay, raw: Sequence[RawDifference], vocabulary: Vocabulary
) -> dict[str, Any]:
    """The same as data."""
    return {
        "format": 1,
        "kind": "profilesmith distillation",
        "pairs": [{"name": sample.name, "machine": sample.machine} for sample in distilled.samples],
        "rules": [_finding_json(item, distilled, vocabulary) for item in distilled.findings],
        "tweaks": [
            {
                "machine": item.machine,
                "setting": item.setting,
                "law": law_text(item.law, item.setting, vocabulary),
                "reason": tweak_reason(item),
                "fits": item.fits,
            }
            for item in distilled.tweaks
        ],
        "no_rule": [{"setting": item.setting, "reason": no_rule_reason(item)} for item in distilled.no_rule],
        "not_learnt": [not_seen_text(item, distilled.samples) for item in distilled.not_seen],
        "unmapped": list(map(raw_text, raw)),
        "replay": _replay_json(alone, distilled, vocabulary),
        "replay_with_tweaks": _replay_json(together, distilled, vocabulary),
    }


def _finding_json(item: DistilledRule, distilled: Distilled, vocabulary: Vocabulary) -> dict[str, Any]:
    bound = bound_of(item, vocabulary)
    return {
        "settings": list(item.named),
        "except": list(item.excluded),
        "law": law_text(item.law, item.settings[0], vocabulary),
        "bound": law_text(bound, item.settings[0], vocabulary) if bound is not None else "",
        "meaning": " ".join(meaning(item, distilled.samples, vocabulary)),
        "changed": len(item.changed),
        "met": len(item.met),
        "bits": round(item.bits, 3),
        "bits_without": round(item.without, 3),
        "doubts": list(map(doubt_text, item.doubts)),
        "rivals": [law_text(law, item.settings[0], vocabulary) for law in item.rivals],
        "settle": settle_text(item, vocabulary),
        "exceptions": exceptions(item, distilled.samples, vocabulary),
    }


def _replay_json(result: Replay, distilled: Distilled, vocabulary: Vocabulary) -> dict[str, Any]:
    return {
        "passed": result.passed,
        "exact": result.exact,
        "rounded": result.rounded,
        "inside_window": result.inside,
        "otherwise": [miss_text(miss, distilled.samples, vocabulary) for miss in result.misses],
        "problems": [f"{distilled.samples[number].name}: {problem.message}" for number, problem in result.problems],
    }
